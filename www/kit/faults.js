/** What went wrong, in one shape: where, what, and what to do about it. */

/** @typedef {{ place: string, problem: string, fix: string }} Fault */

/** A fault found by the page itself. */
export class Failure extends Error {
  /**
   * @param {string} place
   * @param {string} problem
   * @param {string} fix
   */
  constructor(place, problem, fix) {
    super(`${place}: ${problem}; ${fix}`);
    this.faults = [{ place, problem, fix }];
  }
}

/**
 * The faults of anything thrown, by the engine, the page or the browser.
 * @param {unknown} error
 * @returns {Fault[]}
 */
export function faultsOf(error) {
  const faults = /** @type {{ faults?: Fault[] } | null} */ (error)?.faults;
  if (Array.isArray(faults) && faults.length > 0) return faults;
  const problem = error instanceof Error ? error.message : String(error);
  return [{ place: "page", problem, fix: "reload the page" }];
}
