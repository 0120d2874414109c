/** What the clutches and brakes can hold, how near each range is to slipping, and what slips first. */

import { h } from "../kit/dom.js";
import { NO_BREAK, NONE, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { unitOf } from "../state/units.js";
import { scroller, table } from "../kit/table.js";
import { listed, say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Capacity} Capacity */
/** @typedef {Capacity["elements"][number]} Held */

/** The margin that fills a bar; the mark at 1 stands at the same part of it in the style sheet. */
const FULL = 2.5;

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const words = h("p", { "data-part": "capacity-words" });
  const toHold = h("span");
  const [margins, elements] = [say("page-capacity-margins"), say("page-capacity-element")];
  const { node: holding, body: rows } = table(margins, [elements, toHold, say("page-capacity-margin")], [1]);
  const capacityUnit = h("span");
  const heads = [capacityUnit, say("page-capacity-wear"), say("page-capacity-pressure"), "N/mm²"];
  const { node: capacities, body: linings } = table(say("page-capacity"), heads, [1, 2, 3]);
  const unit = () => unitOf(desk.units, "torque").name;
  tellHeadings(holding, [
    () => undefined,
    () => ({ name: say("page-capacity-must-hold", { unit: unit() }) }),
    () => ({ name: say("page-capacity-margin"), exact: say("page-take-grip") }),
  ]);
  tellHeadings(capacities, [
    () => ({ name: elements }),
    () => ({ name: say("page-take-wear", { unit: unit() }) }),
    () => ({ name: say("page-take-pressure", { unit: unit() }) }),
    () => ({ name: say("page-take-greatest") }),
  ]);
  panel.fill(
    words,
    scroller(holding, margins, signal),
    h("p", { class: "note" }, say("page-capacity-margin-note")),
    scroller(capacities, say("page-capacity"), signal),
    h("p", { class: "note" }, say("page-capacity-note")),
    h("p", { class: "note" }, say("page-capacity-caution")),
  );
  /** One entry a range. @type {Capacity[]} */
  let found = [];

  function ask() {
    // The panel stays, out of sight, for trains that know nothing of it: their ranges would be settled for nothing.
    found = (desk.info?.friction && desk.ask((sandbox) => sandbox.capacityChart())) || [];
    if (found.length > 0) show();
  }

  function show() {
    const unit = unitOf(desk.units, "torque");
    const ranges = desk.info?.ranges ?? [];
    toHold.textContent = say("page-capacity-must-hold", { unit: unit.name });
    capacityUnit.textContent = say("page-capacity-in", { unit: unit.name });
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
    panel.hint(current?.mostInput ? say("page-capacity-hint", { torque: torque(desk, current.mostInput) }) : "");
    for (const row of rows.children) {
      const range = /** @type {HTMLElement} */ (row).dataset.capacityRange;
      row.toggleAttribute("data-current", range !== undefined && range === desk.answer?.range);
    }
  }

  /** @param {() => void} renew what is there already */
  const unlessLate = (renew) => () => !panel.waits && found.length > 0 && renew();
  if (desk.info) ask();
  // With many one-way clutches a chart takes longer than the drawings.
  desk.addEventListener("train", () => panel.later(ask, desk.editing));
  desk.addEventListener("torque", () => panel.waits || ask());
  desk.addEventListener("units", unlessLate(show));
  desk.addEventListener("answer", unlessLate(mark));
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
  const input = torque(desk, desk.torque);
  if (slipping.length === 0) return say("page-capacity-none-slips", { torque: input });
  return say("page-capacity-slip", { torque: input, ranges: listed(slipping), count: slipping.length });
}

/**
 * The weakest element of a range, as a sentence.
 * @param {Desk} desk
 * @param {Capacity} capacity
 */
function firstWords(desk, { firstToSlip, mostInput, elements }) {
  if (firstToSlip && mostInput) {
    const element = desk.elementLabel(firstToSlip);
    return say("page-capacity-first", { element, torque: torque(desk, mostInput) });
  }
  if (elements.length === 0) return say("page-capacity-no-drive");
  const shared = elements.some(({ grip }) => grip === "undetermined");
  return shared ? say("page-capacity-shared") : say("page-capacity-no-data");
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
    torqueCell(desk, held.torque),
    tell(
      h(
        "td",
        { class: "margin" },
        margin === null ? null : bar(margin),
        margin === null ? null : h("b", { class: "times" }, number(margin, 3)),
        h("span", { class: "grip" }, say("page-grip", { grip })),
      ),
      margin,
      say("page-grip", { grip }),
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
    torqueCell(desk, uniformWear),
    torqueCell(desk, uniformPressure),
    tell(h("td", { class: "figure quiet" }, number(greatestPressure ?? NaN, 3)), greatestPressure),
  );
}

/**
 * @param {Desk} desk
 * @param {number | null} value N·m
 */
function torqueCell(desk, value) {
  return tell(h("td", { class: "figure" }, figure(desk, value)), value === null ? null : value / unitOf(desk.units, "torque").size);
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
