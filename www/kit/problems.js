/** What went wrong, in one shape: where, what, and what to do about it. */

import { SOMEWHERE } from "./before.js";

/** @typedef {{ place: string, problem: string, fix: string }} Problem */

/** Longest text of a problem in characters: it may quote a whole link. */
const LONGEST = 160;

/** Characters that show nothing, break lines or turn the direction of what follows. */
const HIDDEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** What went wrong, as an error that says so in one text. */
export class Problems extends Error {
  /** @param {Problem[]} problems */
  constructor(problems) {
    super(problems.map(({ place, problem, fix }) => `${place}: ${problem}; ${fix}`).join("\n"));
    this.problems = problems;
  }
}

/** A problem found by the page itself. */
export class Failure extends Problems {
  /**
   * @param {string} place
   * @param {string} problem
   * @param {string} fix
   */
  constructor(place, problem, fix) {
    super([{ place, problem, fix }]);
  }
}

/**
 * The problems of anything thrown, by the engine, the page or the browser.
 * @param {unknown} error
 * @returns {Problem[]}
 */
export function problemsOf(error) {
  const problems = /** @type {{ problems?: Problem[] } | null} */ (error)?.problems;
  const problem = error instanceof Error ? error.message : String(error);
  const found = Array.isArray(problems) && problems.length > 0 ? problems : [{ problem, ...SOMEWHERE }];
  return found.map(({ place, problem, fix }) => ({ place: legible(place), problem: legible(problem), fix }));
}

/**
 * A text that may quote what somebody else wrote, fit to be read: not longer than a few lines, its
 * middle left out, and with every hidden character as its number.
 * @param {string} text
 */
export function legible(text) {
  // By characters, so that none is cut in two. A whole link need not be taken apart for that.
  const [head, tail] = [[...text.slice(0, 2 * LONGEST)], [...text.slice(-2 * LONGEST)]];
  const long = text.length > 2 * LONGEST || head.length > LONGEST;
  const half = LONGEST / 2;
  const short = long ? `${head.slice(0, half).join("")}…${tail.slice(-half + 1).join("")}` : text;
  return short.replaceAll(HIDDEN, (hidden) => `\\u{${hidden.codePointAt(0)?.toString(16).toUpperCase()}}`);
}
