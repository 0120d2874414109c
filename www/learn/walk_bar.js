/** The current step of a walkthrough at the lower edge of a narrow page, where the drawings are out of sight of the list. */

import { focusedIn, h } from "../kit/dom.js";
import { scroller } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {{ go(by: number): void, end(): void }} Ways */

export class WalkBar {
  #section;
  #text = h("p");
  #room;
  #previous;
  #next;
  /** Goes on from the last step to what follows the walk. */
  #on = h("button", { class: "plain", type: "button", "data-part": "walk-bar-on", click: () => this.#goOn?.(), hidden: true });
  /** @type {(() => void) | undefined} */
  #goOn;

  /**
   * @param {HTMLElement} section the half-section, which comes into sight with it
   * @param {Ways} ways
   * @param {AbortSignal} signal
   */
  constructor(section, ways, signal) {
    this.#section = section;
    this.#room = scroller(this.#text, say("page-walk-steps"), signal);
    const button = (/** @type {string} */ words, /** @type {string} */ part, /** @type {() => void} */ click) =>
      h("button", { class: "plain", type: "button", "data-part": part, click }, words);
    this.#previous = button(say("page-walk-previous"), "walk-bar-previous", () => ways.go(-1));
    this.#next = button(say("page-walk-next"), "walk-bar-next", () => ways.go(1));
    const end = button(say("page-walk-close"), "walk-bar-close", () => ways.end());
    this.node = h(
      "div",
      { class: "walk-bar", role: "group", "aria-label": say("page-walk-flow"), "data-part": "walk-bar", hidden: true },
      this.#room,
      h("p", { class: "row" }, this.#previous, this.#next, this.#on, end),
    );
  }

  /**
   * Says what follows the walk, to be gone on to from its last step.
   * @param {string} words
   * @param {() => void} goOn
   */
  leads(words, goOn) {
    this.#on.textContent = words;
    this.#goOn = goOn;
  }

  /**
   * Shows a step, or goes where there is none.
   * @param {string | undefined} text
   * @param {boolean} first
   * @param {boolean} last
   */
  show(text, first, last) {
    const begins = this.node.hidden && text !== undefined;
    this.node.hidden = text === undefined;
    this.#text.textContent = text ?? "";
    this.#room.scrollTop = 0;
    // They keep the focus of whoever has just pressed them.
    this.#previous.setAttribute("aria-disabled", String(first));
    this.#next.setAttribute("aria-disabled", String(last));
    const leaves = focusedIn(this.#on) !== null && !last;
    this.#on.hidden = !last || !this.#goOn;
    // Gone on from there, a range begins anew.
    if (leaves) this.#next.focus({ preventScroll: true });
    if (!begins || !this.node.checkVisibility()) return;
    this.#section.scrollIntoView({ block: "start", behavior: "instant" });
    this.#next.focus({ preventScroll: true });
  }
}
