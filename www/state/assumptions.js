/** What is assumed about losses, and what the engine makes of it. */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/** @typedef {import("./desk.js").Desk} Desk */

/**
 * @typedef {object} Assumptions
 * @property {number} mesh efficiency of every mesh, above 0 and at most 1
 * @property {number} drag torque in N·m of each open element at 1000 rev/min of slip
 * @property {boolean} coasting whether the load drives the input
 */

/** The slip in rev/min that the drag is given at. */
export const DRAG_SLIP = 1000;

/** 0.99 a mesh is common practice; makers' data differ. @type {Readonly<Assumptions>} */
export const USUAL_ASSUMPTIONS = { mesh: 0.99, drag: 0, coasting: false };

/** Highest drag the page offers, in N·m at 1000 rev/min of slip. */
export const MOST_DRAG = 10000;

/** Losses of more gear trains than these take too long to be worked out unasked (2ⁿ directions). */
const MOST_UNASKED = 9;

/**
 * Whether losses can be worked out at every change.
 * @param {Desk} desk
 */
export function lossesAreQuick({ info }) {
  // A set of four members is two gear trains and the meshes both go through.
  const trains = info?.couplings.map(({ members }) => (members.length > 3 ? 3 : 1)) ?? [];
  return trains.reduce((sum, count) => sum + count, 0) <= MOST_UNASKED;
}

/**
 * A short text for links and attributes: mesh efficiency in percent, drag in N·m, and 1 for coasting.
 * @param {Assumptions} assumptions
 */
export function assumptionsCode({ mesh, drag, coasting }) {
  const short = (/** @type {number} */ value) => Number(value.toPrecision(8));
  return `${short(mesh * 100)},${short(drag)},${coasting ? 1 : 0}`;
}

/**
 * @param {string} code
 * @returns {Assumptions}
 */
export function assumptionsFrom(code) {
  const numbers = code.split(",").map((text) => (text.trim() === "" ? NaN : Number(text)));
  const [percent, drag, coasting] = numbers;
  const mesh = percent / 100;
  const inside = isMesh(mesh) && isDrag(drag);
  if (numbers.length !== 3 || !inside || !(coasting === 0 || coasting === 1)) {
    const fix = say("page-fix-losses", { most: MOST_DRAG });
    throw new Failure("losses", say("page-problem-losses", { code }), fix);
  }
  return { mesh, drag, coasting: coasting === 1 };
}

/** @param {number} value */
export function isMesh(value) {
  return value > 0 && value <= 1;
}

/** @param {number} value N·m */
export function isDrag(value) {
  return value >= 0 && value <= MOST_DRAG;
}
