/** The drawing of shifts, with a button over each combination in it. */

import { arrowTarget, focusedIn, h, rove } from "../kit/dom.js";
import { ratio } from "../kit/format.js";
import { say } from "../kit/words.js";
import { markLocked } from "../state/lockable.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./shifts_search.js").ShiftSearch} ShiftSearch */
/** @typedef {import("../engine/levertrain_whole.js").SwapPlace} SwapPlace */
/** @typedef {import("../engine/levertrain_whole.js").ChainNode} ChainNode */

const DRAWING = "shifts";
/** Least distance of two buttons, in CSS pixels, for a pointer and for a finger. */
const REACH = { fine: 24, coarse: 44 };

/**
 * A combination as it is read aloud.
 * @param {ChainNode} node
 */
export function nodeWords({ labels, applied, ratio: exact }) {
  const elements = applied.join(" ") || say("page-combinations-none");
  const values = { elements, ratio: ratio(exact) };
  return labels.length ? say("page-shifts-node-named", { ranges: labels.join(", "), ...values }) : say("page-shifts-node", values);
}

export class ShiftDrawing {
  #desk;
  #search;
  #drawn;
  #buttons = h("div", { class: "shift-nodes", role: "group", "aria-label": say("page-shifts-nodes") });
  /** @type {SwapPlace[]} */
  #places = [];
  /** The text of the train that they are of. */
  #text = "";
  #all = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-part": "shifts-all", change: () => this.changed() }));
  #choice = h("label", { class: "control check", hidden: true }, this.#all, h("span", {}, say("page-shifts-all")));
  #some = h("p", { class: "note", hidden: true }, say("page-shifts-some"));
  /** The nodes of the chain that is marked. @type {number[]} */
  #chain = [];
  #coarse = matchMedia("(pointer: coarse)");

  /**
   * @param {Desk} desk
   * @param {ShiftSearch} search
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, search, redraw, signal) {
    this.#desk = desk;
    this.#search = search;
    this.#drawn = drawing(desk, DRAWING, ["answer"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.append(this.#buttons);
    this.node = h("div", { class: "shifts-drawing" }, holder, this.#some, this.#choice);
    this.#buttons.addEventListener("keydown", (event) => this.#go(event));
    this.#coarse.addEventListener("change", () => this.changed(), { signal });
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => search.ask((graph, sandbox) => graph.svg(sandbox, width(), light)),
      paint: (picture, scale, light) => search.ask((graph, sandbox) => graph.drawPicture(sandbox, picture, scale, light)),
    });
  }

  /** Has it drawn anew. */
  changed() {
    this.#drawn.changed();
  }

  /** @param {number[]} nodes */
  mark(nodes) {
    this.#chain = nodes;
    this.changed();
  }

  describe() {
    this.#drawn.canvas.setAttribute("aria-label", say("page-drawing-shifts", { train: this.#desk.info?.name ?? "" }));
  }

  /** Paints it, where it is not up to date. */
  draw() {
    this.#drawn.paint(
      DRAWING,
      (width) => this.#search.ask((graph, sandbox) => this.#place(graph, sandbox, width)),
      (canvas) => this.#search.ask((graph, sandbox) => graph.draw(sandbox, canvas)),
    );
  }

  /**
   * Puts the buttons where the nodes are.
   * @param {import("../engine/levertrain_whole.js").SwapGraph} graph
   * @param {import("../engine/levertrain_whole.js").Sandbox} sandbox
   * @param {number} width
   * @returns {number} the height that the drawing takes
   */
  #place(graph, sandbox, width) {
    graph.show(this.#all.checked, Uint32Array.from(this.#chain), this.#coarse.matches ? REACH.coarse : REACH.fine);
    const { height, places, some, can_be_all } = graph.places(sandbox, width);
    this.#some.hidden = !some;
    this.#choice.hidden = !can_be_all || (!some && !this.#all.checked);
    const growth = growthIn(this.#drawn.holder);
    const known = new Map(this.#nodes().map((button) => [button.dataset.applied, button]));
    const focused = focusedIn(this.#buttons);
    this.#places = places;
    this.#text = this.#desk.text;
    const buttons = places.map((place, at) => {
      const applied = place.node.applied.join();
      const button = known.get(applied) ?? this.#button(applied);
      button.dataset.at = String(at);
      const words = nodeWords(place.node);
      if (button.title !== words) button.setAttribute("aria-label", (button.title = words));
      for (const side of /** @type {const} */ (["left", "top", "width", "height"])) button.style[side] = `${place[side] * growth}px`;
      return button;
    });
    if (buttons.some((button, at) => button !== this.#buttons.children[at]) || buttons.length !== this.#buttons.children.length) {
      this.#buttons.replaceChildren(...buttons);
      const still = buttons.find((button) => button === focused);
      still?.focus({ preventScroll: true });
    }
    this.update();
    return height;
  }

  /** Tells which combination is applied now. */
  update() {
    const applied = [...(this.#desk.answer?.applied ?? [])].sort().join();
    const buttons = this.#nodes();
    for (const button of buttons) {
      const own = [...(this.#places[Number(button.dataset.at)]?.node.applied ?? [])].sort().join();
      if (own === applied) button.setAttribute("aria-current", "true");
      else button.removeAttribute("aria-current");
      markLocked(this.#desk, "elements", button);
    }
    const stop = buttons.find((button) => button.matches(":focus")) ?? buttons.find((button) => button.hasAttribute("aria-current"));
    rove(buttons, stop);
  }

  /** @returns {HTMLButtonElement[]} */
  #nodes() {
    return /** @type {HTMLButtonElement[]} */ ([...this.#buttons.children]);
  }

  /** @param {string} applied */
  #button(applied) {
    const button = /** @type {HTMLButtonElement} */ (
      h("button", { type: "button", class: "shift-node", "data-applied": applied, click: () => this.#apply(button) })
    );
    return button;
  }

  /** @param {HTMLButtonElement} button */
  #apply(button) {
    const place = this.#places[Number(button.dataset.at)];
    // After an edit these may be of the train before for a moment.
    if (place && this.#text === this.#desk.text) this.#desk.apply(place.node.applied);
  }

  /** @param {KeyboardEvent} event */
  #go(event) {
    const buttons = this.#nodes();
    const target = arrowTarget(event, buttons, /** @type {HTMLElement} */ (event.target));
    if (!target) return;
    event.preventDefault();
    event.stopPropagation();
    rove(buttons, target);
    target.focus();
  }
}
