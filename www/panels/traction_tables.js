/** A train on the road in numbers: its ranges, the shifts of a run from rest, and the times of that run. */

import { h } from "../kit/dom.js";
import { NO_BREAK, NONE, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { roadUnits } from "../state/road_units.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/units.js").Unit} Unit */
/** @typedef {import("../engine/levertrain_whole.js").Traction} Traction */
/** @typedef {import("../engine/levertrain_whole.js").TractionRange} Range */

/** No road is as steep as this, rise over run: it lifts a vehicle as far as it goes ahead. */
export const STEEPEST = 1;
const PERCENT = { name: "%", size: 0.01 };
const RATIO = { name: "", size: 1 };
const SECOND = { name: "s", size: 1 };

/** @typedef {[key: string, quantity: "none" | "ratio" | "road" | "engine" | "slope" | "force" | "time" | "distance"]} Column */

/** @type {Record<"ranges" | "shifts" | "run", Column[]>} */
const COLUMNS = {
  ranges: [["range", "none"], ["ratio", "ratio"], ["top", "road"], ["top-engine", "engine"], ["climb", "slope"], ["climb-at", "road"]],
  shifts: [["shift", "none"], ["at", "road"], ["before", "engine"], ["after", "engine"], ["force-before", "force"], ["force-after", "force"], ["time", "time"], ["distance", "distance"]],
  run: [["speed", "road"], ["time", "time"], ["distance", "distance"]],
};

export class TractionTables {
  #desk;
  #apply;
  #tables;

  /**
   * @param {Desk} desk
   * @param {(range: string) => void} apply
   * @param {AbortSignal} signal
   */
  constructor(desk, apply, signal) {
    this.#desk = desk;
    this.#apply = apply;
    const make = (/** @type {keyof typeof COLUMNS} */ name) => {
      const columns = COLUMNS[name];
      const heads = columns.map(() => h("span"));
      // The first says what a row is about.
      const figures = columns.flatMap((_, at) => (at === 0 ? [] : [at]));
      const title = say("page-traction-table", { table: name });
      const made = table(title, heads, figures);
      made.node.dataset.part = `traction-${name}`;
      columns.forEach(([column, quantity], at) => (heads[at].textContent = this.#head(column, quantity)));
      tellHeadings(made.node, columns.map((_, at) => () => ({ name: heads[at].textContent ?? "" })));
      const section = h("section", {}, h("h3", {}, title), scroller(made.node, title, signal));
      return { ...made, heads, columns, section };
    };
    this.#tables = { ranges: make("ranges"), shifts: make("shifts"), run: make("run") };
    this.node = h("div", { class: "traction-tables" }, ...Object.values(this.#tables).map(({ section }) => section));
  }

  /** The unit of a column. @param {Column[1]} quantity @returns {Unit} */
  #unit(quantity) {
    const { speed, force, distance } = roadUnits(this.#desk.units);
    const units = { road: speed, force, distance, engine: unitOf(this.#desk.units, "speed"), slope: PERCENT, time: SECOND, ratio: RATIO, none: RATIO };
    return units[quantity];
  }

  /** What a column is called. @param {string} column @param {Column[1]} quantity */
  #head(column, quantity) {
    return say("page-traction-column", { column, unit: this.#unit(quantity).name });
  }

  /** @param {Traction} found */
  show({ ranges, run }) {
    for (const { heads, columns } of Object.values(this.#tables)) {
      columns.forEach(([column, quantity], at) => (heads[at].textContent = this.#head(column, quantity)));
    }
    this.#tables.ranges.body.replaceChildren(...ranges.map((range) => this.#range(range)));
    this.#tables.shifts.section.hidden = !run?.changes.length;
    this.#tables.run.section.hidden = !run;
    if (!run) return;
    const label = (/** @type {string} */ id) => ranges.find((range) => range.id === id)?.label ?? id;
    const shifts = run.changes.map(({ at, from, to, before, after }) => {
      const pair = say("page-shifts-pair", { from: label(from), to: label(to) });
      const values = [at.speed, before.engineSpeed, after.engineSpeed, before.force, after.force, at.time, at.distance];
      return this.#row(h("th", { scope: "row" }, pair), "shifts", values);
    });
    this.#tables.shifts.body.replaceChildren(...shifts);
    const times = run.targets.map(({ speed, time, distance }) => this.#moment(speed, time, distance, ""));
    const { last } = run;
    // The end itself, or where almost all of it is reached.
    const end = run.atEngineLimit ? say("page-traction-at-limit") : say("page-traction-nearly");
    this.#tables.run.body.replaceChildren(...times, this.#moment(last.speed, last.time, last.distance, end));
  }

  /** Marks the range that is applied. */
  update() {
    for (const row of this.#tables.ranges.body.children) {
      const current = /** @type {HTMLElement} */ (row).dataset.range === this.#desk.answer?.range;
      if (current) row.setAttribute("aria-current", "true");
      else row.removeAttribute("aria-current");
    }
  }

  /**
   * @param {HTMLElement} head
   * @param {keyof typeof COLUMNS} name
   * @param {(number | null | undefined)[]} values of the columns after the head
   */
  #row(head, name, values) {
    const columns = COLUMNS[name].slice(1);
    const cells = values.map((value, at) => this.#cell(value, columns[at][1]));
    return h("tr", {}, head, ...cells);
  }

  /**
   * @param {number | null | undefined} value
   * @param {Column[1]} quantity
   */
  #cell(value, quantity) {
    const cell = h("td", { class: "figure" });
    if (value === null || value === undefined) {
      cell.textContent = NONE;
      return tell(cell, null);
    }
    const shown = value / this.#unit(quantity).size;
    cell.textContent = shown === 0 ? "0" : number(shown, quantity === "engine" || quantity === "ratio" ? 4 : 3);
    return tell(cell, shown);
  }

  /** @param {Range} range */
  #range({ id, label, idle, ratio, top, slope, climbing, lifts, atEngineLimit }) {
    const button = h("button", { class: "bare", type: "button" }, label);
    const head = h("th", { scope: "row" }, button);
    if (idle) head.append(h("span", { class: "does" }, idle));
    const row = this.#row(head, "ranges", [ratio, top?.speed, top?.engineSpeed, slope, climbing?.speed]);
    const [, , fastest, , steepest] = row.children;
    if (atEngineLimit) fastest.append(h("span", { class: "does" }, say("page-traction-limit")));
    // Beyond what any road has a number says nothing; whoever takes the table away has it all the same.
    if (lifts || (slope ?? 0) > STEEPEST) steepest.textContent = say("page-traction-any");
    row.classList.add("pick");
    row.dataset.range = id;
    row.addEventListener("click", () => this.#apply(id));
    return row;
  }

  /**
   * @param {number} speed
   * @param {number} time
   * @param {number} distance
   * @param {string} words
   */
  #moment(speed, time, distance, words) {
    const unit = this.#unit("road");
    const shown = speed / unit.size;
    const rounded = Math.round(shown);
    const text = words || Math.abs(shown - rounded) > 1e-9 ? number(shown, 3) : String(rounded);
    const head = h("th", { scope: "row" }, `${text}${NO_BREAK}${unit.name}`);
    if (words) head.append(h("span", { class: "does" }, words));
    tell(head, shown);
    return this.#row(head, "run", [time, distance]);
  }
}
