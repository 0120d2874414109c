/** What went wrong, in one shape: where, what, and what to do about it. */

/** @typedef {{ place: string, problem: string, fix: string }} Fault */

/** Longest text of a fault in characters: it may quote a whole link. */
const LONGEST = 160;

/** Characters that show nothing, break lines or turn the direction of what follows. */
const HIDDEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** What went wrong, as an error that says so in one text. */
export class Faults extends Error {
  /** @param {Fault[]} faults */
  constructor(faults) {
    super(faults.map(({ place, problem, fix }) => `${place}: ${problem}; ${fix}`).join("\n"));
    this.faults = faults;
  }
}

/** A fault found by the page itself. */
export class Failure extends Faults {
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
 * The faults of anything thrown, by the engine, the page or the browser.
 * @param {unknown} error
 * @returns {Fault[]}
 */
export function faultsOf(error) {
  const faults = /** @type {{ faults?: Fault[] } | null} */ (error)?.faults;
  const problem = error instanceof Error ? error.message : String(error);
  const found = Array.isArray(faults) && faults.length > 0 ? faults : [{ place: "page", problem, fix: "reload the page" }];
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
