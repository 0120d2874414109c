/** How a shift in time begins, for how long it is reckoned, and whether engine torque is taken back. */

import { h } from "../kit/dom.js";
import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { number } from "../kit/format.js";
import { Failure, problemsOf } from "../kit/problems.js";
import { parted, say } from "../kit/words.js";
import { fromField, unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./timed_run.js").TimedRun} TimedRun */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} Plan */

/** Times that can be looked at, in seconds. */
const LENGTHS = [0.5, 1, 1.5, 2, 3, 5, 10];
/** The part of engine torque that is taken back at first, and when, as parts of the time. */
const DEPTH = 0.5;
const CUT = [0.15, 0.35];
/** The part of the time shown that a shift may take. */
const FILLED = 0.8;
/** Figures of a number that is shown. */
const FIGURES = 4;

/** The fields: what the plan calls them, their messages, and their quantities.
 * @type {["input_speed" | "input_torque" | "output_torque", string, "speed" | "torque"][]} */
const FIELDS = [
  ["input_speed", "page-timed-input-speed", "speed"],
  ["input_torque", "page-timed-input-torque", "torque"],
  ["output_torque", "page-timed-output-torque", "torque"],
];

export class TimedConditions {
  #desk;
  #run;
  #changed;
  #fields;
  #until;
  #cut;
  #depth;
  #depthField;
  #problem = h("p", { class: "note", role: "status", "data-part": "timed-problem" });

  /**
   * @param {Desk} desk
   * @param {TimedRun} run
   * @param {() => void} changed
   */
  constructor(desk, run, changed) {
    this.#desk = desk;
    this.#run = run;
    this.#changed = changed;
    this.#fields = FIELDS.map(([key, message, kind]) => {
      const input = decimalField({ id: `timed-${key}`, "data-part": `timed-${key}`, change: () => this.#begin(key) });
      const unit = h("span", { class: "unit" });
      return { key, kind, input, unit, name: say(message), node: labelled(say(message), input, unit) };
    });
    const options = LENGTHS.map((seconds) => h("option", { value: seconds }, say("page-timed-seconds", { time: number(seconds, Number.isInteger(seconds) ? 1 : 2) })));
    this.#until = /** @type {HTMLSelectElement} */ (h("select", { id: "timed-until", "data-part": "timed-until", change: () => this.#begin("until") }, ...options));
    this.#cut = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-part": "timed-cut", change: () => this.#takeBack() }));
    this.#depth = decimalField({ id: "timed-depth", "data-part": "timed-depth", min: 1, max: 100, change: () => this.#takeBack() });
    this.#depthField = labelled(say("page-timed-depth"), this.#depth, h("span", { class: "unit" }, "%"));
    this.node = h(
      "div",
      { class: "timed-conditions" },
      ...this.#fields.map(({ node }) => node),
      labelled(say("page-timed-until"), h("span", { class: "select" }, this.#until)),
      h("label", { class: "control check" }, this.#cut, h("span", {}, say("page-timed-cut"))),
      this.#depthField,
      this.#problem,
    );
  }

  /** Shows what is commanded. @param {Plan} plan */
  show(plan) {
    for (const { key, kind, input, unit } of this.#fields) {
      const of = unitOf(this.#desk.units, kind);
      unit.textContent = of.name;
      if (!input.matches(":focus")) putIn(input, String(Number((plan[key] / of.size).toPrecision(FIGURES))));
    }
    this.#until.value = String(plan.until);
    this.#cut.checked = Boolean(plan.cut);
    this.#depthField.hidden = !plan.cut;
    if (plan.cut && !this.#depth.matches(":focus")) putIn(this.#depth, String(Math.round(plan.cut[2] * 100)));
  }

  /** Has as much time shown as the shift takes, with some more. */
  suit() {
    this.#run.command((shift) => {
      const plan = shift.plan();
      for (const until of LENGTHS) {
        shift.begin(plan.input_speed, plan.input_torque, plan.output_torque, until);
        const settled = shift.report()?.settled_at ?? Infinity;
        if (settled <= until * FILLED) return;
      }
      shift.begin(plan.input_speed, plan.input_torque, plan.output_torque, plan.until);
    });
  }

  /** Takes one field over: what others show may be rounded. @param {typeof FIELDS[number][0] | "until"} key */
  #begin(key) {
    this.#try((shift) => {
      const plan = shift.plan();
      const field = this.#fields.find((known) => known.key === key);
      if (field && !Number.isFinite(Number(typedIn(field.input) || NaN))) throw new Failure(field.name, say("page-timed-no-number"), say("page-timed-write-number"));
      plan[key] = field ? fromField(typedIn(field.input), unitOf(this.#desk.units, field.kind)) : Number(this.#until.value);
      shift.begin(plan.input_speed, plan.input_torque, plan.output_torque, plan.until);
    });
  }

  #takeBack() {
    this.#try((shift) => {
      const { cut, until } = shift.plan();
      const percent = Number(typedIn(this.#depth) || NaN);
      if (cut && this.#cut.checked && !(percent >= 1 && percent <= 100)) throw new Failure(say("page-timed-cut"), say("page-timed-wrong-depth"), say("page-timed-write-number"));
      const depth = cut ? percent / 100 : DEPTH;
      // While speeds change is when it helps.
      const inertia = shift.report()?.phases.find(({ phase }) => phase === "inertia");
      const [begin, end] = cut ?? (inertia ? [inertia.begin, inertia.end] : CUT.map((part) => part * until)).map((time) => Math.round(time * 1000) / 1000);
      if (this.#cut.checked) shift.cut(begin, end, depth);
      else shift.cut(0, 0, 0);
    });
  }

  /** What the page calls a place in the plan. @param {string} place */
  #nameOf(place) {
    return this.#fields.find(({ key }) => key === place)?.name ?? place;
  }

  /** @param {(shift: import("../engine/levertrain_whole.js").TimedShift) => void} change */
  #try(change) {
    try {
      this.#run.mark();
      this.#run.command(change);
      this.#problem.textContent = "";
    } catch (error) {
      this.#problem.textContent = parted(problemsOf(error).map(({ place, problem, fix }) => say("problem", { place: this.#nameOf(place), what: problem, fix })));
      return;
    }
    this.#changed();
  }
}

/** @param {string} name @param {HTMLElement} field @param {...HTMLElement} more */
function labelled(name, field, ...more) {
  const { id } = field.querySelector("select") ?? field;
  return h("div", { class: "control" }, h("label", { for: id }, name), field, ...more);
}
