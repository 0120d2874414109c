/** How a shaft moves: a mark and the word, never colour alone. */

import { h, icon } from "./dom.js";
import { say } from "./words.js";

/** The words of the drawings. */
const WORDS = {
  held: "motion-held",
  forward: "motion-forward",
  backward: "motion-backward",
  free: "motion-free",
  fights: "motion-fights",
};

/** @param {import("../engine/levertrain.js").MotionWord} motion */
export function motionMark(motion) {
  return h("span", { class: `motion ${motion}` }, icon(motion), say(WORDS[motion]));
}
