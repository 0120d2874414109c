/**
 * Rows of a long table: the page holds those in sight and some on either side of them. All are of one
 * height. One of them is the stop of the tab key; arrows, Home, End and the Page keys lead to others.
 */

import { h } from "./dom.js";

/** Rows made ready above and below those in sight. */
const MARGIN = 24;
/** How high a row is until one has been measured, in CSS pixels. */
const USUAL = 28;

export class RowsInSight {
  #box;
  #body;
  #columns;
  #make;
  #count = 0;
  #height = USUAL;
  /** The row with the tab stop. */
  #at = 0;
  /** @type {Map<number, HTMLElement>} */
  #rows = new Map();

  /**
   * @param {HTMLElement} box scrolls the table
   * @param {HTMLElement} body holds the rows
   * @param {number} columns
   * @param {(index: number) => HTMLElement} make
   * @param {AbortSignal} signal
   */
  constructor(box, body, columns, make, signal) {
    this.#box = box;
    this.#body = body;
    this.#columns = columns;
    this.#make = make;
    box.addEventListener("scroll", () => this.#show());
    body.addEventListener("focusin", (event) => this.#stopAt(indexOf(event)));
    body.addEventListener("keydown", (event) => this.#key(event));
    const observer = new ResizeObserver(() => this.#show());
    observer.observe(box);
    signal.addEventListener("abort", () => observer.disconnect());
  }

  /** The rows on the page. */
  get shown() {
    return this.#rows.values();
  }

  /**
   * Makes the rows anew.
   * @param {number} count how many there are
   * @param {boolean} [stays] whether the same places stay in sight
   */
  reset(count, stays = false) {
    this.#count = count;
    this.#rows.clear();
    this.#body.replaceChildren();
    if (!stays) {
      this.#at = 0;
      this.#box.scrollTop = 0;
    }
    this.#show();
  }

  /**
   * Has more rows at the end.
   * @param {number} count how many there are then
   */
  extend(count) {
    this.#count = count;
    this.#show();
  }

  /**
   * Brings a row into sight and gives it the focus.
   * @param {number} index
   */
  focus(index) {
    if (this.#count === 0) return;
    const at = Math.min(Math.max(index, 0), this.#count - 1);
    const top = at * this.#height;
    const room = this.#room();
    if (top < this.#box.scrollTop) this.#box.scrollTop = top;
    else if (top + this.#height > this.#box.scrollTop + room) this.#box.scrollTop = top + this.#height - room;
    this.#show(at);
    this.#rows.get(at)?.querySelector("button")?.focus({ preventScroll: true });
  }

  /** What is left under the heading, which stays in sight. */
  #room() {
    return Math.max(this.#box.clientHeight - this.#body.offsetTop, this.#height);
  }

  /** @param {number} [wanted] a row that is needed in any case */
  #show(wanted) {
    const room = this.#room();
    const first = Math.floor(this.#box.scrollTop / this.#height);
    const last = Math.ceil((this.#box.scrollTop + room) / this.#height);
    const focused = this.#rows.get(this.#at)?.matches(":focus-within");
    if (wanted !== undefined) this.#at = wanted;
    else if (!focused && (this.#at < first || this.#at >= last)) this.#at = first;
    this.#at = Math.max(0, Math.min(this.#at, this.#count - 1));
    const [from, to] = [Math.max(0, first - MARGIN), Math.min(this.#count, last + MARGIN)];
    const places = new Set(Array.from({ length: Math.max(0, to - from) }, (_, at) => from + at));
    // The focus stays in its row, however far that is scrolled away.
    if (this.#count > 0) places.add(this.#at);
    this.#lay([...places].sort((a, b) => a - b));
    const [row] = this.#rows.values();
    const height = row?.getBoundingClientRect().height ?? 0;
    const other = height > 0 && Math.abs(height - this.#height) > 0.5;
    if (other) this.#height = height;
    // The box grows with what is in it.
    if (other || this.#room() > room) this.#show(wanted);
  }

  /**
   * Has these rows in the table. Those that are there already are not moved, which would take their focus.
   * @param {number[]} places in ascending order
   */
  #lay(places) {
    const wanted = new Set(places);
    for (const node of [...this.#body.children]) {
      const index = Number(/** @type {HTMLElement} */ (node).dataset.index ?? -1);
      if (!wanted.has(index)) node.remove();
    }
    for (const index of [...this.#rows.keys()]) if (!wanted.has(index)) this.#rows.delete(index);
    let cursor = this.#body.firstElementChild;
    let next = 0;
    for (const index of places) {
      if (index > next) this.#body.insertBefore(this.#gap(index - next), cursor);
      const known = this.#rows.get(index);
      if (known) cursor = known.nextElementSibling;
      else this.#body.insertBefore(this.#row(index), cursor);
      next = index + 1;
    }
    if (next < this.#count) this.#body.append(this.#gap(this.#count - next));
    this.#stopAt(this.#at);
  }

  /** @param {number} index */
  #row(index) {
    const row = this.#make(index);
    row.dataset.index = `${index}`;
    // The heading is the first.
    row.setAttribute("aria-rowindex", `${index + 2}`);
    this.#rows.set(index, row);
    return row;
  }

  /** @param {number} rows */
  #gap(rows) {
    const cell = h("td", { class: "gap", colspan: this.#columns });
    cell.style.height = `${rows * this.#height}px`;
    return h("tr", { "aria-hidden": "true" }, cell);
  }

  /** @param {number} at */
  #stopAt(at) {
    this.#at = at;
    for (const [index, row] of this.#rows) {
      for (const button of row.querySelectorAll("button")) button.tabIndex = index === at ? 0 : -1;
    }
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const page = Math.max(1, Math.floor(this.#room() / this.#height) - 1);
    const at = indexOf(event);
    /** @type {Record<string, number>} */
    const targets = {
      ArrowDown: at + 1, ArrowUp: at - 1, PageDown: at + page, PageUp: at - page, Home: 0, End: this.#count - 1,
    };
    const target = targets[event.key];
    if (target === undefined) return;
    event.preventDefault();
    this.focus(target);
  }
}

/** @param {Event} event */
function indexOf(event) {
  const row = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-index]"));
  return Number(row?.dataset.index);
}
