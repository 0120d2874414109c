/**
 * A field of many lines, their numbers beside it, and marks at some of them: what the browser itself has to
 * offer. It is there at once, and stays where the editor does not come.
 */

import { h } from "../kit/dom.js";

/** @typedef {import("./lined_field.js").Form} Form */

/** Lines that stay in sight over one that is gone to. */
const LINES_OVER = 4;
/** Width of a letter of such faces, as a share of their size. */
const LETTER = 0.6;

/** @implements {Form} */
export class PlainField {
  #frame;
  #numbers = h("div", { class: "file-numbers" });
  #marks = h("div", { class: "file-marks", "aria-hidden": "true" });
  #field;
  #count = 0;
  /** What is in it that is none of its own steps: from here on, the way back is the train's. */
  #settled = "";

  /**
   * @param {HTMLElement} frame what it stands in
   * @param {import("./lined_field.js").Named} named
   * @param {import("./lined_field.js").Heard} heard
   */
  constructor(frame, { name, described }, heard) {
    this.#frame = frame;
    const field = h("textarea", {
      class: "file-field",
      wrap: "off",
      spellcheck: "false",
      autocapitalize: "off",
      autocomplete: "off",
      "aria-label": name,
      "aria-describedby": described,
      scroll: () => this.#follow(),
      input: () => {
        this.#number();
        heard.typed();
      },
      paste: () => heard.parts(),
      blur: () => heard.left(),
      keydown: (/** @type {KeyboardEvent} */ event) => {
        if (this.#answer(event, heard)) event.preventDefault();
      },
    });
    this.#field = /** @type {HTMLTextAreaElement} */ (field);
    const gutter = h("div", { class: "file-gutter", "aria-hidden": "true" }, this.#numbers);
    this.nodes = [this.#marks, gutter, field];
    this.scroller = field;
  }

  get text() {
    return this.#field.value;
  }

  /** @param {boolean} only */
  set readOnly(only) {
    this.#field.readOnly = only;
  }

  focus() {
    this.#field.focus();
  }

  /**
   * @param {number} from
   * @param {number} to
   * @param {string} text
   */
  replace(from, to, text) {
    const { scrollTop, scrollLeft } = this.#field;
    this.#field.setRangeText(text, from, to, "preserve");
    this.#number();
    this.#field.scrollTop = scrollTop;
    this.#field.scrollLeft = scrollLeft;
    this.#follow();
  }

  settle() {
    this.#settled = this.text;
  }

  /** @param {import("./lined_field.js").Mark[]} marks */
  mark(marks) {
    const lines = [...new Set(marks.map(({ line }) => line))];
    const nodes = lines.map((line) => {
      const node = h("div", { class: "file-mark" });
      node.style.setProperty("--before", String(line - 1));
      return node;
    });
    this.#marks.replaceChildren(...nodes);
    this.#field.setAttribute("aria-invalid", String(marks.length > 0));
  }

  /** @param {number} at */
  select(at) {
    const field = this.#field;
    const before = field.value.slice(0, at).split("\n");
    const column = before.at(-1)?.length ?? 0;
    field.focus();
    field.setSelectionRange(at, at);
    // Browsers leave it out of sight where it is put by a script.
    const { lineHeight, fontSize } = getComputedStyle(field);
    field.scrollTop = (before.length - 1 - LINES_OVER) * parseFloat(lineHeight);
    field.scrollLeft = column * LETTER * parseFloat(fontSize) - field.clientWidth / 3;
  }

  /**
   * @param {KeyboardEvent} event
   * @param {import("./lined_field.js").Heard} heard
   */
  #answer({ key, ctrlKey, metaKey, shiftKey, altKey }, heard) {
    if (!(ctrlKey || metaKey) || altKey) return false;
    if (key === "Enter") {
      heard.entered();
      return true;
    }
    // Its own steps the browser takes back.
    if (this.text !== this.#settled) return false;
    if (key === "z" && !shiftKey) return heard.back();
    return (key === "y" || (key.toLowerCase() === "z" && shiftKey)) && heard.again();
  }

  #number() {
    const count = this.text.split("\n").length;
    if (count === this.#count) return;
    this.#count = count;
    this.#numbers.textContent = Array.from({ length: count }, (_, index) => index + 1).join("\n");
  }

  #follow() {
    this.#frame.style.setProperty("--scrolled", `${this.#field.scrollTop}px`);
  }
}
