/**
 * Both drawings for the back row: as large as the room allows, with letters that are as large as those beside them,
 * however small the drawings must be. The levers are drawn larger as a whole, in the columns of the half-section.
 */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { handles } from "../stage/handles.js";
import { resize } from "../stage/stage.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {"section" | "lever"} Drawing */

/** The smallest letters of the drawings as they are drawn, in CSS pixels. */
const SMALLEST = 12;
/** How much of the height the half-section has. */
const SHARE = 0.48;
/** Room that large letters take above and below the half-section, over their size, and what is less for usual ones. */
const BEYOND = 34;
/** The levers are no higher than so many times their width. */
const HIGHEST = 0.7;
/** More pixels than these in a drawing are more than a browser likes to keep. */
const MOST_PIXELS = 12e6;
/** A coarse screen is drawn for with twice its pixels, unless these are more: large rings would have corners. */
const FINE_PIXELS = 2e6;

export class ClassStage {
  #desk;
  #asked;
  #told;
  #signal;
  /** The member that stays lit whatever is pointed at, until it is let go. @type {string | undefined} */
  kept;
  #section = canvas("section");
  #lever = canvas("lever");
  #switches;
  /** The drawings in large letters, in the engine that made them. @type {import("../engine/levertrain_whole.js").FarView | undefined} */
  #far;
  /** How much larger each is shown than it is drawn. */
  #zoom = { section: 1, lever: 1 };
  /** @type {ResizeObserver | undefined} */
  #observer;

  /**
   * @param {Desk} desk
   * @param {() => boolean} asked whether speeds are asked for
   * @param {(kept: boolean) => void} told whether a member stays lit
   * @param {AbortSignal} signal
   */
  constructor(desk, asked, told, signal) {
    this.#desk = desk;
    this.#asked = asked;
    this.#told = told;
    this.#signal = signal;
    this.#switches = handles(desk, () => this.draw());
    const holder = h("div", { class: "section" }, this.#section, this.#switches.node);
    this.node = h("div", { class: "class-stage", role: "group", tabindex: 0, "aria-label": say("page-drawings"), "data-part": "class-stage" }, holder, this.#lever);
    for (const drawing of /** @type {const} */ (["section", "lever"])) this.#points(drawing);
  }

  /** Draws once it has a place in the page. */
  start() {
    this.#observer = new ResizeObserver(() => this.#fit());
    this.#observer.observe(this.node);
    for (const name of ["train", "whole", "look"]) this.#desk.addEventListener(name, () => this.#fit(), { signal: this.#signal });
    this.#fit();
  }

  free() {
    this.#observer?.disconnect();
    this.#release();
  }

  #release() {
    try {
      this.#far?.free();
    } catch {
      // Its engine is gone, and all its memory with it.
    }
    this.#far = undefined;
  }

  #fit() {
    const desk = this.#desk;
    const { clientWidth: width, clientHeight: height } = this.node;
    if (!desk.isWhole || width === 0 || height === 0) return;
    const letter = parseFloat(getComputedStyle(this.node).fontSize);
    const least = desk.fit(1);
    if (!least) return;
    const high = (SHARE * height - (BEYOND * letter) / SMALLEST) / (least.sectionHeight - BEYOND);
    const zoom = Math.max(0.1, Math.min(high, width / least.width));
    desk.fit(width / zoom);
    this.#release();
    this.#far = desk.askWhole((engine, sandbox) => new engine.FarView(sandbox, letter / SMALLEST / zoom));
    const size = desk.askWhole((_, sandbox) => this.#far?.size(sandbox));
    if (!size) return;
    this.#zoom = { section: zoom, lever: letter / SMALLEST };
    const tall = size.height * zoom;
    this.#size(this.#section, width, tall, zoom);
    this.#size(this.#lever, width, Math.min(height - tall, HIGHEST * width), this.#zoom.lever);
    this.#switches.node.style.top = `${size.above * zoom}px`;
    this.#switches.place(zoom);
    const train = desk.info?.name ?? "";
    this.#section.setAttribute("aria-label", say("page-drawing-section", { train }));
    this.#lever.setAttribute("aria-label", say("page-drawing-lever", { train }));
    this.draw();
  }

  /** @param {HTMLCanvasElement} node @param {number} width @param {number} height @param {number} zoom */
  #size(node, width, height, zoom) {
    resize(node, width / zoom, height / zoom, this.#scale(width, height) * zoom, zoom);
  }

  /** Canvas pixels to one of the page. @param {number} width @param {number} height */
  #scale(width, height) {
    const [most, finer] = [MOST_PIXELS, FINE_PIXELS].map((pixels) => Math.sqrt(pixels / (width * height)));
    return Math.min(Math.max(devicePixelRatio, Math.min(2, finer)), most);
  }

  draw() {
    for (const [drawing, node] of /** @type {const} */ ([["section", this.#section], ["lever", this.#lever]])) {
      const { offsetWidth: width, offsetHeight: height } = node;
      if (!this.#far || width === 0 || height === 0) continue;
      const scale = this.#scale(width, height) * this.#zoom[drawing];
      this.#desk.askWhole((_, sandbox) => this.#far?.draw(sandbox, drawing, node, scale, this.#asked()));
    }
  }

  /** Has pointing at a drawing light what is there. @param {Drawing} drawing */
  #points(drawing) {
    const node = drawing === "section" ? this.#section : this.#lever;
    const shaftAt = (/** @type {MouseEvent} */ { offsetX, offsetY }) => {
      const zoom = this.#zoom[drawing];
      const size = new Float64Array([node.offsetWidth / zoom, node.offsetHeight / zoom]);
      const at = new Float64Array([offsetX / zoom, offsetY / zoom]);
      return this.#desk.askWhole((_, sandbox) => this.#far?.shaftAt(sandbox, drawing, at, size));
    };
    const point = (/** @type {PointerEvent} */ event) => {
      if (!this.kept) this.#desk.light(shaftAt(event));
    };
    node.addEventListener("pointermove", point);
    node.addEventListener("pointerdown", point);
    node.addEventListener("click", (event) => {
      const shaft = shaftAt(event);
      this.keep(shaft === this.kept ? undefined : shaft);
    });
    // A finger that is lifted leaves what it pointed at lit.
    node.addEventListener("pointerleave", ({ pointerType }) => {
      if (pointerType !== "touch" && !this.kept) this.#desk.light(undefined);
    });
  }

  /** Has a member stay lit, or none. @param {string | undefined} shaft */
  keep(shaft) {
    this.kept = shaft;
    this.#told(shaft !== undefined);
    this.#desk.light(shaft);
  }
}

/** @param {Drawing} drawing */
function canvas(drawing) {
  const node = h("canvas", { role: "img", "data-class-drawing": drawing });
  return /** @type {HTMLCanvasElement} */ (/** @type {unknown} */ (node));
}
