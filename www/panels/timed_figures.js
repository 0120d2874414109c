/** What a shift in time costs, in numbers, beside one that was kept; and what is known or assumed of the train. */

import { h, write } from "../kit/dom.js";
import { NO_BREAK, NONE, number } from "../kit/format.js";
import { tell } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { parted, say } from "../kit/words.js";
import { unitOf } from "../state/units.js";
import { StatedFields } from "./stated.js";
import { timeWords } from "./timed_grip.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").TimedShiftReport} Report */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} Plan */
/** A row: what it is, its unit, and its value in a report; nothing where it has none.
 * @typedef {{ name: string, unit: string, value: (report: Report) => number | null | undefined, most?: boolean }} Row whether it is the most of its kind, too */

/** Values smaller than this against their own kind are roundings. */
const ROUNDING = 1e-9;

export class TimedFigures {
  #desk;
  #verdict = h("p", { class: "timed-verdict", role: "status", "data-part": "timed-verdict" });
  #phases = h("p", { class: "note", "data-part": "timed-phases" });
  #table;
  #known;
  /** The element that becomes hottest. @type {string | undefined} */
  #hottest;
  /** What the table of what is known shows, and of which train. */
  #shown = "";
  /** @type {Desk["info"]} */
  #of;

  /** @param {Desk} desk @param {AbortSignal} signal */
  constructor(desk, signal) {
    this.#desk = desk;
    const heads = [say("page-timed-figure"), say("page-timed-this"), say("page-timed-kept-head")];
    this.#table = table(say("page-timed-figures"), heads, [1, 2]);
    this.#table.node.dataset.part = "timed-figures";
    this.#known = new StatedFields(desk, say("page-timed-known"), "timed-known", signal);
    this.verdict = h("div", { class: "timed-told" }, this.#verdict, this.#phases);
    this.node = scroller(this.#table.node, say("page-timed-figures"), signal);
    this.known = h(
      "details",
      { class: "timed-known" },
      h("summary", {}, say("page-timed-known")),
      h("p", { class: "note" }, say("page-timed-known-note")),
      this.#known.node,
    );
  }

  /** @param {Report} report @param {Report | null} kept @param {Plan} plan */
  show(report, kept, plan) {
    const wrong = this.#wrongs(report, plan);
    write(this.#verdict, wrong.length > 0 ? parted(wrong) : say(isSlight(report) ? "page-timed-slight" : "page-timed-clean"));
    this.#verdict.toggleAttribute("data-wrong", wrong.length > 0);
    const phases = report.phases.map(({ phase, begin, end }) => say("page-timed-phase-at", { phase: phaseName(phase), begin: timeWords(begin), end: timeWords(end) }));
    const hottest = report.elements.reduce((most, one) => (one.heat > (most?.heat ?? 0) ? one : most), /** @type {Report["elements"][number] | undefined} */ (undefined));
    this.#hottest = hottest?.element;
    const hot = hottest && say("page-timed-hottest", { element: this.#desk.elementLabel(hottest.element), heat: say("page-timed-joule", { heat: number(hottest.heat, 3) }) });
    write(this.#phases, [phases.join("; "), hot].filter(Boolean).join(" · "));
    this.#table.body.replaceChildren(...this.#rows(report, kept).map((row) => this.#row(row, report, kept)));
    this.#table.node.toggleAttribute("data-compares", Boolean(kept));
    // No command changes these, and a drag shows many commands.
    const { inertias, fill_times, full_torques } = plan;
    const shown = JSON.stringify([inertias, fill_times, full_torques, this.#desk.units.torque]);
    if (shown === this.#shown && this.#desk.info === this.#of) return;
    this.#shown = shown;
    this.#of = this.#desk.info;
    this.#known.show(this.#assumptions(plan));
  }

  /** What is wrong with it, and what would help, in words that change only with its kind. @param {Report} report @param {Plan} plan */
  #wrongs(report, plan) {
    const said = [];
    if (report.flare > plan.slight_flare) said.push(say("page-timed-flares"));
    if (report.bind > plan.slight_bind) {
      const elements = [...new Set(report.binds.map(({ element }) => this.#desk.elementLabel(element)))];
      said.push(say("page-timed-binds", { elements: elements.join(", "), count: elements.length }));
    }
    // Then it is not a matter of sooner or later.
    if (said.length > 1) said.push(say("page-timed-both"));
    if (report.settled_at === null) said.push(say("page-timed-unsettled"));
    return said;
  }

  /** @param {Report} report @param {Report | null} kept @returns {Row[]} */
  #rows(report, kept) {
    const { units } = this.#desk;
    const [speed, torque, power] = /** @type {const} */ (["speed", "torque", "power"]).map((kind) => unitOf(units, kind));
    const in_ = (/** @type {import("../state/units.js").Unit} */ unit, /** @type {number | undefined} */ value) => value && value / unit.size;
    const elements = [...report.elements, ...(kept?.elements ?? [])].map(({ element }) => element);
    const slip = (/** @type {string} */ id) => (/** @type {Report} */ { elements }) => elements.find(({ element }) => element === id);
    return [
      { name: say("page-timed-duration"), unit: say("page-timed-second"), value: ({ duration }) => duration },
      { name: say("page-timed-flare"), unit: speed.name, value: ({ flare }) => in_(speed, flare) },
      { name: say("page-timed-bind"), unit: torque.name, value: ({ bind }) => in_(torque, bind) },
      { name: say("page-timed-drop"), unit: torque.name, value: ({ drop }) => in_(torque, drop) },
      { name: say("page-timed-jerk"), unit: say("page-timed-jerk-unit"), value: ({ jerk }) => jerk },
      ...[...new Set(elements)].flatMap((id) => {
        const element = this.#desk.elementLabel(id);
        return [
          { name: say("page-timed-heat", { element }), unit: "J", value: (/** @type {Report} */ of) => slip(id)(of)?.heat, most: id === this.#hottest && elements.length > 1 },
          { name: say("page-timed-peak", { element }), unit: power.name, value: (/** @type {Report} */ of) => in_(power, slip(id)(of)?.peak_power) },
          { name: say("page-timed-slips", { element }), unit: say("page-timed-second"), value: (/** @type {Report} */ of) => slip(id)(of)?.slip_time },
        ];
      }),
      { name: say("page-timed-input"), unit: "J", value: ({ input }) => input },
      { name: say("page-timed-output"), unit: "J", value: ({ output }) => output },
      { name: say("page-timed-stored"), unit: "J", value: ({ stored }) => stored },
      { name: say("page-timed-heats"), unit: "J", value: ({ heat }) => heat },
    ];
  }

  /** @param {Row} row @param {Report} report @param {Report | null} kept */
  #row({ name, unit, value, most = false }, report, kept) {
    const scale = Math.abs(report.input) + Math.abs(report.heat) + 1;
    const cell = (/** @type {Report | null} */ of) => {
      const found = of && value(of);
      const known = typeof found === "number" ? (Math.abs(found) < scale * ROUNDING ? 0 : found) : null;
      return tell(h("td", { class: "figure" }, known === null ? NONE : number(known, 3)), known);
    };
    const head = h("th", { scope: "row" }, say("page-timed-with-unit", { figure: name, unit }), most ? h("span", { class: "timed-most" }, ` ▲ ${say("page-timed-most")}`) : "");
    return h("tr", { "data-most": most }, head, cell(report), cell(kept));
  }

  /** @param {Plan} plan @returns {import("./stated.js").Stated[]} */
  #assumptions({ inertias, fill_times, full_torques }) {
    const { info, units } = this.#desk;
    const torque = unitOf(units, "torque");
    const row = (/** @type {string[]} */ path, /** @type {string} */ name, /** @type {import("../engine/levertrain_whole.js").TimedValue} */ { value, assumed }, /** @type {import("../state/units.js").Unit} */ unit) =>
      ({ path: ["dynamics", ...path], name, unit, value, assumed });
    const mass = { name: "kg·m²", size: 1 };
    const second = { name: say("page-timed-second"), size: 1 };
    const [engine, load, ...shafts] = inertias;
    const elements = info?.elements ?? [];
    return [
      row(["engine_inertia"], say("page-timed-engine-inertia"), engine, mass),
      row(["load_inertia"], say("page-timed-load-inertia"), load, mass),
      ...(info?.shafts ?? []).map(({ id, label }, at) => row(["shafts", id, "inertia"], say("page-timed-shaft-inertia", { shaft: label }), shafts[at], mass)),
      ...elements.flatMap(({ id, label, kind }, at) =>
        kind === "one-way"
          ? []
          : [
              row(["elements", id, "fill_time"], say("page-timed-fill-time", { element: label }), fill_times[at], second),
              row(["elements", id, "full_torque"], say("page-timed-full-torque", { element: label }), full_torques[at], torque),
            ],
      ),
    ];
  }
}

/** Whether it flares or binds at all. @param {Report} report */
function isSlight({ flares, binds }) {
  return flares.length > 0 || binds.length > 0;
}

/** @param {string} phase */
export function phaseName(phase) {
  return say("page-timed-phase", { phase });
}

/**
 * A number with its unit, as it is read on the way.
 * @param {number} value
 * @param {import("../state/units.js").Unit} unit
 */
export function withUnit(value, unit) {
  const shown = value / unit.size;
  return `${number(Math.abs(shown) < 1e-6 ? 0 : shown, 3)}${NO_BREAK}${unit.name}`;
}
