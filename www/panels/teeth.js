/** What the tooth counts of a set do not satisfy. */

import { h } from "../kit/dom.js";
import { follow } from "../state/desk.js";
import { panel } from "../kit/panel.js";

/** @param {import("../state/desk.js").Desk} desk */
export function teeth(desk) {
  const list = h("ul", { class: "notes-list" });
  const node = panel("Tooth checks", "teeth", true, list);

  follow(desk, ["train"], () => {
    const warnings = desk.info?.warnings ?? [];
    node.hidden = warnings.length === 0;
    list.replaceChildren(
      ...warnings.map(({ coupling, text }) => {
        const set = desk.info?.couplings.find(({ id }) => id === coupling);
        return h("li", {}, h("b", {}, set?.label ?? coupling), `: ${text}.`);
      }),
    );
  });
  return node;
}
