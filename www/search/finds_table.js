/** What a search has found, as a table: a row shows its train on the stage. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { painted } from "../kit/pieces.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { lockable } from "../state/lockable.js";
import { COLUMNS, keyOf, teethOf } from "./finds_columns.js";

/** @typedef {import("../engine/levertrain.js").Find} Find */

/** Most rows; nobody reads more. */
const MOST = 200;
/** The same while there are ever others: what is laid out again every second would hold the page up. */
const MEANWHILE = 25;
/** How many rows are put in or moved between frames: to lay out all at once would hold the page up. */
const AT_ONCE = 25;

export class FindsTable {
  #desk;
  #choose;
  #table;
  /** The measures that are shown unless all are. @type {Set<string>} */
  #counting = new Set();
  #all = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-part": "find-all", change: () => this.#anew() }));
  #more = h("p", { class: "note" });
  /** How many rows there may be. */
  #most = MOST;
  /** @type {Find[]} */
  #finds = [];
  /** The rows that there are: most finds stay from one list to the next. @type {Map<Find, HTMLElement>} */
  #rows = new Map();
  /** Counts lists: what is left to put in of an earlier one is not. */
  #turn = 0;
  /** The teeth of the find on the stage. @type {string | undefined} */
  #chosen;
  /** The column that rows are ordered by; nothing for the order of what counts. @type {number | undefined} */
  #order;
  /** @type {HTMLElement[]} */
  #heads;

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {(find: Find) => void} choose
   * @param {AbortSignal} signal
   */
  constructor(desk, choose, signal) {
    this.#desk = desk;
    this.#choose = choose;
    this.#heads = COLUMNS.map(({ key }, at) =>
      h("button", { class: "bare", type: "button", click: () => this.#sort(at) }, say("page-find-column", { criterion: key })),
    );
    const names = [say("page-find-teeth-head"), ...this.#heads];
    this.#table = table(say("page-find-found"), names, COLUMNS.map((_, at) => at + 1));
    this.#table.node.dataset.part = "finds";
    tellHeadings(this.#table.node, [() => undefined, ...COLUMNS.map(({ key }) => () => ({ name: say("page-find-column", { criterion: key }) }))]);
    const all = h("label", { class: "control check" }, this.#all, h("span", {}, say("page-find-all")));
    this.node = h("div", { class: "finds" }, all, lockable(desk, "train", scroller(this.#table.node, say("page-find-found"), signal)), h("p", { class: "note" }, say("page-find-teeth-note")), this.#more);
  }

  /** Shows the measures that count, and how far ratios are off. @param {string[]} best */
  begin(best) {
    this.#counting = new Set(["error", ...best]);
    this.#anew();
  }

  /** @param {string} key */
  #shows(key) {
    return this.#all.checked || this.#counting.size === 0 || this.#counting.has(key);
  }

  /** @param {Find[]} finds @param {boolean} [goesOn] whether there may be others soon */
  show(finds, goesOn = false) {
    const most = goesOn ? MEANWHILE : MOST;
    if (finds === this.#finds && most === this.#most) return;
    this.#finds = finds;
    this.#most = most;
    this.#fill();
  }

  /** Marks the find that is on the stage. @param {Find | undefined} find */
  mark(find) {
    this.#chosen = find && keyOf(find);
    for (const row of this.#table.body.children) this.#tick(/** @type {HTMLElement} */ (row));
  }

  /** @param {number} at */
  #sort(at) {
    this.#order = this.#order === at ? undefined : at;
    this.#fill();
  }

  /** Fills it with new rows: others of their cells are shown. */
  #anew() {
    this.#rows.clear();
    this.#table.body.replaceChildren();
    this.#fill();
  }

  #fill() {
    const shown = [...this.#finds];
    const column = this.#order === undefined ? undefined : COLUMNS[this.#order];
    if (column) shown.sort((a, b) => (column.falls ? -1 : 1) * (column.value(a) - column.value(b)));
    this.#heads.forEach((head, at) => {
      const cell = head.closest("th");
      cell?.toggleAttribute("hidden", !this.#shows(COLUMNS[at].key));
      if (at === this.#order) cell?.setAttribute("aria-sort", COLUMNS[at].falls ? "descending" : "ascending");
      else cell?.removeAttribute("aria-sort");
    });
    this.#more.textContent = shown.length > this.#most ? say("page-find-rows", { most: this.#most, all: number(shown.length, 1) }) : "";
    void this.#put(shown.slice(0, this.#most));
  }

  /** Puts in the rows of these finds, in this order, and takes out all others. @param {Find[]} finds */
  async #put(finds) {
    const turn = (this.#turn += 1);
    const wanted = new Set(finds);
    this.#rows = new Map([...this.#rows].filter(([find]) => wanted.has(find)));
    /** @type {Set<Element>} */
    const stay = new Set(this.#rows.values());
    const root = /** @type {ShadowRoot | Document} */ (this.node.getRootNode());
    const { body } = this.#table;
    let next = body.firstElementChild;
    // Where there are rows already, the others wait for the frame after that in which the plot is drawn.
    let put = next ? AT_ONCE : 0;
    for (const find of finds) {
      const row = this.#rows.get(find) ?? this.#row(find);
      this.#rows.set(find, row);
      if (put === AT_ONCE && row !== next) {
        await painted();
        if (turn !== this.#turn) return;
        put = 0;
      }
      while (next && !stay.has(next)) next = taken(next);
      if (row === next) {
        next = row.nextElementSibling;
        continue;
      }
      put += 1;
      const focused = row.contains(root.activeElement);
      body.insertBefore(row, next);
      if (focused) row.querySelector("button")?.focus();
    }
    while (next) next = taken(next);
  }

  /** @param {Find} find */
  #row(find) {
    const sets = teethOf(this.#desk, find).map(({ label, counts }) =>
      h("span", { class: "find-set" }, h("bdi", {}, label), " ", h("span", { class: "find-counts" }, counts)),
    );
    const button = h("button", { class: "bare find-pick", type: "button", click: () => this.#choose(find) }, ...sets);
    const row = h("tr", { "data-find": keyOf(find) }, h("th", { scope: "row" }, button));
    for (const { key, value, text } of COLUMNS) {
      const cell = h("td", { class: "figure", hidden: !this.#shows(key) }, text(value(find)));
      tell(cell, value(find));
      row.append(cell);
    }
    this.#tick(row);
    return row;
  }

  /** @param {HTMLElement} row */
  #tick(row) {
    const chosen = row.dataset.find === this.#chosen;
    row.querySelector("button")?.setAttribute("aria-pressed", String(chosen));
    if (chosen) row.setAttribute("aria-current", "true");
    else row.removeAttribute("aria-current");
  }
}

/** Takes a row out. @param {Element} row @returns {Element | null} the next one */
function taken(row) {
  const next = row.nextElementSibling;
  row.remove();
  return next;
}
