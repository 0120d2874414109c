/** What a file states of a train in motion, or what is assumed where it does not: a field for each number, which changes the file. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { tell } from "../kit/known.js";
import { problemsOf } from "../kit/problems.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { lockable } from "../state/lockable.js";
import { forField, fromField } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/**
 * A number: where the file states it, what it is called, its unit, its value in the unit of the file, and whether that is assumed.
 * It may have none, where nothing is assumed either.
 * @typedef {{ path: string[], name: string, unit: import("../state/units.js").Unit, value: number | null, assumed: boolean }} Stated
 */

export class StatedFields {
  #desk;
  #table;
  #problem = h("p", { class: "find-problems", role: "status", "data-part": "stated-problem" });
  /** @type {Row[]} */
  #rows = [];
  #of = "";
  /** The train's file as it was read last. */
  #text = "";
  /** @type {unknown} */
  #file;

  /**
   * @param {Desk} desk
   * @param {string} title
   * @param {string} part what the page knows the table by
   * @param {AbortSignal} signal
   */
  constructor(desk, title, part, signal) {
    this.#desk = desk;
    this.#table = table(title, [say("page-timed-figure"), say("page-timed-value"), say("page-timed-source")], [1]);
    this.#table.node.dataset.part = part;
    this.node = h("div", { class: "stated" }, lockable(desk, "train", scroller(this.#table.node, title, signal)), this.#problem);
  }

  /** @param {Stated[]} all */
  show(all) {
    const of = JSON.stringify(all.map(({ path, name, unit }) => [path, name, unit]));
    if (of !== this.#of) {
      this.#of = of;
      this.#rows = all.map((stated) => new Row(stated, (amount) => this.#state(stated, amount), (what) => this.#tell(what)));
      this.#table.body.replaceChildren(...this.#rows.map(({ node }) => node));
      this.#tell("");
    }
    const { text } = this.#desk;
    if (text !== this.#text) {
      this.#text = text;
      // Some editors begin a file with a byte order mark.
      this.#file = JSON.parse(text.replace(/^\ufeff/, ""));
    }
    this.#rows.forEach((row, at) => row.show(all[at], isStated(this.#file, all[at].path)));
  }

  /** @param {string} what is wrong with what was typed */
  #tell(what) {
    this.#problem.textContent = what;
  }

  /**
   * @param {Stated} stated
   * @param {number | null} amount
   */
  #state({ path, name }, amount) {
    try {
      this.#desk.edit({ edit: "state", path, amount });
      this.#tell("");
      return true;
    } catch (error) {
      this.#tell(problemsOf(error).map(({ problem, fix }) => say("problem", { place: name, what: problem, fix })).join(" "));
      return false;
    }
  }
}

class Row {
  #unit;
  #field;
  #source = h("span", {});
  #assume;
  #cell;
  /** Whether what was typed is to be mended. */
  #wrong = false;

  /**
   * @param {Stated} stated
   * @param {(amount: number | null) => boolean} state whether it was taken
   * @param {(what: string) => void} complain
   */
  constructor({ path, name, unit }, state, complain) {
    this.#unit = unit;
    const key = path.join(".");
    const called = unit.name ? say("page-timed-with-unit", { figure: name, unit: unit.name }) : name;
    this.#field = decimalField({ class: "count", "aria-label": called, "data-key": key, change: take });
    this.#assume = h("button", { class: "bare stated-assume", type: "button", "data-key": `assume ${key}`, click: () => state(null) && this.#field.focus() }, say("page-stated-assume"));
    this.#assume.setAttribute("aria-label", say("page-stated-assume-this", { name }));
    this.#cell = h("td", { class: "figure" }, this.#field);
    const row = this;
    function take() {
      const typed = Number(typedIn(row.#field) || NaN);
      row.#wrong = !Number.isFinite(typed);
      if (row.#wrong) complain(say("problem", { place: name, what: say("page-timed-no-number"), fix: say("page-timed-write-number") }));
      else row.#wrong = !state(fromField(typedIn(row.#field), unit));
      row.#field.setAttribute("aria-invalid", String(row.#wrong));
    }
    this.node = h("tr", {}, h("th", { scope: "row" }, called), this.#cell, h("td", {}, this.#source, " ", this.#assume));
  }

  /**
   * @param {Stated} stated
   * @param {boolean} isStated whether the file states it there: some follow from what it says elsewhere
   */
  show({ value, assumed }, isStated) {
    this.node.dataset.assumed = String(assumed);
    tell(this.#cell, value === null ? null : value / this.#unit.size);
    this.#source.textContent = value === null ? say("page-stated-none") : assumed ? say("page-timed-assumed") : say("page-timed-from-file");
    this.#assume.hidden = !isStated;
    // What was refused stays in the field, to be mended.
    if (this.#wrong) return;
    const text = value === null ? "" : forField(value, this.#unit);
    if (typedIn(this.#field) !== text) putIn(this.#field, text);
  }
}

/**
 * Whether a file has something where a path leads, on which items of lists are called by the shaft or element that they are about.
 * @param {unknown} file
 * @param {string[]} path
 */
function isStated(file, path) {
  /** @type {any} */
  let here = file;
  for (const name of path) here = Array.isArray(here) ? here.find((item) => [item?.shaft, item?.element].includes(name)) : here?.[name];
  return here !== undefined;
}
