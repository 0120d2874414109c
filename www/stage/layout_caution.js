/**
 * The line under the drawings that says what of the half-section cannot be built, if anything, and whether
 * it could not be drawn to one scale.
 */

import { h } from "../kit/dom.js";
import { whenIdle } from "../kit/pieces.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";

/**
 * What is to be said of the half-section; nothing where it is as it was asked for and can be built.
 * @param {import("../state/desk.js").Desk} desk
 */
export function cautionOf(desk) {
  const scale = desk.sizes?.outOfScale ? say("page-out-of-scale") : "";
  return [desk.info?.caution ?? "", scale].filter(Boolean).join(" ");
}

/** @param {import("../state/desk.js").Desk} desk */
export function layoutCaution(desk) {
  // Where the whole engine does not come, the drawing stays as it is.
  const better = () => desk.info?.needless && desk.becomeWhole().catch(() => undefined);
  const node = h("p", { class: "layout-caution", "data-part": "layout-caution", hidden: true });
  follow(desk, ["train", "look"], () => {
    const caution = cautionOf(desk);
    node.textContent = caution;
    node.hidden = !caution;
    if (desk.info?.needless && !desk.isWhole) whenIdle(better);
  });
  return node;
}
