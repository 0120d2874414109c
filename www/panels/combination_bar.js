/** How far the walk over all combinations has come, with a button that ends it or goes on. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { say } from "../kit/words.js";

/** @typedef {import("../work/outcomes.js").Outcomes} Outcomes */

/** Nothing that takes less time than this is told, in milliseconds. */
const PATIENCE = 100;

export class CombinationBar {
  #progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-combinations-progress") }));
  #words = h("span");
  #button;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #waiting;
  #walks = false;

  /** @param {{ stop: () => void, goOn: () => void }} wishes */
  constructor({ stop, goOn }) {
    const press = () => (this.#walks ? stop() : goOn());
    this.#button = h("button", { class: "plain", type: "button", click: press });
    this.node = h("div", { class: "walk note", hidden: true }, this.#progress, this.#words, this.#button);
  }

  /** A walk begins, or goes on. */
  begin() {
    this.#walks = true;
    this.#button.textContent = say("page-combinations-stop");
    clearTimeout(this.#waiting);
    this.#waiting = setTimeout(() => (this.node.hidden = false), PATIENCE);
  }

  /**
   * @param {Outcomes} outcomes
   * @param {number} listed
   */
  tell(outcomes, listed) {
    const { known, count } = outcomes;
    this.#progress.max = count;
    this.#progress.value = known;
    const walking = () => say("page-combinations-walking", { ...numbers(outcomes), listed: number(listed) });
    this.#words.textContent = this.#walks ? walking() : stoppedWords(outcomes);
  }

  /** The walk has ended before its end. */
  stop() {
    this.#walks = false;
    clearTimeout(this.#waiting);
    this.node.hidden = false;
    this.#button.textContent = say("page-combinations-go-on");
  }

  /** All combinations are known. @returns {boolean} whether the button had the focus, which is lost */
  end() {
    clearTimeout(this.#waiting);
    const focused = this.#button.matches(":focus");
    this.node.hidden = true;
    return focused;
  }
}

/** @param {Outcomes} outcomes */
function numbers({ known, count }) {
  return { known: number(known), all: number(count) };
}

/** That not all combinations are known yet. @param {Outcomes} outcomes */
export function stoppedWords(outcomes) {
  return say("page-combinations-stopped", numbers(outcomes));
}
