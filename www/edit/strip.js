/** The strip beside a thing in the half-section, with what can be done with it. */

import { focusedIn, h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { doing } from "./fields.js";

/** Room between a thing and its strip, and between the strip and the edges. */
const APART = 8;
/** Height of what stands between the drawings. */
const BETWEEN = 24;
/** Room that what sticks to the top of a small window takes. */
const STUCK = 64;

export class Strip {
  #section;
  #close;
  node = h("div", { class: "strip", role: "group", hidden: true });

  /**
   * @param {HTMLElement} section what the half-section and its switches lie in
   * @param {() => void} close what its own button does
   */
  constructor(section, close) {
    this.#section = section;
    this.#close = close;
  }

  /** The key of what in it has the focus. */
  get focused() {
    return focusedIn(this.node)?.dataset.key;
  }

  /** Whether anything in it has the focus. */
  get hasFocus() {
    return focusedIn(this.node) !== null;
  }

  /** Whether something in it is just being drawn. */
  get isDrawn() {
    return this.node.querySelector("[data-drawn]") !== null;
  }

  /**
   * @param {string} label
   * @param {Node[]} tools
   * @param {import("./grips.js").Area} area what it stands beside
   * @param {boolean} [fresh] whether it was not there, and is to be seen
   */
  fill(label, tools, area, fresh = true) {
    const strip = this.node;
    const close = doing("×", "close", () => this.#close(), say("page-draw-close"));
    close.classList.add("strip-close");
    strip.replaceChildren(h("b"), close, h("div", { class: "strip-tools" }, ...tools));
    this.title(label);
    strip.hidden = false;
    // Never beyond what is in sight.
    const stage = /** @type {HTMLElement} */ (this.#section.closest(".stage"));
    strip.style.maxWidth = `${stage.clientWidth - 2 * APART}px`;
    strip.style.left = "0px";
    const [width, height] = [strip.offsetWidth, strip.offsetHeight];
    const middle = area.left + area.width / 2 - stage.scrollLeft;
    strip.style.left = `${Math.max(APART, Math.min(middle - width / 2, stage.clientWidth - APART - width))}px`;
    // Under the whole half-section, so that it hides nothing of what it is for, where both fit into the window.
    const { offsetHeight: tall } = this.#section;
    const beside = area.top + area.height + APART - stage.scrollTop;
    strip.style.top = `${tall + height + STUCK > innerHeight ? beside : tall + BETWEEN - stage.scrollTop}px`;
    // What somebody presses again and again stays where it is.
    if (fresh) strip.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** @param {string} label what it is for */
  title(label) {
    this.node.setAttribute("aria-label", label);
    const title = this.node.querySelector("b");
    if (title) title.textContent = label;
  }

  empty() {
    this.node.hidden = true;
    this.node.replaceChildren();
  }

  /** Goes to what comes first in it. */
  focusFirst() {
    focus(this.node.querySelector("button:not(.strip-close):not(:disabled), input"));
  }

  /** Goes to what has a key, if that is there. @param {string} key */
  focus(key) {
    focus(this.node.querySelector(`[data-key="${key}"]`));
  }
}

/** @param {Element | null} found */
function focus(found) {
  /** @type {HTMLElement | null} */ (found)?.focus({ preventScroll: true });
}
