/** The line under the drawings: what the pointed-at shaft does, or how to use the stage. */

import { h } from "../dom.js";
import { follow } from "../desk.js";
import { speedWithUnit } from "../format.js";
import { motionMark } from "./motion.js";

const HINT =
  "Drag a plate pack to close or open it, or press it. Point at a member to follow it everywhere.";

/** @param {import("../desk.js").Desk} desk */
export function caption(desk) {
  const node = h("p", { class: "caption", "data-part": "readout" });

  function update() {
    const { answer, lit } = desk;
    const index = answer?.shafts.findIndex((shaft) => shaft.id === lit) ?? -1;
    const shaft = answer?.shafts[index];
    node.toggleAttribute("data-lit", Boolean(shaft));
    if (!answer || !shaft) {
      node.textContent = HINT;
      return;
    }
    const motion = answer.motions[index];
    const speed = shaft.speed ? speedWithUnit(shaft.speed, desk.speed) : "no speed is decided";
    node.replaceChildren(h("b", {}, shaft.label), ` ${speed} `, motionMark(motion));
  }
  follow(desk, ["answer", "light", "speed"], update);
  return node;
}
