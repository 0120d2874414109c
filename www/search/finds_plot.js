/**
 * What a search has found as a picture: each find is a point over two measures. A point shows its train on the stage, as its
 * row does: by a click or a tap near it, or by keys, which go from point to point.
 */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { markLocked } from "../state/lockable.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { COLUMNS, keyOf, teethWords } from "./finds_columns.js";

/** @typedef {import("../engine/levertrain.js").Find} Find */
/** @typedef {import("../engine/levertrain_whole.js").FindsPlot} Plot */

const DRAWING = "finds";
/** How far from a point it is still meant, in CSS pixels: a finger covers twice that. */
const REACH = 22;
/** Size of the frame round the point that keys are at. */
const FRAME = 24;
const BIG_STEP = 10;

export class FindsPlot {
  #desk;
  #choose;
  #drawn;
  #axes;
  /** @type {Find[]} */
  #finds = [];
  /** @type {Find | undefined} */
  #present;
  /** @type {string | undefined} */
  #chosen;
  /** Where each find stands, in CSS pixels of the page. @type {[number, number][]} */
  #points = [];
  /** The finds from left to right, by their places among all. @type {number[]} */
  #order = [];
  /** Which of that order keys are at. */
  #at = 0;
  /** What keys go by: it stands over one of the points, and says which. */
  #cursor = h("div", { class: "find-point", role: "slider", tabindex: "0", "aria-label": say("page-find-points"), "aria-valuemin": "1" });

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {(find: Find) => void} choose
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, choose, redraw, signal) {
    this.#desk = desk;
    this.#choose = choose;
    this.#axes = ["across", "up"].map((way) => {
      const options = COLUMNS.map(({ key }) => h("option", { value: key }, say("page-find-column", { criterion: key })));
      return /** @type {HTMLSelectElement} */ (h("select", { id: `find-${way}`, change: () => this.#changed() }, ...options));
    });
    const [across, up] = this.#axes;
    this.#drawn = drawing(desk, DRAWING, ["train"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.classList.add("find-plot");
    holder.append(this.#cursor);
    holder.addEventListener("click", (event) => this.#pick(event));
    this.#cursor.addEventListener("keydown", (event) => this.#go(event));
    canvas.setAttribute("aria-label", say("page-find-plot"));
    follow(desk, ["lock", "veil"], () => markLocked(desk, "train", this.#cursor));
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => this.#ask((plot, sandbox) => plot.svg(sandbox, width(), light)),
      paint: (picture, scale, light) => this.#ask((plot, sandbox) => plot.drawPicture(sandbox, picture, scale, light)),
    });
    this.node = h(
      "div",
      { class: "find-picture" },
      h(
        "p",
        { class: "row" },
        h("label", { class: "control" }, h("span", {}, say("page-find-across")), h("span", { class: "select" }, across)),
        h("label", { class: "control" }, h("span", {}, say("page-find-up")), h("span", { class: "select" }, up)),
      ),
      holder,
      h("p", { class: "note" }, say("page-find-plot-note")),
    );
  }

  /** Chooses the axes by what counts. @param {string[]} best */
  begin(best) {
    const keys = [...new Set([...best, ...COLUMNS.map(({ key }) => key)])];
    this.#axes.forEach((axis, at) => (axis.value = keys[at]));
    this.#at = 0;
  }

  /**
   * @param {Find[]} finds
   * @param {Find | undefined} present the train that was asked about
   */
  show(finds, present) {
    if (finds === this.#finds) return;
    const held = this.#finds[this.#order[this.#at]];
    this.#finds = finds;
    this.#present = present;
    this.#changed(held);
  }

  /** Marks the find that is on the stage. @param {Find | undefined} find */
  mark(find) {
    this.#chosen = find && keyOf(find);
    this.#drawn.changed();
    this.#tell();
  }

  /** Paints it, where it is not up to date. */
  draw() {
    if (this.#finds.length === 0) return;
    this.#drawn.paint(
      DRAWING,
      (width) => this.#ask((plot) => this.#place(plot, width)),
      (canvas) => this.#ask((plot, sandbox) => plot.draw(sandbox, canvas)),
    );
  }

  /** The two measures. */
  #measures() {
    return this.#axes.map(({ value }) => COLUMNS.find(({ key }) => key === value) ?? COLUMNS[0]);
  }

  /**
   * Asks a plot of what was found.
   * @template T
   * @param {(plot: Plot, sandbox: import("../engine/levertrain_whole.js").Sandbox) => T} question
   * @returns {T | undefined}
   */
  #ask(question) {
    return this.#desk.askWhole((engine, sandbox) => {
      const [across, up] = this.#measures();
      const values = (/** @type {typeof across} */ { value }) => Float64Array.from(this.#finds, value);
      const name = (/** @type {typeof across} */ { key }) => say("page-find-column", { criterion: key });
      const plot = new engine.FindsPlot(values(across), name(across), Boolean(across.falls), values(up), name(up), Boolean(up.falls));
      try {
        const chosen = this.#chosen ? this.#finds.findIndex((find) => keyOf(find) === this.#chosen) : -1;
        if (chosen >= 0) plot.choose(chosen);
        if (this.#present) plot.present(across.value(this.#present), up.value(this.#present));
        return question(plot, sandbox);
      } finally {
        plot.free();
      }
    });
  }

  /** @param {Find} [held] the find that keys were at */
  #changed(held = this.#finds[this.#order[this.#at]]) {
    const [across, up] = this.#measures();
    const by = (/** @type {number} */ at) => across.value(this.#finds[at]);
    const then = (/** @type {number} */ at) => up.value(this.#finds[at]);
    this.#order = [...this.#finds.keys()].sort((a, b) => by(a) - by(b) || then(a) - then(b));
    this.#at = Math.max(this.#order.findIndex((at) => this.#finds[at] === held), 0);
    this.#drawn.changed();
    this.#tell();
  }

  /**
   * @param {Plot} plot
   * @param {number} width
   * @returns {number} the height that the drawing takes
   */
  #place(plot, width) {
    const [height, ...numbers] = plot.places(width);
    const growth = growthIn(this.#drawn.holder);
    this.#points = this.#finds.map((_, at) => [numbers[2 * at] * growth, numbers[2 * at + 1] * growth]);
    this.#tell();
    return height;
  }

  /** Puts the cursor over its point, and says which that is. */
  #tell() {
    const find = this.#finds[this.#order[this.#at]];
    if (!find) return;
    const [x, y] = this.#points[this.#order[this.#at]] ?? [0, 0];
    this.#cursor.style.left = `${x - FRAME / 2}px`;
    this.#cursor.style.top = `${y - FRAME / 2}px`;
    this.#cursor.setAttribute("aria-valuemax", String(this.#order.length));
    this.#cursor.setAttribute("aria-valuenow", String(this.#at + 1));
    const measures = this.#measures().map(({ key, value, text }) => `${say("page-find-column", { criterion: key })} ${text(value(find))}`);
    const state = keyOf(find) === this.#chosen ? [say("diagram-finds-chosen")] : [];
    const words = [...measures, teethWords(this.#desk, find), ...state].join("; ");
    this.#cursor.setAttribute("aria-valuetext", words);
    this.#cursor.title = words;
    this.#cursor.dataset.find = keyOf(find);
  }

  /** Shows the find nearest to where was clicked or tapped. @param {MouseEvent} event */
  #pick({ clientX, clientY }) {
    const { left, top } = this.#drawn.holder.getBoundingClientRect();
    const away = this.#order.map((at) => Math.hypot(this.#points[at][0] - (clientX - left), this.#points[at][1] - (clientY - top)));
    const nearest = away.indexOf(Math.min(...away));
    if (!(away[nearest] <= REACH)) return;
    this.#at = nearest;
    this.#tell();
    this.#take();
  }

  #take() {
    const find = this.#finds[this.#order[this.#at]];
    if (find && !this.#cursor.matches("[aria-disabled=true]")) this.#choose(find);
  }

  /** @param {KeyboardEvent} event */
  #go(event) {
    const last = this.#order.length - 1;
    /** @type {Record<string, number>} */
    const goes = { ArrowRight: this.#at + 1, ArrowUp: this.#at + 1, ArrowLeft: this.#at - 1, ArrowDown: this.#at - 1, PageUp: this.#at + BIG_STEP, PageDown: this.#at - BIG_STEP, Home: 0, End: last };
    if (event.key === "Enter" || event.key === " ") this.#take();
    else if (event.key in goes) this.#at = Math.min(Math.max(goes[event.key], 0), last);
    else return;
    event.preventDefault();
    event.stopPropagation();
    this.#tell();
  }
}
