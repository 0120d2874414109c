/** Layouts that were found, each with its half-section and its ranges: a press opens one on the stage. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { pause } from "../kit/pieces.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain.js").LayoutReport} LayoutReport */
/** @typedef {import("../engine/levertrain_whole.js").Sketch} Sketch */

const HUNDRED = 100;
/** How many more are shown at once. */
const PAGE = 12;
/** The width in CSS pixels that half-sections are fitted to. */
const WIDTH = 340;
/** How long the layout of a half-section goes on before the page may draw, in milliseconds. */
const PIECE_MS = 5;

/** What they can be ordered by: what comes first. @type {{ key: string, value(layout: LayoutReport): number }[]} */
const ORDERS = [
  { key: "error", value: ({ error }) => error },
  { key: "elements", value: ({ clutches, brakes }) => clutches + brakes },
  { key: "efficiency", value: ({ efficiency }) => -efficiency },
  { key: "size", value: ({ size }) => size },
  { key: "spread", value: ({ spread }) => -spread },
  { key: "steps", value: ({ unevenness }) => unevenness },
];

export class LayoutsGallery {
  #desk;
  #open;
  #list = h("ul", { class: "layouts-found", "data-part": "layouts-found" });
  #order = /** @type {HTMLSelectElement} */ (h("select", { id: "layouts-order" }, ...ORDERS.map(({ key }) => h("option", { value: key }, say("page-layouts-order-is", { order: key })))));
  #more = h("button", { class: "plain", type: "button", "data-part": "layouts-more", click: () => this.#showMore() }, say("page-layouts-more"));
  /** @type {LayoutReport[]} */
  #layouts = [];
  #shown = PAGE;
  /** Cards by the text of their layouts. @type {Map<string, HTMLElement>} */
  #cards = new Map();
  /** Canvases that still have nothing on them, by the text of what belongs there. @type {Map<string, HTMLCanvasElement>} */
  #blank = new Map();
  #draws = false;

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {(text: string) => void} open
   */
  constructor(desk, open) {
    this.#desk = desk;
    this.#open = open;
    this.#order.addEventListener("change", () => this.#fill());
    const order = h("p", { class: "row" }, h("label", { for: this.#order.id }, say("page-layouts-order")), h("span", { class: "select" }, this.#order));
    this.node = h("div", { class: "layouts-gallery" }, order, this.#list, h("p", { class: "row" }, this.#more));
  }

  /** @param {LayoutReport[]} layouts */
  show(layouts) {
    this.#layouts = layouts;
    this.#fill();
  }

  /** Begins again with the first ones. */
  clear() {
    this.#shown = PAGE;
    this.#cards.clear();
    this.#blank.clear();
    this.show([]);
  }

  /** Draws all again, in other colours. */
  redraw() {
    for (const [text, card] of this.#cards) {
      const canvas = card.querySelector("canvas");
      if (canvas) this.#blank.set(text, canvas);
    }
    void this.#draw();
  }

  #showMore() {
    const first = this.#shown;
    this.#shown += PAGE;
    this.#fill();
    this.#list.children[first]?.querySelector("button")?.focus();
  }

  #fill() {
    const order = ORDERS.find(({ key }) => key === this.#order.value) ?? ORDERS[0];
    const sorted = [...this.#layouts].sort((a, b) => order.value(a) - order.value(b) || ORDERS[0].value(a) - ORDERS[0].value(b) || (a.scenario < b.scenario ? -1 : 1));
    const cards = sorted.slice(0, this.#shown).map((layout) => this.#card(layout));
    // Those that stay are left where they are, with the focus that may be on one.
    cards.forEach((card, at) => {
      if (this.#list.children[at] !== card) this.#list.insertBefore(card, this.#list.children[at] ?? null);
    });
    while (this.#list.children.length > cards.length) this.#list.lastElementChild?.remove();
    this.#more.hidden = sorted.length <= this.#shown;
    void this.#draw();
  }

  /** @param {LayoutReport} layout */
  #card(layout) {
    const known = this.#cards.get(layout.scenario);
    if (known) return known;
    /** @type {{ ranges: { label: string, applied: string[] }[] }} */
    const { ranges } = JSON.parse(layout.scenario);
    const canvas = /** @type {HTMLCanvasElement} */ (h("canvas", { class: "layouts-section", width: 1, height: 1, "aria-hidden": "true" }));
    const rows = table(say("page-layouts-chart"), [say("page-chart-range"), say("page-layouts-on"), say("page-layouts-ratio")], [2]);
    rows.body.append(
      ...ranges.map(({ label, applied }, at) =>
        h("tr", {}, h("th", { scope: "row" }, h("bdi", {}, label)), h("td", {}, h("bdi", {}, applied.join(" "))), h("td", { class: "figure" }, number(layout.ratios[at].decimal, 4))),
      ),
    );
    const facts = say("page-layouts-facts", {
      error: number(layout.error * HUNDRED, 2),
      spread: number(layout.spread, 3),
      efficiency: number(layout.efficiency * HUNDRED, 3),
      size: String(layout.size),
      clutches: String(layout.clutches),
      brakes: String(layout.brakes),
    });
    const notes = [...(layout.ended ? [] : ["page-layouts-unended"]), ...(layout.nests ? [] : ["page-layouts-undecided"])];
    const open = h("button", { class: "plain layouts-open", type: "button", click: () => this.#open(layout.scenario) }, say("page-layouts-open"));
    const card = h("li", { class: "layouts-card" }, canvas, h("div", { class: "layouts-chart" }, rows.node), h("p", { class: "note" }, facts), ...notes.map((note) => h("p", { class: "note" }, say(note))), open);
    this.#cards.set(layout.scenario, card);
    this.#blank.set(layout.scenario, canvas);
    return card;
  }

  /** Draws what is not drawn yet, one after the other, with time for the page between them. */
  async #draw() {
    if (this.#draws) return;
    this.#draws = true;
    for (;;) {
      const next = [...this.#blank].find(([, canvas]) => canvas.isConnected);
      if (!next) break;
      await pause();
      this.#blank.delete(next[0]);
      await this.#paint(...next);
    }
    this.#draws = false;
  }

  /** Lays a train out, which takes a while, with time for the page in between, and draws it. @param {string} text @param {HTMLCanvasElement} canvas */
  async #paint(text, canvas) {
    const { scale } = this.#desk.settings;
    const sketch = this.#desk.askWhole((engine, sandbox) => new engine.Sketch(sandbox, text, WIDTH));
    if (!sketch) return;
    let isLaidOut = false;
    while (!isLaidOut && canvas.isConnected) {
      const until = performance.now() + PIECE_MS;
      do isLaidOut = sketch.advance();
      while (!isLaidOut && performance.now() < until);
      await pause();
    }
    if (isLaidOut) {
      const [width, height] = sketch.size();
      canvas.width = Math.round(width * scale);
      canvas.height = Math.round(height * scale);
      canvas.style.maxWidth = `${width}px`;
      sketch.draw(canvas);
    } else if (this.#cards.has(text)) this.#blank.set(text, canvas);
    sketch.free();
  }
}
