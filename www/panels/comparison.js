/** What there is to compare of two trains, in groups: figures of the pinned one and of that on stage. */

import { number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { lossesAreQuick } from "../state/assumptions.js";
import { negated, size } from "../state/quantities.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain.js").Answer} Answer */
/** @typedef {import("../engine/levertrain.js").Chart} Chart */
/** @typedef {import("../engine/levertrain.js").Losses} Losses */
/** @typedef {import("../engine/levertrain.js").Exact} Exact */

/** As it is read; its number in full, and exactly, where it is one. @typedef {{ text: string, value?: number, exact?: string }} Figure */
/** @typedef {{ name: string, pinned: Figure | null, now: Figure | null }} Pair */
/** @typedef {{ output: string, answer: Answer, chart: Chart, losses: Losses | null }} Side */

/**
 * Both sides, at the same speed, torque and losses.
 * @param {Desk} desk
 * @returns {[Side, Side] | undefined} nothing where nothing is pinned, or not yet
 */
export function both(desk) {
  const quick = lossesAreQuick(desk);
  const side = (/** @type {Sandbox} */ sandbox, /** @type {string} */ output) => ({
    output,
    answer: sandbox.answer(),
    chart: sandbox.chart(),
    losses: quick ? sandbox.losses() : null,
  });
  const outputs = [desk.pinned.pin?.info?.output ?? "", desk.info?.output ?? ""];
  return desk.pinned.ask((_, sandbox, pinned) => [side(pinned, outputs[0]), side(sandbox, outputs[1])]);
}

/**
 * @param {Desk} desk
 * @param {[Side, Side]} sides the pinned one first
 * @returns {{ title: string, rows: Pair[], folds?: boolean }[]} those that fold are one line where all is the same
 */
export function groupsOf(desk, sides) {
  const { quantities } = desk;
  const speed = (/** @type {Exact | null} */ part) => figure(part, quantities.figure("speed", part), quantities.value("speed", part));
  const torque = (/** @type {Exact | null} */ part) => figure(part, quantities.figure("torque", part), quantities.value("torque", part));
  const pair = (/** @type {string} */ name, /** @type {(side: Side) => Figure | null} */ of) => ({
    name,
    pinned: of(sides[0]),
    now: of(sides[1]),
  });
  const unit = (/** @type {"speed" | "torque"} */ kind) => ({ unit: quantities.unit(kind) });
  const ranges = (/** @type {(range: Chart["ranges"][number]) => Exact | null} */ of) =>
    pairs(sides, ({ chart }) => chart.ranges.map((range) => [range.label, ratio(of(range))]));

  const applied = [
    pair(say("page-compare-state"), ({ answer }) => ({ text: answer.stateWords })),
    pair(say("page-ratio"), ({ answer }) => ratio(answer.ratio)),
    pair(say("page-compare-output", unit("speed")), ({ answer, output }) => speed(answer.shafts.find(({ id }) => id === output)?.speed ?? null)),
    pair(say("page-compare-efficiency"), ({ losses }) => percent(losses?.efficiency ?? null)),
    pair(say("page-compare-torque", unit("torque")), ({ answer }) => torque(negated(answer.effort?.output ?? null))),
    pair(say("page-compare-housing", unit("torque")), ({ answer }) => torque(answer.effort?.housing ?? null)),
  ];
  const spread = pair(say("page-compare-spread"), ({ chart }) => ratio(chart.spread));
  const carried = pairs(sides, ({ answer }) =>
    answer.elements.flatMap(({ label, applied }, at) => (applied ? [[label, torque(size(answer.effort?.elements[at].torque ?? null))]] : [])),
  );
  const slips = pairs(sides, ({ answer }) =>
    answer.elements.flatMap(({ label, applied, slip }) => (applied ? [] : [[label, slip ? speed(slip) : { text: say("page-free") }]])),
  );
  const groups = [
    { title: say("page-compare-as-applied"), rows: applied },
    { title: say("page-compare-ratios"), rows: [...ranges(({ ratio }) => ratio), spread], folds: true },
    { title: say("page-compare-steps"), rows: ranges(({ step }) => step).filter(({ pinned, now }) => pinned || now), folds: true },
    { title: say("page-compare-holds", unit("torque")), rows: carried },
    { title: say("page-compare-slips", unit("speed")), rows: slips },
  ];
  return groups.filter(({ rows }) => rows.length > 0);
}

/**
 * What both sides have under names, those of the pinned one first; null for what one does not have.
 * @param {[Side, Side]} sides
 * @param {(side: Side) => (readonly (string | Figure | null)[])[]} of names with figures
 * @returns {Pair[]}
 */
function pairs(sides, of) {
  const [pinned, now] = sides.map((side) => new Map(/** @type {[string, Figure | null][]} */ (of(side))));
  const names = new Set([...pinned.keys(), ...now.keys()]);
  return [...names].map((name) => ({ name, pinned: pinned.get(name) ?? null, now: now.get(name) ?? null }));
}

/**
 * @param {Exact | null} part
 * @param {string} text
 * @param {number | null} value
 * @returns {Figure | null}
 */
function figure(part, text, value) {
  return part && value !== null ? { text, value, exact: part.fraction } : null;
}

/** @param {Exact | null} value */
function ratio(value) {
  return value && figure(value, number(value.decimal), value.decimal);
}

/**
 * @param {number | null} share
 * @returns {Figure | null}
 */
function percent(share) {
  return share === null ? null : { text: number(share * 100, 4), value: share * 100 };
}
