/** The line under the drawings that says what of the half-section cannot be built, if anything. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";

/** @param {import("../state/desk.js").Desk} desk */
export function layoutCaution(desk) {
  const node = h("p", { class: "layout-caution", "data-part": "layout-caution", hidden: true });
  follow(desk, ["train"], () => {
    node.textContent = desk.info?.caution ?? "";
    node.hidden = !desk.info?.caution;
  });
  return node;
}
