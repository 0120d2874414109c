/** The shifts between named ranges as a table: what goes, what comes, and the step. */

import { h } from "../kit/dom.js";
import { fraction, NONE, ratio } from "../kit/format.js";
import { tell, tellHeadings, tellRows } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").Shifts} Shifts */
/** @typedef {import("../engine/levertrain_whole.js").RangeShift} RangeShift */

/** The kinds that count as single swaps. */
const SINGLE = ["alone", "single"];

export class ShiftTable {
  #desk;
  /** @type {RangeShift[]} */
  #shifts = [];
  #from = /** @type {HTMLSelectElement} */ (h("select", { id: "shifts-from", change: () => this.#fill() }));
  #words = h("p", { class: "note", "data-part": "shifts-singles" });
  #choice = h("p", { class: "filter" }, h("label", { for: "shifts-from" }, say("page-shifts-from")), h("span", { class: "select" }, this.#from));
  #table;

  /** @param {Desk} desk @param {AbortSignal} signal */
  constructor(desk, signal) {
    this.#desk = desk;
    const heads = [
      say("page-shifts-shift-head"),
      say("page-shifts-kind-head"),
      say("page-shifts-released"),
      say("page-shifts-applied"),
      say("page-shifts-step"),
    ];
    this.#table = table(say("page-shifts-between"), heads, [4]);
    this.#table.node.dataset.part = "shifts-between";
    tellHeadings(this.#table.node, [...heads.slice(0, 4).map(() => () => undefined), () => ({ name: say("page-shifts-step"), exact: say("page-take-exact", { what: say("page-shifts-step") }) })]);
    tellRows(this.#table.node, () => this.#shifts.map((shift) => this.#row(shift)));
    this.node = h(
      "section",
      { "aria-labelledby": "shifts-between" },
      h("h3", { id: "shifts-between" }, say("page-shifts-between")),
      this.#words,
      this.#choice,
      scroller(this.#table.node, say("page-shifts-between"), signal),
    );
  }

  /** @param {Shifts} found */
  show({ shifts }) {
    const before = this.#from.value;
    this.#shifts = shifts;
    const ranges = this.#desk.info?.ranges ?? [];
    const starts = ranges.filter(({ id }) => shifts.some(({ from }) => from === id));
    const options = starts.map(({ id, label }) => h("option", { value: id }, label));
    this.#from.replaceChildren(...options, h("option", { value: "" }, say("page-shifts-from-all")));
    const now = this.#desk.answer?.range;
    const wanted = [before, now].find((id) => id && starts.some((range) => range.id === id));
    this.#from.value = wanted ?? starts[0]?.id ?? "";
    this.#choice.hidden = this.#table.node.hidden = starts.length === 0;
    this.#words.textContent = starts.length ? this.#counted() : say("page-shifts-no-ranges");
    this.#fill();
  }

  #counted() {
    const forward = this.#desk.chart()?.ranges.map(({ ratio }) => (ratio?.decimal ?? 0) > 0) ?? [];
    const ranges = this.#desk.info?.ranges ?? [];
    const at = (/** @type {string} */ id) => ranges.findIndex((range) => range.id === id);
    // There and back is one shift here.
    const between = this.#shifts.filter(({ from, to }) => at(from) < at(to) && forward[at(from)] && forward[at(to)]);
    const singles = (/** @type {RangeShift[]} */ shifts) => shifts.filter(({ kind }) => SINGLE.includes(kind)).length;
    const next = between.filter((shift) => shift.next);
    return say("page-shifts-singles", { singles: singles(between), all: between.length, next: singles(next), neighbours: next.length });
  }

  #fill() {
    const from = this.#from.value;
    const shown = this.#shifts.filter((shift) => from === "" || shift.from === from);
    this.#table.body.replaceChildren(...shown.map((shift) => this.#row(shift)));
  }

  /** @param {RangeShift} shift */
  #row({ from, to, kind, released, applied, step, next }) {
    const label = (/** @type {string} */ id) => this.#desk.info?.ranges.find((range) => range.id === id)?.label ?? id;
    const names = (/** @type {string[]} */ ids) => ids.join(" ") || NONE;
    const pair = say("page-shifts-pair", { from: label(from), to: label(to) });
    return h(
      "tr",
      { "data-from": from, "data-to": to, "data-kind": kind, "data-next": next },
      h("th", { scope: "row" }, pair),
      h("td", { class: SINGLE.includes(kind) ? "swap-single" : null }, say("page-shifts-kind", { kind })),
      h("td", {}, names(released)),
      h("td", {}, names(applied)),
      tell(h("td", { class: "figure", title: step ? fraction(step) : null }, ratio(step)), step?.decimal, step?.fraction),
    );
  }
}
