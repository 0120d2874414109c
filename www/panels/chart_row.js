/** A row of the range chart: a mark for each element, ratio, step and efficiency; a click applies the range. */

import { h, keepIn, unseen, write } from "../kit/dom.js";
import { Kept } from "../kit/kept.js";
import { fraction, NONE, number, ratio } from "../kit/format.js";
import { tell } from "../kit/known.js";
import { outcomeWords } from "../state/effort_words.js";
import { say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain.js").Chart["ranges"][number]} Range */
/** @typedef {import("../kit/format.js").Exact} Exact */

/**
 * Cells stay while what they show does: there may be a thousand in a chart, and the browser lays out anew what is
 * put in anew.
 */
export class ChartRow {
  #button = h("button", { class: "bare", type: "button" });
  #head = h("th", { scope: "row" }, this.#button);
  /** @type {Kept<HTMLElement>} */
  #dots = new Kept();
  #ratio = h("td", { class: "figure" });
  #step = h("td", { class: "figure quiet" });
  #efficiency = h("td", { class: "figure quiet efficiency" });
  /** @type {Range} */
  #range;

  /** @param {Desk} desk @param {Range} range */
  constructor(desk, range) {
    this.#range = range;
    const apply = () => desk.apply(this.#range.applied);
    this.node = h("tr", { class: "pick", "data-range-id": range.id, click: apply });
  }

  /**
   * @param {Range} range
   * @param {Range} [before] the same before the last change of ratios; nothing where the range was not there
   */
  show(range, before) {
    this.#range = range;
    write(this.#button, range.label);
    const dots = range.elements.map(({ id, kind, applied, label }) => {
      const shape = applied ? [kind, label] : [];
      return this.#dots.take(id, shape, () => dot(kind, applied ? label : undefined));
    });
    this.#dots.end();
    showExact(this.#ratio, range.ratio, ratio(range.ratio), before && wasWords(before.ratio, range.ratio));
    showExact(this.#step, range.step, range.step ? number(range.step.decimal, 3) : "");
    keepIn(this.node, [this.#head, ...dots, this.#ratio, this.#step, this.#efficiency]);
  }

  /** @param {import("../engine/levertrain.js").Losses} [losses] */
  showEfficiency(losses) {
    const cell = this.#efficiency;
    tell(cell, losses?.efficiency && losses.efficiency * 100);
    write(cell, losses?.efficiency ? number(losses.efficiency * 100, 3) : NONE);
    cell.title = losses ? outcomeWords(losses) : "";
  }

  /** Tells it from the others while its range is the one on screen. @param {string} [range] */
  follow(range) {
    if (this.#range.id === range) this.node.setAttribute("aria-current", "true");
    else this.node.removeAttribute("aria-current");
  }
}

/**
 * Round for a clutch, square for a brake, a wedge for a one-way clutch.
 * @param {import("../engine/levertrain.js").ElementKind} kind
 */
export function mark(kind) {
  return h("span", { class: `mark ${kind}`, "aria-hidden": "true" });
}

/**
 * @param {import("../engine/levertrain.js").ElementKind} kind
 * @param {string} [label] of one that is applied
 */
function dot(kind, label) {
  // An open one is a point that the style sheet draws: there may be hundreds.
  return label === undefined ? h("td", { class: "dot" }) : h("td", { class: "dot" }, mark(kind), unseen(label));
}

/**
 * @param {HTMLElement} cell
 * @param {Exact | null} value
 * @param {string} words
 * @param {string} [was] what it was before
 */
function showExact(cell, value, words, was) {
  tell(cell, value?.decimal, value?.fraction);
  if (value) cell.title = fraction(value);
  else cell.removeAttribute("title");
  const small = cell.querySelector("small");
  if (!was) write(cell, words);
  else if (small?.textContent !== was || cell.firstChild?.textContent !== words) {
    cell.replaceChildren(words, h("small", { class: "was" }, was));
  }
}

/**
 * What a ratio was before the last edit, where that was another.
 * @param {Exact | null} before
 * @param {Exact | null} now
 */
function wasWords(before, now) {
  return ratio(before) === ratio(now) ? undefined : say("page-chart-was", { ratio: ratio(before) });
}
