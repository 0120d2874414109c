/** What torques and powers mean, in words. */

import { listed } from "../kit/format.js";
import { negated, percent, WHOLE } from "./quantities.js";

/** @typedef {import("./desk.js").Desk} Desk */
/** @typedef {import("./desk.js").Answer} Answer */
/** @typedef {import("../kit/format.js").Exact} Exact */
/** @typedef {import("../engine/levertrain.js").Effort} Effort */
/** @typedef {Answer["couplings"][number]} Coupling */

export const INDETERMINATE = "More is applied than needed: equilibrium does not say who carries how much.";

/** What each outcome of losses without an efficiency means. @type {Record<string, string>} */
export const LOSS_OUTCOMES = {
  "self-locking": "Self-locking: no power gets through, the losses take all of it.",
  ambiguous:
    "Ambiguous: power could go round in more than one way, each with another efficiency, and the gears do not say which.",
  indeterminate: INDETERMINATE,
  "too-many": "Too many gear sets roll at once to try every way the power may go through them.",
  "no-drive": "Only a train that drives has an efficiency.",
};

export const IDLE = "carries no torque";

/**
 * A member by its role and set.
 * @param {Coupling} coupling
 * @param {number} index
 */
export function memberName({ label, members }, index) {
  return `${members[index].role} of ${label}`;
}

/**
 * What the sign of a member's power says.
 * @param {Exact | null} torque
 * @param {Exact | null} power
 */
export function memberWords(torque, power) {
  if (!torque || !power) return "not determined";
  if (power.decimal > 0) return "drives the set";
  if (power.decimal < 0) return "driven by the set";
  return torque.decimal === 0 ? IDLE : "holds";
}

/**
 * What goes in or out at a shaft from outside.
 * @param {Desk} desk
 * @param {Effort} effort
 * @param {string} shaft
 */
export function endWords({ info, quantities }, effort, shaft) {
  const words = [];
  if (shaft === info?.input) {
    words.push(`takes in ${quantities.text("torque", WHOLE)}, ${quantities.text("power", WHOLE)}`);
  }
  if (shaft === info?.output && effort.output) {
    words.push(`delivers ${quantities.text("torque", negated(effort.output))}, ${quantities.text("power", WHOLE)}`);
  }
  return words;
}

/**
 * What an element does with the torque that goes through it from its first end to its second.
 * @param {NonNullable<Desk["info"]>["elements"][number]} element
 * @param {{ applied: boolean, slip: Exact | null }} state
 * @param {Effort["elements"][number]} effort
 */
export function elementWords({ kind, nouns: [first, second] }, { applied, slip }, { torque, power }) {
  if (!applied && kind !== "one-way") return "open";
  // One that stands still, because something else holds its ends together, does not overrun.
  if (!applied) return slip?.decimal ? "overruns" : "idle";
  if (!torque || !power) return "not determined";
  if (torque.decimal === 0) return IDLE;
  if (kind === "brake" || (kind === "one-way" && power.decimal === 0)) {
    return `keeps ${first} from turning ${torque.decimal > 0 ? "forward" : "backward"}`;
  }
  if (power.decimal === 0) return `holds ${first} and ${second} together at rest`;
  return power.decimal > 0 ? `passes power from ${first} to ${second}` : `passes power from ${second} to ${first}`;
}

/**
 * Each one's share where two members or more drive a set at once.
 * @param {Coupling} coupling
 * @param {Effort["couplings"][number]} effort
 */
export function shareWords({ members }, { shares }) {
  const words = shares.map(({ member, share }) => `${members[member].role} ${percent(share.decimal, 2)}`);
  return words.length === 0 ? "" : `driven by ${listed(words)}`;
}

/**
 * Where more power goes through than goes in, and how much more.
 * @param {Desk} desk
 * @param {Answer} answer
 * @param {Effort} effort
 */
export function recirculationWords(desk, answer, effort) {
  const most = effort.recirculating;
  if (!most) return "";
  const carries = (/** @type {Exact | null} */ power) => power?.fraction.replace("-", "") === most.fraction;
  const element = effort.elements.find(({ power }) => carries(power));
  const name = element ? desk.elementLabel(element.id) : capital(loadedMember(answer, effort, carries));
  return (
    `${name} carries ${most.decimal.toPrecision(3)} times the input power: ` +
    "part of it goes round inside the train."
  );
}

/**
 * @param {Answer} answer
 * @param {Effort} effort
 * @param {(power: Exact | null) => boolean} carries
 */
function loadedMember({ couplings }, effort, carries) {
  const names = couplings.flatMap((coupling, at) =>
    coupling.members.flatMap((_, index) =>
      carries(effort.couplings[at].powers[index]) ? [`the ${memberName(coupling, index)}`] : [],
    ),
  );
  return names[0] ?? "a member";
}

/** @param {string} text */
export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
