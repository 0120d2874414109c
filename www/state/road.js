/** What driver and road ask for. */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/**
 * @typedef {object} Road
 * @property {number} pedal 0 released to 1 full
 * @property {number} grade slope as rise over run, negative downhill
 * @property {boolean} lockup whether the converter's lock-up clutch is applied
 */

/** @type {Readonly<Road>} */
export const USUAL_ROAD = { pedal: 0.3, grade: 0, lockup: false };

/** Steepest slopes the page offers, in percent. */
export const GRADES = { min: -20, max: 30 };

/**
 * A short text for links and attributes: pedal and slope in percent, and 1 for locked.
 * @param {Road} road
 */
export function roadCode({ pedal, grade, lockup }) {
  const percent = (/** @type {number} */ share) => Math.round(share * 100);
  return `${percent(pedal)},${percent(grade)},${lockup ? 1 : 0}`;
}

/**
 * @param {string} code
 * @returns {Road}
 */
export function roadFrom(code) {
  const numbers = code.split(",").map((text) => (/^-?\d{1,3}$/.test(text) ? Number(text) : NaN));
  const [pedal, grade, locked] = numbers;
  const inside = pedal >= 0 && pedal <= 100 && grade >= GRADES.min && grade <= GRADES.max;
  if (numbers.length !== 3 || !inside || !(locked === 0 || locked === 1)) {
    const fix = say("page-fix-road", { least: GRADES.min, most: GRADES.max });
    throw new Failure("road", say("page-problem-road", { code }), fix);
  }
  return { pedal: pedal / 100, grade: grade / 100, lockup: locked === 1 };
}
