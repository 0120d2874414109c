/** Which combinations are listed, in which order, and how far one is from another. */

import { STATES } from "../work/outcomes.js";

/** @typedef {import("../work/outcomes.js").Outcomes} Outcomes */

/**
 * What is asked of the combinations listed.
 * @typedef {object} Wish
 * @property {number} state its number; 0 is any
 * @property {number} applied the elements that have to be, as bits
 * @property {number} open those that must not be
 * @property {string} order
 * @property {boolean} descending
 * @property {number} now the combination on screen
 */

/**
 * The numbers of the combinations listed, in order.
 * @param {Outcomes} outcomes
 * @param {Wish} wish
 */
export function list(outcomes, wish) {
  return sorted(chosen(outcomes, wish), outcomes, wish);
}

/**
 * @param {Outcomes} outcomes
 * @param {Wish} wish
 */
function chosen({ states, known }, { state, applied, open }) {
  const numbers = new Uint32Array(known);
  let count = 0;
  for (let number = 0; number < known; number += 1) {
    const own = states[number];
    if (own !== 0 && (!state || own === state) && (number & applied) === applied && !(number & open)) {
      numbers[count] = number;
      count += 1;
    }
  }
  return numbers.subarray(0, count);
}

/**
 * Puts combinations in order by their ranks, of which there are few or as many as ratios; those of one rank stay
 * as they were. Much faster than to compare them.
 * @param {Uint32Array} numbers
 * @param {Outcomes} outcomes
 * @param {Wish} wish
 */
function sorted(numbers, outcomes, { order, descending, now }) {
  const last = outcomes.elements.length;
  if (order === "ratio") return byRatio(numbers, outcomes, descending);
  /** @type {Record<string, [(number: number) => number, number]>} what ranks a combination, and the highest rank */
  const ranks = {
    state: [(number) => outcomes.states[number], STATES.length],
    applied: [bits, last],
    changes: [(number) => bits(number ^ now), last],
  };
  if (!ranks[order]) return numbers;
  const [rank, highest] = ranks[order];
  return spread(numbers, descending ? (number) => highest - rank(number) : rank, highest);
}

/**
 * @param {Uint32Array} numbers
 * @param {Outcomes} outcomes
 * @param {boolean} descending
 */
function byRatio(numbers, { ratios }, descending) {
  const values = Float64Array.from(numbers, (number) => ratios[number]).filter((ratio) => !Number.isNaN(ratio)).sort();
  let count = 0;
  for (const value of values) if (count === 0 || value !== values[count - 1]) values[count++] = value;
  const rank = (/** @type {number} */ number) => {
    const ratio = ratios[number];
    // Those without a ratio come last either way.
    if (Number.isNaN(ratio)) return count;
    let [from, to] = [0, count - 1];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (values[middle] < ratio) from = middle + 1;
      else to = middle;
    }
    return descending ? count - 1 - from : from;
  };
  return spread(numbers, rank, count);
}

/**
 * @param {Uint32Array} numbers
 * @param {(number: number) => number} rank
 * @param {number} highest
 */
function spread(numbers, rank, highest) {
  const ranks = numbers.map(rank);
  const places = new Uint32Array(highest + 2);
  for (const own of ranks) places[own + 1] += 1;
  for (let own = 1; own <= highest; own += 1) places[own] += places[own - 1];
  const result = new Uint32Array(numbers.length);
  numbers.forEach((number, at) => {
    result[places[ranks[at]]++] = number;
  });
  return result;
}

/** How many elements a combination applies. @param {number} number */
function bits(number) {
  let count = 0;
  for (let rest = number; rest; rest &= rest - 1) count += 1;
  return count;
}

/**
 * The one element that changes between two combinations, if it is one.
 * @param {Outcomes} outcomes
 * @param {number} from
 * @param {number} to
 */
export function oneChange(outcomes, from, to) {
  const changed = outcomes.appliedIn(from ^ to);
  if (changed.length !== 1) return undefined;
  const message = to > from ? "page-combinations-apply" : "page-combinations-release";
  return { element: changed[0], message };
}
