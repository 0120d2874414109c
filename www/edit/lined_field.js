/**
 * A field of many lines, their numbers beside it, and marks at some of them.
 *
 * A plain one: an editor made for code would be a module from elsewhere, and the page is served as it is
 * written, without a bundler to bring one in. So it has no colours within the text.
 */

import { h } from "../kit/dom.js";

/** Lines that stay in sight over one that is gone to. */
const LINES_OVER = 4;
/** Width of a letter of such faces, as a share of their size. */
const LETTER = 0.6;

export class LinedField {
  #numbers = h("div", { class: "file-numbers" });
  #marks = h("div", { class: "file-marks", "aria-hidden": "true" });
  #count = 0;

  /** @param {string} name what those hear who do not see it */
  constructor(name) {
    const field = h("textarea", {
      class: "file-field",
      wrap: "off",
      spellcheck: "false",
      autocapitalize: "off",
      autocomplete: "off",
      "aria-label": name,
      scroll: () => this.#follow(),
      input: () => this.#number(),
    });
    this.field = /** @type {HTMLTextAreaElement} */ (field);
    const gutter = h("div", { class: "file-gutter", "aria-hidden": "true" }, this.#numbers);
    this.node = h("div", { class: "file-frame" }, this.#marks, gutter, field);
  }

  get text() {
    return this.field.value;
  }

  /** Shows another text; what was in sight stays in sight. */
  set text(text) {
    const { scrollTop, scrollLeft } = this.field;
    this.field.value = text;
    this.#number();
    this.field.scrollTop = scrollTop;
    this.field.scrollLeft = scrollLeft;
    this.#follow();
  }

  /** Marks lines. @param {number[]} lines from 1 */
  mark(lines) {
    const marks = [...new Set(lines)].map((line) => {
      const mark = h("div", { class: "file-mark" });
      mark.style.setProperty("--before", String(line - 1));
      return mark;
    });
    this.#marks.replaceChildren(...marks);
  }

  /** Puts the cursor there. @param {{ line: number, column: number }} place both from 1 */
  goTo({ line, column }) {
    const { field } = this;
    const before = field.value.split("\n").slice(0, line - 1);
    const at = before.reduce((sum, { length }) => sum + length + 1, column - 1);
    field.focus();
    field.setSelectionRange(at, at);
    // Browsers leave it out of sight where it is put by a script.
    const { lineHeight, fontSize } = getComputedStyle(field);
    field.scrollTop = (line - 1 - LINES_OVER) * parseFloat(lineHeight);
    field.scrollLeft = (column - 1) * LETTER * parseFloat(fontSize) - field.clientWidth / 3;
  }

  #number() {
    const count = this.field.value.split("\n").length;
    if (count === this.#count) return;
    this.#count = count;
    this.#numbers.textContent = Array.from({ length: count }, (_, index) => index + 1).join("\n");
    this.node.style.setProperty("--lines", String(count));
  }

  #follow() {
    this.node.style.setProperty("--scrolled", `${this.field.scrollTop}px`);
  }
}
