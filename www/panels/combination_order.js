/** The orders that combinations can be in, and how far one is from another. */

/** @typedef {import("../engine/levertrain.js").Outcome} Outcome */

/** The states, with their messages. @type {[string, string][]} */
export const STATES = [
  ["driving", "state-driving"],
  ["over-applied", "state-over-applied"],
  ["neutral", "state-neutral"],
  ["output-held", "state-output-held"],
  ["tied-up", "state-tied-up"],
];

/**
 * How many elements change between two combinations.
 * @param {string[]} from
 * @param {string[]} to
 */
function changes(from, to) {
  const both = to.filter((id) => from.includes(id)).length;
  return from.length + to.length - 2 * both;
}

/**
 * The one element that changes between two combinations, if it is one.
 * @param {string[]} from
 * @param {string[]} to
 */
export function oneChange(from, to) {
  if (changes(from, to) !== 1) return undefined;
  return to.length > from.length
    ? { element: to.find((id) => !from.includes(id)) ?? "", message: "page-combinations-apply" }
    : { element: from.find((id) => !to.includes(id)) ?? "", message: "page-combinations-release" };
}

/**
 * Puts outcomes in order; those that are alike stay in counting order.
 * @param {Outcome[]} outcomes
 * @param {string} order
 * @param {boolean} descending
 * @param {string[]} now
 */
export function sort(outcomes, order, descending, now) {
  const states = STATES.map(([key]) => key);
  /** @type {Record<string, (outcome: Outcome) => number>} */
  const keys = {
    // Those without a ratio come last either way.
    ratio: ({ ratio }) => ratio?.decimal ?? (descending ? -Infinity : Infinity),
    state: ({ state }) => states.indexOf(state),
    applied: ({ applied }) => applied.length,
    changes: ({ applied }) => changes(now, applied),
  };
  const key = keys[order];
  if (!key) return;
  const known = new Map(outcomes.map((outcome) => [outcome, key(outcome)]));
  outcomes.sort((a, b) => {
    const [first, second] = [known.get(a) ?? 0, known.get(b) ?? 0];
    if (first === second) return 0;
    return first < second === descending ? 1 : -1;
  });
}
