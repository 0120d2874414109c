/** What the tooth counts of a set do not satisfy. */

import { h } from "../kit/dom.js";
import { sayParts } from "../kit/words.js";
import { follow } from "../state/follow.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const list = h("ul", { class: "notes-list" });
  panel.fill(list);

  follow(desk, ["train"], () => {
    const warnings = desk.info?.warnings ?? [];
    list.replaceChildren(
      ...warnings.map(({ coupling, text }) => {
        const set = desk.info?.couplings.find(({ id }) => id === coupling);
        return h("li", {}, ...sayParts("page-teeth-note", { set: h("b", {}, set?.label ?? coupling), text }));
      }),
    );
  });
}
