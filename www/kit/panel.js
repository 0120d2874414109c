/** A panel: a heading that folds what is under it. */

import { h } from "./dom.js";
import { breath, painted } from "./pieces.js";

/** What was put off last: each has a frame of its own. @type {Promise<void>} */
let last = Promise.resolve();

export class Panel {
  #summary;
  #body = h("div", { class: "panel-body" });
  /** @type {HTMLElement | undefined} */
  #hint;
  /** Counts what was put off, so that the last of it is done. */
  #late = 0;
  /** Whether what it shows has been put off. */
  waits = false;

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

  /**
   * Fills it once all else is painted; until then nobody sees or uses what is out of date.
   * @param {() => void} fill
   * @param {boolean} [shown] whether it stays in sight meanwhile, for a frame or two: to lay out a large panel out of
   *   use and in use again takes as long; who fills it then sees to it that nothing is done with what is out of date
   */
  async later(fill, shown = false) {
    const turn = (this.#late += 1);
    this.#wait(true, shown);
    // Not in the frame itself: what is drawn in it takes its time, too.
    last = last.then(painted).then(breath);
    await last;
    if (turn !== this.#late) return;
    this.#wait(false);
    fill();
  }

  /** @param {boolean} waits @param {boolean} [shown] */
  #wait(waits, shown = false) {
    this.waits = waits;
    this.#body.toggleAttribute("inert", waits && !shown);
    if (waits) this.node.setAttribute("aria-busy", "true");
    else this.node.removeAttribute("aria-busy");
  }

  /**
   * Takes it out of sight with all that is in it, or brings it back.
   * @param {boolean} veiled
   */
  veil(veiled) {
    this.node.toggleAttribute("data-veiled", veiled);
    if (veiled) this.#body.remove();
    else if (!this.#body.isConnected) this.#summary.after(this.#body);
  }

  /** @param {...(Node | string)} content */
  fill(...content) {
    this.#body.replaceChildren(...content);
  }

  /**
   * Stands at the end of the heading while it is unfolded.
   * @param {HTMLElement} node
   */
  beside(node) {
    this.node.classList.add("taken");
    this.node.append(node);
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
