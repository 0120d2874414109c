/** The list of what a sheet holds, whose lines are moved and removed by buttons and keys. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/**
 * A line of it.
 * @typedef {object} Line
 * @property {string} words
 * @property {boolean} asked whether the train has what it is about
 * @property {number} least where it can be moved to at the most, from the first line on
 * @property {number} most
 */

/** Keys that move a line, with Alt. @type {Record<string, number>} */
const WAYS = { ArrowUp: -1, ArrowDown: 1 };

export class SheetList {
  node = h("ol", { class: "exercise-set", "data-part": "exercise-set" });
  #move;
  #remove;
  /** @type {Line[]} */
  #lines = [];

  /**
   * @param {(at: number, to: number) => void} move
   * @param {(at: number) => void} remove
   */
  constructor(move, remove) {
    this.#move = move;
    this.#remove = remove;
    this.node.addEventListener("keydown", (event) => this.#key(event));
  }

  /** @param {Line[]} lines */
  show(lines) {
    this.#lines = lines;
    this.node.replaceChildren(...lines.map((line, at) => this.#row(line, at)));
  }

  /** @param {Line} line @param {number} at */
  #row({ words, asked, least, most }, at) {
    const mover = (/** @type {number} */ by, /** @type {string} */ sign, /** @type {string} */ message, /** @type {string} */ keys) => {
      const named = say(message, { what: words });
      const click = () => this.#shift(at, by);
      const button = /** @type {HTMLButtonElement} */ (
        h("button", { class: "plain", type: "button", "aria-label": named, title: named, "aria-keyshortcuts": keys, "data-move": `${at} ${by}`, click }, sign)
      );
      button.disabled = at + by < least || at + by > most;
      return button;
    };
    const remove = say("page-exercise-remove", { what: words });
    const gone = () => {
      this.#remove(at);
      this.#focus(`[data-remove="${Math.min(at, this.#lines.length - 1)}"]`);
    };
    return h(
      "li",
      { "data-unasked": !asked },
      h("span", {}, asked ? words : say("page-exercise-unasked", { what: words })),
      mover(-1, "↑", "page-exercise-up", "Alt+ArrowUp"),
      mover(1, "↓", "page-exercise-down", "Alt+ArrowDown"),
      h("button", { class: "plain", type: "button", "aria-label": remove, title: remove, "data-remove": at, click: gone }, "×"),
    );
  }

  /** @param {number} at @param {number} by */
  #shift(at, by) {
    const { least, most } = this.#lines[at];
    const to = at + by;
    if (to < least || to > most) return;
    this.#move(at, to);
    this.#focus(`[data-move="${to} ${by}"]:enabled`, `[data-move="${to} ${-by}"]:enabled`);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const row = /** @type {HTMLElement} */ (event.target).closest("li");
    const by = WAYS[event.key];
    if (!row || !by || !event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    this.#shift([...this.node.children].indexOf(row), by);
  }

  /** Lines are new ones after a change: the focus stays with the line that was changed. @param {string[]} wanted */
  #focus(...wanted) {
    const found = wanted.map((selector) => /** @type {HTMLElement | null} */ (this.node.querySelector(selector)));
    found.find((node) => node)?.focus();
  }
}
