/** The ranges of a sheet that are walked through before it asks, one after the other: nothing is asked meanwhile. */

import { h } from "../kit/dom.js";
import { addStyles } from "../kit/sheets.js";
import { say } from "../kit/words.js";
import { Steps } from "./walk_steps.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").TrainInfo["ranges"][number]} Range */

const STYLES = "css/panels.css";

export class WalkFirst {
  #desk;
  #section;
  #signal;
  #act;
  #passed;
  /** @type {Steps | undefined} */
  #steps;
  /** @type {Range[]} */
  #ranges = [];
  #at = 0;
  #asks = false;
  #place = h("p", { class: "quiet", "data-part": "walk-first-place" });
  #holder = h("div", { class: "walk" });
  #next = h("button", { class: "plain", type: "button", "data-part": "walk-first-next", click: () => this.#goOn() });
  #again = h("button", { class: "plain", type: "button", "data-part": "walk-first-again", click: () => this.#show() });
  node = h("div", { class: "walk-first", "data-part": "walk-first", hidden: true }, this.#place, this.#holder, h("p", { class: "row" }, this.#again, this.#next));

  /**
   * @param {Desk} desk
   * @param {{ section: HTMLElement, signal: AbortSignal }} page
   * @param {(action: () => void) => void} act does what the page wishes
   * @param {(passed: { at: number, of: number, range: string }) => void} passed told as somebody goes on from a range
   */
  constructor(desk, { section, signal }, act, passed) {
    this.#desk = desk;
    this.#section = section;
    this.#signal = signal;
    this.#act = act;
    this.#passed = passed;
  }

  /** Whether a range is being walked through. */
  get isOpen() {
    return !this.node.hidden;
  }

  /**
   * @param {string[]} ids of ranges
   * @param {boolean} asks whether questions follow
   */
  begin(ids, asks) {
    const known = this.#desk.info?.ranges ?? [];
    this.#ranges = ids.flatMap((id) => known.find((range) => range.id === id) ?? []);
    this.#at = 0;
    this.#asks = asks;
    if (!this.#steps) {
      addStyles(/** @type {ShadowRoot} */ (this.#section.getRootNode()), STYLES);
      const steps = new Steps((step) => this.#desk.tell(step), this.#section, this.#signal, "walk-first");
      this.#steps = steps;
      this.#holder.append(steps.node);
      this.#section.closest(".body")?.append(steps.bar);
      this.#signal.addEventListener("abort", () => steps.stop());
    }
    this.node.hidden = false;
    this.#show();
  }

  /** Has the focus, without the page being scrolled. */
  focus() {
    const first = /** @type {HTMLElement | null} */ (this.#holder.querySelector("[data-part=walk-next]"));
    first?.focus({ preventScroll: true });
  }

  end() {
    if (!this.isOpen) return;
    this.node.hidden = true;
    this.#steps?.show([], undefined);
    this.#desk.tell();
  }

  /** Something else is applied, or the same again. */
  follow() {
    if (!this.isOpen) return;
    const { answer, info } = this.#desk;
    const range = this.#ranges[this.#at];
    const isThere = [...range.applied].sort().join() === [...(answer?.applied ?? [])].sort().join();
    // Somebody tries something out: its steps are none of this range.
    this.#again.hidden = isThere;
    this.#holder.hidden = !isThere;
    const walk = isThere ? this.#desk.askWhole((engine, sandbox) => engine.walk(sandbox)) : undefined;
    this.#steps?.show(walk?.steps ?? [], info);
  }

  #show() {
    const [range, last] = [this.#ranges[this.#at], this.#at + 1 === this.#ranges.length];
    this.#place.textContent = say("page-walk-first", { range: range.label, at: this.#at + 1, of: this.#ranges.length });
    const on = say("page-walk-on", { to: last ? (this.#asks ? "questions" : "end") : "range" });
    this.#next.textContent = on;
    this.#steps?.leads(on, () => {
      this.#goOn();
      return this.isOpen;
    });
    this.#again.textContent = say("page-walk-again", { range: range.label });
    this.#act(() => this.#desk.apply(range.applied));
    this.follow();
  }

  #goOn() {
    const [at, of] = [this.#at + 1, this.#ranges.length];
    const { id } = this.#ranges[this.#at];
    if (at < of) {
      this.#at = at;
      this.#show();
    }
    this.#passed({ at, of, range: id });
  }
}
