/** A panel: a heading that folds what is under it. */

import { h } from "./dom.js";

export class Panel {
  #summary;
  #body = h("div", { class: "panel-body" });
  /** @type {HTMLElement | undefined} */
  #hint;

  /**
   * @param {string} id what the page knows it by
   * @param {string} title
   * @param {boolean} [wide] whether it takes all columns
   */
  constructor(id, title, wide = false) {
    this.#summary = h("summary", {}, h("h2", {}, title));
    const node = h("details", { class: wide ? "panel wide" : "panel", part: "panel", "data-part": id }, this.#summary, this.#body);
    this.node = /** @type {HTMLDetailsElement} */ (node);
  }

  get open() {
    return this.node.open;
  }

  /**
   * Calls back whenever it is folded or unfolded.
   * @param {() => void} callback
   */
  toggled(callback) {
    this.node.addEventListener("toggle", callback);
  }

  /** @param {...(Node | string)} content */
  fill(...content) {
    this.#body.replaceChildren(...content);
  }

  /**
   * Says beside the title what matters most in it, seen also when it is folded.
   * @param {string} words
   */
  hint(words) {
    if (!this.#hint) {
      this.#hint = h("span", { class: "hint" });
      this.#summary.append(this.#hint);
    }
    this.#hint.textContent = words;
  }
}
