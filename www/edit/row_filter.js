/** Finding rows of a long list of the form by what is in them. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** Rows that are found at a glance. */
const FEW = 10;

export class RowFilter {
  #rows = /** @type {[string, HTMLElement][]} */ ([]);
  /** Rows by their ids that what is typed is not in. What is edited meanwhile stays in sight, and what is added. */
  #out = new Set();
  #input;
  #found = h("span", { class: "note", role: "status" });
  #node;

  /**
   * @param {string} key what the field is known by
   * @param {string} list what the rows are
   */
  constructor(key, list) {
    const input = h("input", { type: "search", "data-key": `find ${key}`, "aria-label": say("page-edit-find-in", { list }), input: () => this.#find() });
    this.#input = /** @type {HTMLInputElement} */ (input);
    input.addEventListener("keydown", (event) => this.#key(event));
    this.#node = h("div", { class: "edit-row edit-find" }, h("label", { class: "edit-row" }, h("span", {}, say("page-edit-find")), input), this.#found);
  }

  /**
   * The rows with the field over them, where there are so many that somebody might look for one.
   * @param {[string, HTMLElement][]} rows by what tells them apart
   */
  over(rows) {
    this.#rows = rows;
    const long = rows.length > FEW;
    if (!long) {
      this.#input.value = "";
      this.#out.clear();
    }
    this.#show();
    const nodes = rows.map(([, node]) => node);
    return long ? [this.#node, ...nodes] : nodes;
  }

  /** Finds the rows in which every word typed begins one. */
  #find() {
    const typed = wordsOf(this.#input.value);
    const has = (/** @type {string[]} */ words) => typed.every((word) => words.some((other) => other.startsWith(word)));
    this.#out = new Set(this.#rows.filter(([, node]) => !has(wordsOf(textOf(node)))).map(([id]) => id));
    this.#show();
  }

  #show() {
    let shown = 0;
    for (const [id, node] of this.#rows) {
      node.hidden = this.#out.has(id);
      shown += node.hidden ? 0 : 1;
    }
    const asked = wordsOf(this.#input.value).length > 0;
    this.#found.textContent = asked ? say("page-edit-found", { count: shown, all: this.#rows.length }) : "";
  }

  /** Escape shows all again, and is nobody else's then. @param {KeyboardEvent} event */
  #key(event) {
    if (event.key !== "Escape" || this.#input.value === "") return;
    event.preventDefault();
    event.stopPropagation();
    this.#input.value = "";
    this.#find();
  }
}

/** What is in a row as it is read: names, what is chosen, and words; not what else could be chosen. @param {HTMLElement} row */
function textOf(row) {
  const fields = /** @type {(HTMLInputElement | HTMLSelectElement)[]} */ ([...row.querySelectorAll("input, select")]);
  const said = fields.map((field) => (field instanceof HTMLSelectElement ? (field.selectedOptions[0]?.text ?? "") : field.value));
  const words = [...row.querySelectorAll("legend, th, .edit-applied")].map(({ textContent }) => textContent ?? "");
  return [...said, ...words].join(" ");
}

/** Its words and numbers, small or large letters being the same. @param {string} text */
function wordsOf(text) {
  return text.toLocaleLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
}
