/** How fast a search goes, and how long it will take. */

import { LONG } from "./ahead.js";

/** How long it goes on before that is told, in milliseconds. */
const PROBE_MS = 300;
/** The same where that would be long: the first boxes are those with most finds, which take longest. */
const SURE_MS = 1500;
const MS = 1000;

/**
 * How far a search is.
 * @typedef {object} State
 * @property {number} steps what was gone through so far of that which takes the time
 * @property {number} covered what was gone through so far of that which is told
 * @property {boolean} rests
 * @property {number} [estimate] about how many steps there are
 */

export class Pace {
  /** Where it stood when it went on last, and when. @type {{ time: number, steps: number, covered: number } | undefined} */
  #first;
  #isTold = false;

  clear() {
    this.#first = undefined;
    this.#isTold = false;
  }

  /**
   * @param {State} state
   * @returns {{ rate: number, left?: number, isFirst: boolean } | undefined} how much is covered in a second, how many seconds are left
   *   where that can be told, and whether it is told for the first time
   */
  hear({ steps, covered, estimate, rests }) {
    if (rests) {
      this.#first = undefined;
      return undefined;
    }
    const time = performance.now();
    this.#first ??= { time, steps, covered };
    const took = (time - this.#first.time) / MS;
    const done = steps - this.#first.steps;
    if (took * MS < PROBE_MS || done <= 0) return undefined;
    const left = estimate === undefined ? undefined : Math.max(((estimate - steps) * took) / done, 0);
    const isFirst = left !== undefined && !this.#isTold && (left < LONG || took * MS > SURE_MS);
    this.#isTold ||= isFirst;
    return { rate: (covered - this.#first.covered) / took, left, isFirst };
  }
}
