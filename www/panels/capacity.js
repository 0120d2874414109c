/** What the clutches and brakes can hold, how near each range is to slipping, and what slips first. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { listed, NO_BREAK, NONE, number } from "../kit/format.js";
import { unitOf } from "../state/units.js";
import { IDLE } from "../state/effort_words.js";
import { scroller, table } from "../kit/table.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Capacity} Capacity */
/** @typedef {Capacity["elements"][number]} Held */

/** The margin that fills a bar; the mark at 1 stands at the same part of it in the style sheet. */
const FULL = 2.5;

/** What stands where there is no margin. @type {Record<string, string>} */
const WITHOUT_MARGIN = { idle: IDLE, undetermined: "not determined", "no-data": "no data", holds: "holds" };

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const words = h("p", { "data-part": "capacity-words" });
  const toHold = h("span");
  const { node: holding, body: rows } = table("Margins", ["Element", toHold, "Margin"], [1]);
  const capacityUnit = h("span");
  const heads = [capacityUnit, "Uniform wear", "Uniform pressure", "N/mm²"];
  const { node: capacities, body: linings } = table("Capacity", heads, [1, 2, 3]);
  panel.fill(
    words,
    scroller(holding, "Margins", signal),
    h(
      "p",
      { class: "note" },
      "Margin: capacity by uniform wear over the torque to hold, without losses. " +
        "The line across the bar is 1; below it the element slips.",
    ),
    scroller(capacities, "Capacity", signal),
    h(
      "p",
      { class: "note" },
      "Capacity by uniform wear (linings that have run in): coefficient of friction × clamp force × " +
        "surfaces × mean radius; by uniform pressure (new linings) a little more. " +
        "Last, the greatest pressure on a run-in lining.",
    ),
    h(
      "p",
      { class: "note" },
      "For learning and early layout, not a strength rating: friction and force vary with oil, " +
        "heat and wear. The maker’s service information comes first.",
    ),
  );
  /** One entry a range. @type {Capacity[]} */
  let found = [];

  function ask() {
    found = desk.ask((sandbox) => sandbox.capacityChart()) ?? [];
    if (found.length > 0) show();
  }

  function show() {
    const unit = unitOf(desk.units, "torque");
    const ranges = desk.info?.ranges ?? [];
    toHold.textContent = `Must hold, ${unit.name}`;
    capacityUnit.textContent = `Capacity, ${unit.name}`;
    words.textContent = chartWords(desk, found);
    rows.replaceChildren(
      ...found.flatMap((capacity, at) => [
        groupRow(ranges[at], firstWords(desk, capacity)),
        ...capacity.elements.map((held) => holdingRow(desk, ranges[at].id, held)),
      ]),
    );
    linings.replaceChildren(...knownLinings(desk, found).map((held) => liningRow(desk, held)));
    mark();
  }

  function mark() {
    const at = desk.info?.ranges.findIndex(({ id }) => id === desk.answer?.range) ?? -1;
    const current = found[at];
    panel.hint(current?.mostInput ? `holds up to ${torque(desk, current.mostInput)}` : "");
    for (const row of rows.children) {
      const range = /** @type {HTMLElement} */ (row).dataset.capacityRange;
      row.toggleAttribute("data-current", range !== undefined && range === desk.answer?.range);
    }
  }

  follow(desk, ["train", "torque"], ask);
  desk.addEventListener("units", () => found.length > 0 && show());
  desk.addEventListener("answer", () => found.length > 0 && mark());
}

/**
 * Which ranges hold at the input torque.
 * @param {Desk} desk
 * @param {Capacity[]} found
 */
function chartWords(desk, found) {
  const labels = desk.info?.ranges.map(({ label }) => label) ?? [];
  const slips = (/** @type {Capacity} */ { elements }) => elements.some(({ grip }) => grip === "slips");
  const slipping = labels.filter((_, at) => slips(found[at]));
  const input = `At ${torque(desk, desk.torque)} of input torque`;
  if (slipping.length === 0) return `${input} no range slips.`;
  return `${input} ${listed(slipping)} ${slipping.length === 1 ? "slips" : "slip"}.`;
}

/**
 * The weakest element of a range, as a sentence.
 * @param {Desk} desk
 * @param {Capacity} capacity
 */
function firstWords(desk, { firstToSlip, mostInput, elements }) {
  if (firstToSlip && mostInput) {
    return `${desk.elementLabel(firstToSlip)} slips first, above ${torque(desk, mostInput)} at the input`;
  }
  if (elements.length === 0) return "does not drive";
  const shared = elements.some(({ grip }) => grip === "undetermined");
  return shared ? "more is applied than needed: not determined" : "nothing with friction data";
}

/**
 * @param {{ id: string, label: string }} range
 * @param {string} words
 */
function groupRow({ id, label }, words) {
  const cell = h("th", { scope: "colgroup", colspan: 3 }, h("b", {}, label), h("span", { class: "does" }, words));
  return h("tr", { class: "group", "data-capacity-range": id }, cell);
}

/**
 * @param {Desk} desk
 * @param {string} range
 * @param {Held} held
 */
function holdingRow(desk, range, held) {
  const { id, grip, margin } = held;
  return h(
    "tr",
    { "data-holding": `${range}:${id}`, "data-grip": grip },
    h("th", { scope: "row" }, desk.elementLabel(id)),
    h("td", { class: "figure" }, figure(desk, held.torque)),
    h(
      "td",
      { class: "margin" },
      margin === null ? null : bar(margin),
      margin === null ? null : h("b", { class: "times" }, number(margin, 3)),
      h("span", { class: "grip" }, margin === null ? WITHOUT_MARGIN[grip] : grip),
    ),
  );
}

/**
 * A margin by length; the number beside it says the same.
 * @param {number} margin
 */
function bar(margin) {
  const node = h("span", { class: "bar", "aria-hidden": "true" });
  node.style.setProperty("--part", `${Math.min(margin / FULL, 1) * 100}%`);
  return node;
}

/**
 * Every element with friction data that some range applies, once, in the scenario's order.
 * @param {Desk} desk
 * @param {Capacity[]} found
 */
function knownLinings(desk, found) {
  const all = found.flatMap(({ elements }) => elements).filter(({ uniformWear }) => uniformWear !== null);
  const ids = desk.info?.elements.map(({ id }) => id) ?? [];
  return ids.flatMap((id) => all.find((held) => held.id === id) ?? []);
}

/**
 * @param {Desk} desk
 * @param {Held} held
 */
function liningRow(desk, { id, uniformWear, uniformPressure, greatestPressure }) {
  return h(
    "tr",
    { "data-lining": id },
    h("th", { scope: "row" }, desk.elementLabel(id)),
    h("td", { class: "figure" }, figure(desk, uniformWear)),
    h("td", { class: "figure" }, figure(desk, uniformPressure)),
    h("td", { class: "figure quiet" }, number(greatestPressure ?? NaN, 3)),
  );
}

/**
 * A torque in the unit chosen, without it.
 * @param {Desk} desk
 * @param {number | null} value N·m
 */
function figure(desk, value) {
  if (value === null) return NONE;
  return value === 0 ? "0" : number(value / unitOf(desk.units, "torque").size);
}

/**
 * @param {Desk} desk
 * @param {number} value N·m
 */
function torque(desk, value) {
  return `${figure(desk, value)}${NO_BREAK}${unitOf(desk.units, "torque").name}`;
}
