/** What torques and powers mean, in words. */

import { number } from "../kit/format.js";
import { capital, listed, say } from "../kit/words.js";
import { negated, percent, WHOLE } from "./quantities.js";

/** @typedef {import("./desk.js").Desk} Desk */
/** @typedef {import("./desk.js").Answer} Answer */
/** @typedef {import("../kit/format.js").Exact} Exact */
/** @typedef {import("../engine/levertrain.js").Effort} Effort */
/** @typedef {Answer["couplings"][number]} Coupling */

/**
 * What losses without an efficiency mean; nothing where there is one.
 * @param {import("../engine/levertrain.js").Losses} losses
 */
export function outcomeWords({ outcome, efficiency }) {
  return efficiency === null ? say("page-losses-outcome", { outcome }) : "";
}

/** What is said of whoever carries no torque. */
export function idleWords() {
  return say("page-does-nothing");
}

/**
 * A member by its role and set.
 * @param {Coupling} coupling
 * @param {number} index
 */
export function memberName({ label, members }, index) {
  return say("page-member", { member: members[index].role, set: label });
}

/**
 * What the sign of a member's power says.
 * @param {Exact | null} torque
 * @param {Exact | null} power
 */
export function memberWords(torque, power) {
  if (!torque || !power) return say("page-undetermined");
  if (power.decimal > 0) return say("page-does-drive");
  if (power.decimal < 0) return say("page-does-driven");
  return torque.decimal === 0 ? idleWords() : say("page-does-hold");
}

/**
 * What goes in or out at a shaft from outside.
 * @param {Desk} desk
 * @param {Effort} effort
 * @param {string} shaft
 */
export function endWords({ info, quantities }, effort, shaft) {
  const words = [];
  const power = quantities.text("power", WHOLE);
  if (shaft === info?.input) {
    words.push(say("page-end-takes", { torque: quantities.text("torque", WHOLE), power }));
  }
  if (shaft === info?.output && effort.output) {
    words.push(say("page-end-delivers", { torque: quantities.text("torque", negated(effort.output)), power }));
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
  if (!applied && kind !== "one-way") return say("page-element-open");
  // One that stands still, because something else holds its ends together, does not overrun.
  if (!applied) return slip?.decimal ? say("page-element-overruns") : say("page-element-idle");
  if (!torque || !power) return say("page-undetermined");
  if (torque.decimal === 0) return idleWords();
  if (kind === "brake" || (kind === "one-way" && power.decimal === 0)) {
    return say("page-element-keeps", { first, way: torque.decimal > 0 ? "forward" : "backward" });
  }
  if (power.decimal === 0) return say("page-element-at-rest", { first, second });
  const [from, to] = power.decimal > 0 ? [first, second] : [second, first];
  return say("page-element-passes", { from, to });
}

/**
 * Each one's share where two members or more drive a set at once.
 * @param {Coupling} coupling
 * @param {Effort["couplings"][number]} effort
 */
export function shareWords({ members }, { shares }) {
  const words = shares.map(({ member, share }) =>
    say("page-share", { member: members[member].role, share: percent(share.decimal, 2) }),
  );
  return words.length === 0 ? "" : say("page-shares", { shares: listed(words) });
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
  return say("page-recirculation", { name, times: number(most.decimal, 3) });
}

/**
 * @param {Answer} answer
 * @param {Effort} effort
 * @param {(power: Exact | null) => boolean} carries
 */
function loadedMember({ couplings }, effort, carries) {
  const names = couplings.flatMap((coupling, at) =>
    coupling.members.flatMap(({ role }, index) =>
      carries(effort.couplings[at].powers[index]) ? [say("page-the-member", { member: role, set: coupling.label })] : [],
    ),
  );
  return names[0] ?? say("page-some-member");
}
