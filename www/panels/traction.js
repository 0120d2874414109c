/** Traction and driving: forces over road speed, engine speeds over road speed, and the run from rest. */

import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { roadUnits } from "../state/road_units.js";
import { StatedFields } from "./stated.js";
import { TractionForm } from "./traction_form.js";
import { TractionPlot } from "./traction_plot.js";
import { RoadOnDesk } from "./traction_road.js";
import { STEEPEST, TractionTables } from "./traction_tables.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").Traction} Traction */

/** Seconds from rest are told in words up to this road speed in the page's unit. @type {Record<string, number>} */
const TOLD = { "km/h": 100, mph: 60 };
const PERCENT = 100;
/** Where a file states what, and its unit there. @type {Record<Traction["stated"][number]["what"], { path: string[], unit: string }>} */
const PATHS = {
  "wheel-radius": { path: ["vehicle", "wheel_radius"], unit: "m" },
  "final-drive": { path: ["vehicle", "final_drive"], unit: "" },
  "engine-inertia": { path: ["dynamics", "engine_inertia"], unit: "kg·m²" },
};

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const road = new RoadOnDesk(desk);
  const apply = (/** @type {string} */ id) => {
    const range = desk.info?.ranges.find((range) => range.id === id);
    if (range && !desk.isLocked("elements")) desk.apply(range.applied);
  };
  const form = new TractionForm(desk, (asked) => {
    road.asked = asked;
    show();
  });
  road.asked = form.asked();
  const plot = new TractionPlot(desk, road, apply, redraw, signal);
  const tables = new TractionTables(desk, apply, signal);
  const lack = h("p", { class: "note", "data-part": "traction-lack", hidden: true });
  const wrong = h("p", { class: "problem", role: "status", "data-part": "traction-wrong", hidden: true });
  const words = h("p", { class: "traction-words", role: "status", "data-part": "traction-words" });
  const stated = new StatedFields(desk, say("page-traction-stated-title"), "traction-stated", signal);
  const vehicle = h("p", { class: "note", "data-part": "traction-vehicle" });
  const assumed = h("p", { class: "note", "data-part": "traction-assumed" });
  const faulty = h("ul", { class: "find-problems", "data-part": "traction-problems" });
  const results = h(
    "div",
    { class: "traction-results" },
    words,
    plot.node,
    lockable(desk, "elements", tables.node),
    vehicle,
    h("details", { class: "timed-known" }, h("summary", {}, say("page-traction-stated-title")), h("p", { class: "note" }, say("page-traction-stated-note")), stated.node),
    assumed,
    faulty,
    h("p", { class: "note" }, say("page-traction-note")),
    h("p", { class: "note" }, say("page-traction-caution")),
  );
  const found = h("div", { class: "traction", hidden: true }, form.node, wrong, results);
  panel.fill(lack, found);
  /** The text of the train that the form offers for. @type {string | undefined} */
  let offered;

  function show() {
    if (!panel.open || !desk.isWhole || !desk.info) return;
    const missing = road.lack();
    lack.hidden = !missing;
    found.hidden = Boolean(missing);
    if (missing) {
      lack.textContent = say("page-traction-lack", { what: missing.what, fix: missing.fix });
      return;
    }
    if (offered !== desk.text) offer();
    form.letter();
    try {
      const report = road.ask((road) => road.report());
      wrong.hidden = true;
      results.hidden = false;
      if (report) tellAll(report);
    } catch (error) {
      // What is out of range is said beside it; nothing that was typed is lost.
      const problems = /** @type {{ problems?: import("../engine/levertrain.js").ProblemInfo[] }} */ (error).problems;
      if (!problems) throw error;
      wrong.textContent = problems.map(({ place, problem, fix }) => say("problem", { place, what: problem, fix })).join(" ");
      wrong.hidden = false;
      results.hidden = true;
    }
  }

  /** Offers what another train has: it is asked without shifts and lock-up first, as those may not suit it. */
  function offer() {
    offered = desk.text;
    road.asked = { ...form.asked(), lockedFrom: undefined, shiftSpeed: undefined };
    road.cursor = undefined;
    const report = road.ask((road) => road.report());
    if (!report) return;
    const label = (/** @type {string} */ id) => report.ranges.find((range) => range.id === id)?.label ?? id;
    form.offer(report.order.map(label), report.engine);
    road.asked = form.asked();
  }

  /** @param {Traction} report */
  function tellAll(report) {
    const text = wordsOf(desk, report);
    if (words.textContent !== text) words.textContent = text;
    const { mass } = report;
    vehicle.textContent = mass > 0 ? say("page-traction-vehicle", { mass: number(mass, 4) }) : say("page-traction-weightless");
    stated.show(report.stated.map(({ what, value, assumed }) => ({ path: PATHS[what].path, name: say("page-traction-stated", { what }), unit: { name: PATHS[what].unit, size: 1 }, value, assumed })));
    assumed.textContent = assumedWords(report);
    assumed.hidden = report.assumed.length === 0;
    faulty.replaceChildren(...report.problems.map(({ place, what, fix }) => h("li", {}, say("problem", { place, what, fix }))));
    tables.show(report);
    tables.update();
    plot.describe();
    plot.changed();
  }

  draws(() => panel.open && !found.hidden && !results.hidden && plot.draw());
  panel.toggled(show);
  follow(desk, ["answer"], () => tables.update());
  follow(desk, ["train", "whole", "units", "assumptions"], show);
  signal.addEventListener("abort", () => road.free());
}

/**
 * What matters most, in sentences.
 * @param {Desk} desk
 * @param {Traction} report
 */
function wordsOf(desk, { ranges, fastest, run, noRun }) {
  const { speed } = roadUnits(desk.units);
  const of = (/** @type {number} */ value) => `${number(value / speed.size, 3)}${NO_BREAK}${speed.name}`;
  const sentences = [];
  const first = ranges.find(({ id }) => id === fastest);
  if (first?.top) sentences.push(say("page-traction-fastest", { speed: of(first.top.speed), range: first.label }));
  const climbs = ranges.filter(({ ratio, slope, lifts }) => (ratio ?? 0) > 0 && (slope !== null || lifts));
  const steepest = climbs.reduce((/** @type {typeof climbs[0] | undefined} */ best, range) => {
    const steep = (/** @type {typeof climbs[0]} */ { slope, lifts }) => (lifts ? Infinity : slope ?? -Infinity);
    return best && steep(best) >= steep(range) ? best : range;
  }, undefined);
  if (steepest && (steepest.lifts || (steepest.slope ?? 0) > STEEPEST)) sentences.push(say("page-traction-steepest-any", { range: steepest.label }));
  else if (steepest) sentences.push(say("page-traction-steepest", { slope: number((steepest.slope ?? 0) * PERCENT, 2), range: steepest.label }));
  const wanted = TOLD[speed.name];
  const reached = run?.targets.find((target) => Math.abs(target.speed / speed.size - wanted) < 1e-6);
  if (reached) sentences.push(say("page-traction-time", { speed: of(reached.speed), time: number(reached.time, 3) }));
  if (noRun) sentences.push(noRun);
  return sentences.join(" ");
}

/** @param {Traction} report */
function assumedWords({ assumed }) {
  const values = assumed.map(({ what, value }) => say("page-traction-assumed-value", { what, value: number(value, 3) }));
  return values.length ? say("page-traction-assumed", { values: values.join("; ") }) : "";
}
