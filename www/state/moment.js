/** Speeds of an instant that both drawings show in place of the steady motion. */

import { NO_BREAK, number } from "../kit/format.js";
import { motionMark } from "../kit/motion.js";
import { unitOf } from "./units.js";

/** @typedef {import("./desk.js").Desk} Desk */

/**
 * Whoever shows such an instant.
 * @typedef {object} Shower
 * @property {(shaft: string) => number | undefined} speedOf speed of a shaft in rev/min, by its id
 */

/** Slower than this in rev/min something stands still. */
const STILL = 1e-6;

/** @param {Desk} desk @param {number} speed rev/min */
export function speedFigure(desk, speed) {
  const { size } = unitOf(desk.units, "speed");
  return isStill(speed) ? "0" : number(speed / size);
}

/** @param {Desk} desk @param {number} speed rev/min */
export function speedWords(desk, speed) {
  return `${speedFigure(desk, speed)}${NO_BREAK}${unitOf(desk.units, "speed").name}`;
}

/**
 * Which way something turns; nothing where it stands still.
 * @param {number} speed
 */
export function wayOf(speed) {
  return isStill(speed) ? [] : [motionMark(speed > 0 ? "forward" : "backward")];
}

/** @param {number} speed rev/min */
function isStill(speed) {
  return Math.abs(speed) < STILL;
}
