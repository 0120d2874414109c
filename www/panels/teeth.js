/** What the tooth counts of a set do not satisfy. */

import { h, whenOther } from "../kit/dom.js";
import { sayParts } from "../kit/words.js";
import { follow } from "../state/follow.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const list = h("ul", { class: "notes-list" });
  panel.fill(list);

  const warnings = () => desk.info?.warnings ?? [];
  /** @param {string} coupling */
  const label = (coupling) => desk.info?.couplings.find(({ id }) => id === coupling)?.label ?? coupling;
  const told = () => warnings().map(({ coupling, text }) => ({ set: label(coupling), text }));
  const fillList = whenOther(told, () => {
    list.replaceChildren(...told().map(({ set, text }) => h("li", {}, ...sayParts("page-teeth-note", { set: h("b", {}, set), text }))));
  });
  follow(desk, ["train"], fillList);
}
