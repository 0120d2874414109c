/** The wishes of an ask, each of which can be left out by itself. */

import { say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain.js").Ask} Ask */
/** @typedef {import("../engine/levertrain.js").LayoutAsk} LayoutAsk */
/**
 * @template A
 * @typedef {object} Wish
 * @property {string} name what it is called among others
 * @property {(ask: A) => void} drop leaves it out of an ask
 */

/** What is wished of limits, and of all ranges together. */
const LIMITS = /** @type {const} */ (["efficiency", "pinion_speed", "open_speed"]);
const TOGETHER = /** @type {const} */ (["spread", "steps", "step", "direct"]);

/**
 * @template {Ask | LayoutAsk} A
 * @param {A} ask
 * @param {(ask: A) => { ratio?: number, tolerance?: number, efficiency?: number }[]} rangesOf
 * @param {(at: number) => string} labelOf of a range by its place
 * @returns {Wish<A>[]}
 */
function wishes(ask, rangesOf, labelOf) {
  const ranges = rangesOf(ask);
  const named = (/** @type {string} */ wish) => say("page-find-wish", { wish });
  const ratios = ranges.flatMap(({ ratio }, at) => {
    if (ratio === undefined) return [];
    const drop = (/** @type {A} */ ask) => {
      delete rangesOf(ask)[at].ratio;
      delete rangesOf(ask)[at].tolerance;
    };
    return [{ name: labelOf(at), drop }];
  });
  const ofSome = ranges.some(({ efficiency }) => efficiency !== undefined);
  const limits = LIMITS.filter((limit) => ask.limits[limit] !== undefined || (limit === "efficiency" && ofSome)).map((limit) => ({
    name: named(limit),
    drop(/** @type {A} */ ask) {
      delete ask.limits[limit];
      if (limit === "efficiency") rangesOf(ask).forEach((range) => delete range.efficiency);
    },
  }));
  const together = TOGETHER.filter((wish) => /** @type {Record<string, unknown>} */ (ask)[wish] !== undefined).map((wish) => ({
    name: named(wish),
    drop: (/** @type {Record<string, any>} */ ask) => void delete ask[wish],
  }));
  const swaps = { name: named("single_swaps"), drop: (/** @type {Record<string, any>} */ ask) => void (ask.single_swaps = false) };
  return [...ratios, ...limits, ...together, ...("single_swaps" in ask && ask.single_swaps ? [swaps] : [])];
}

/** Those of a search for teeth. @param {Ask} ask @param {(range: string) => string} labelOf */
export function teethWishes(ask, labelOf) {
  return wishes(ask, ({ wanted }) => wanted, (at) => labelOf(ask.wanted[at].range));
}

/** Those of a search for layouts. @param {LayoutAsk} ask @param {(at: number) => string} labelOf of a range by its place, the one backwards last */
export function layoutsWishes(ask, labelOf) {
  return wishes(ask, ({ forward, backward }) => (backward ? [...forward, backward] : forward), labelOf);
}
