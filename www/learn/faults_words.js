/** What is said of faults, and of what they make of ranges. */

import { h } from "../kit/dom.js";
import { fraction, ratio } from "../kit/format.js";
import { tell } from "../kit/known.js";
import { capital, say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain_whole.js").Fault} Fault */
/** @typedef {import("../engine/levertrain_whole.js").Trial} Trial */
/** @typedef {import("../engine/levertrain_whole.js").Becomes} Becomes */

/** What a fault is known by while the train is changed. @param {Fault} fault */
export function keyOf({ kind, id, member }) {
  return [kind, id, member ?? ""].join(" ");
}

/** What people call what is broken. @param {Fault} fault */
function partOf({ label, member }) {
  return member === null ? label : say("page-member", { member, set: label });
}

/** Faults that are there at once, one or two, as what a sentence or an entry begins with. @param {Fault[]} faults */
export function faultWords(faults) {
  const [first, second] = faults.map((fault) => say("page-faults-fault", { kind: fault.kind, part: partOf(fault) }));
  return capital(second === undefined ? first : say("page-faults-two", { first, second }));
}

/** @param {Trial} trial */
export function trialLabel({ label }) {
  return label ?? say("page-faults-all-released");
}

/**
 * What a range does while nothing is broken.
 * @param {Trial} trial
 * @param {boolean} oneWays whether ranges can differ in engine braking
 */
export function healthyWords(trial, oneWays) {
  if (!trial.ratio) return say("page-faults-healthy", { does: trial.does });
  const values = { ratio: ratio(trial.ratio) };
  return oneWays && !trial.brakes ? say("page-faults-healthy-no-braking", values) : values.ratio;
}

/** The ratio to the last digit, where there is one. @param {Trial} trial */
export function exactly({ ratio }) {
  return ratio ? fraction(ratio) : null;
}

/**
 * A row of a table of ranges as it is taken away: numbers in full, and in words no more than what is read at once.
 * @param {Trial} trial
 * @param {string} words
 */
export function rowToTake(trial, words) {
  const healthy = h("td", {}, healthyWords(trial, false));
  return h("tr", {}, h("th", {}, trialLabel(trial)), tell(healthy, trial.ratio?.decimal, trial.ratio?.fraction), h("td", {}, words));
}

/** What a range becomes. @param {Becomes} becomes */
export function becomesWords({ outcome, ratio: found, like }) {
  if (!found) return say("page-faults-becomes", { outcome });
  const value = ratio(found);
  return like === null ? say("page-faults-drives", { ratio: value }) : say("page-faults-drives-as", { ratio: value, range: like });
}
