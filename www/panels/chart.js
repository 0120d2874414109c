/** The range chart: elements, ratio, step and efficiency of every range; a click applies one. */

import { h, keepIn, unseen } from "../kit/dom.js";
import { Kept } from "../kit/kept.js";
import { lossesAreQuick } from "../state/assumptions.js";
import { fraction, number } from "../kit/format.js";
import { tellHeadings } from "../kit/known.js";
import { table } from "../kit/table.js";
import { listed, say, sayParts } from "../kit/words.js";
import { lockable } from "../state/lockable.js";
import { ChartRow, mark } from "./chart_row.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Chart} Chart */

/** With more elements than these there is no room for the efficiency on a phone. */
const MANY = 6;
/** More marks than these take a frame of their own. */
const MANY_MARKS = 200;

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const spread = h("p", { class: "note", "data-part": "spread" });
  const legend = h("p", { class: "note legend" });
  const braking = h("p", { class: "note", "data-part": "engine-braking" });
  const coasting = h("span", { "data-part": "coasting" });
  const steps = h("p", { class: "note" }, say("page-chart-step-note"));
  const holder = h("div", { class: "scroll" });
  panel.fill(lockable(desk, "elements", holder), h("div", { class: "notes" }, spread, legend, steps, braking));
  /** @type {ChartRow[]} */
  let rows = [];
  /** What the ratios are compared with. @type {Chart["ranges"] | undefined} */
  let before;
  /** @type {Kept<ChartRow>} */
  const kept = new Kept();
  /** @type {ReturnType<typeof table> | undefined} */
  let chart;
  /** The elements that it has columns for. */
  let headed = "";
  /** These as they are called. */
  let heading = "";

  /** The chart, with other heads where elements are others: its rows stay. */
  function chartOf() {
    const elements = desk.info?.elements ?? [];
    headed = idsOf(elements);
    const shape = JSON.stringify(elements.map(({ id, label }) => [id, label]));
    if (chart && shape === heading) return chart;
    heading = shape;
    const made = makeChart();
    if (!chart) return (chart = made);
    chart.node.toggleAttribute("data-wide", made.node.hasAttribute("data-wide"));
    chart.node.firstElementChild?.replaceWith(/** @type {Element} */ (made.node.firstElementChild));
    return chart;
  }

  function makeChart() {
    const heads = (desk.info?.elements ?? []).map(({ id, label }) => elementHead(id, label));
    const heard = unseen(` ${say("page-chart-efficiency-heard")}`);
    const efficiency = h("abbr", { title: say("page-chart-efficiency") }, "η", heard, " %", coasting);
    const columns = [say("page-chart-range"), ...heads, say("page-chart-ratio"), say("page-chart-step"), efficiency];
    const figures = [heads.length + 1, heads.length + 2, heads.length + 3];
    const made = table(say("page-panel-chart"), columns, figures);
    made.node.classList.add("matrix");
    made.node.toggleAttribute("data-wide", heads.length > MANY);
    tellHeadings(made.node, [...columns.slice(0, -1).map(() => () => undefined), () => ({ name: efficiencyName(desk) })]);
    return made;
  }

  function build() {
    const found = desk.chart();
    rows = [];
    legend.hidden = steps.hidden = !found || found.ranges.length === 0;
    if (!found || legend.hidden) {
      holder.replaceChildren(h("p", { class: "note" }, say("page-chart-none")));
      spread.textContent = braking.textContent = "";
      return;
    }
    const { node, body } = chartOf();
    // What ratios were stays to be seen until an edit changes them again.
    if (!desk.before || differ(desk.before.ranges, found.ranges)) before = desk.before?.ranges;
    rows = found.ranges.map((range) => {
      const was = before?.find(({ id }) => id === range.id);
      const row = kept.take(range.id, "", () => new ChartRow(desk, range));
      row.show(range, was);
      return row;
    });
    kept.end();
    keepIn(body, rows.map((row) => row.node));
    keepIn(holder, [node]);
    spread.replaceChildren(...spreadWords(found));
    spread.hidden = !found.spread;
    const oneWays = desk.info?.elements.some(({ kind }) => kind === "one-way") ?? false;
    legend.replaceChildren(...legendOf(oneWays));
    braking.textContent = oneWays ? brakingWords(found) : "";
  }

  function update() {
    for (const row of rows) row.follow(desk.answer?.range ?? undefined);
  }

  function fillEfficiencies() {
    const found = (lossesAreQuick(desk) && desk.ask((sandbox) => sandbox.lossChart())) || [];
    holder.toggleAttribute("data-no-losses", found.length === 0);
    coasting.textContent = desk.assumptions.coasting ? ` ${say("page-chart-coasting")}` : "";
    rows.forEach((row, at) => row.showEfficiency(found[at]));
  }

  /** Whether so many marks are to be made that it takes as long as the drawings. */
  function isLong() {
    const { elements, ranges } = desk.info ?? { elements: [], ranges: [] };
    return elements.length * ranges.length > MANY_MARKS && idsOf(elements) !== headed;
  }

  function fillAll() {
    build();
    update();
    fillEfficiencies();
  }

  // A range of before may apply what is gone.
  holder.addEventListener("click", (event) => panel.waits && event.stopPropagation(), { capture: true });
  if (desk.info) fillAll();
  desk.addEventListener("train", () => {
    // What is being changed is to be seen at once, unless that holds up the drawings.
    if (!desk.editing || !lossesAreQuick(desk) || isLong()) panel.later(fillAll, desk.editing);
    else if (panel.open) fillAll();
  });
  desk.addEventListener("answer", () => panel.waits || update());
  desk.addEventListener("assumptions", () => panel.waits || fillEfficiencies());
  for (const event of ["speed", "torque"]) {
    // Mesh losses are shares: only drag asks how fast and how hard.
    desk.addEventListener(event, () => panel.waits || (desk.assumptions.drag > 0 && fillEfficiencies()));
  }
}

/** @param {{ id: string }[]} elements */
function idsOf(elements) {
  return elements.map(({ id }) => id).join(" ");
}

/**
 * Whether a range has another ratio than it had.
 * @param {Chart["ranges"]} before
 * @param {Chart["ranges"]} now
 */
function differ(before, now) {
  const known = new Map(before.map(({ id, ratio }) => [id, ratio?.fraction]));
  return now.some(({ id, ratio }) => known.has(id) && known.get(id) !== ratio?.fraction);
}

/** What the column of efficiencies is called away from here. @param {Desk} desk */
function efficiencyName(desk) {
  const name = say("page-chart-efficiency");
  return desk.assumptions.coasting ? say("page-part-of-set", { set: name, part: say("page-chart-coasting") }) : name;
}

/** @param {boolean} oneWays whether there are one-way clutches */
function legendOf(oneWays) {
  const marks = { clutch: mark("clutch"), brake: mark("brake") };
  if (!oneWays) return sayParts("page-chart-marks", marks);
  return sayParts("page-chart-marks-one-way", { ...marks, "one-way": mark("one-way") });
}

/** @param {Chart} chart */
function brakingWords({ ranges }) {
  const labels = ranges.filter(({ engineBraking }) => engineBraking).map(({ label }) => label);
  return labels.length > 0 ? say("page-chart-braking", { ranges: listed(labels) }) : say("page-chart-braking-none");
}

/**
 * A short name that fits over a column of marks.
 * @param {string} id
 * @param {string} label
 */
function elementHead(id, label) {
  return h("span", { class: id.length > 2 ? "upright" : "", title: label }, id, unseen(`, ${label}`));
}

/** @param {Chart} chart */
function spreadWords(chart) {
  if (!chart.spread) return [];
  const spread = h("b", { title: fraction(chart.spread) }, number(chart.spread.decimal, 3));
  return sayParts("page-chart-spread", { spread });
}
