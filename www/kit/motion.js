/** How a shaft moves: a mark and the word, never colour alone. */

import { h, icon } from "./dom.js";

/** @param {import("../engine/levertrain.js").MotionWord} motion */
export function motionMark(motion) {
  return h("span", { class: `motion ${motion}` }, icon(motion), motion);
}
