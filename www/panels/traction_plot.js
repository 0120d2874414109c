/** Both diagrams of a train on the road, a speed that is looked at in them by pointer, finger and keys, and what is read there. */

import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { roadUnits } from "../state/road_units.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./traction_road.js").RoadOnDesk} RoadOnDesk */
/** @typedef {import("../engine/levertrain_whole.js").TractionPlaces} Places */

const DRAWING = "traction";
/** What arrows go by, of the page's road speed. */
const STEP = 1;
const BIG_STEP = 10;
/** How far a finger may move and still tap, in CSS pixels. */
const STILL = 6;
const PERCENT = 100;

export class TractionPlot {
  #desk;
  #road;
  #apply;
  #drawn;
  /** @type {Places | undefined} */
  #places;
  #growth = 1;
  /** Where a press began, and whether it has moved since. @type {{ x: number, y: number, moved: boolean } | undefined} */
  #press;
  #cursor = h("div", { class: "traction-cursor", role: "slider", tabindex: "0", "aria-label": say("page-traction-cursor"), "aria-valuemin": "0" });
  #reading = h("p", { class: "traction-reading", "data-part": "traction-reading" });

  /**
   * @param {Desk} desk
   * @param {RoadOnDesk} road
   * @param {(range: string) => void} apply
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, road, apply, redraw, signal) {
    this.#desk = desk;
    this.#road = road;
    this.#apply = apply;
    this.#drawn = drawing(desk, DRAWING, ["answer", "train", "units", "assumptions"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.classList.add("traction-plot");
    holder.append(this.#cursor);
    holder.addEventListener("pointerdown", (event) => this.#begin(event));
    holder.addEventListener("pointermove", (event) => this.#move(event));
    holder.addEventListener("pointerup", (event) => this.#end(event));
    holder.addEventListener("pointercancel", () => (this.#press = undefined));
    this.#cursor.addEventListener("keydown", (event) => this.#go(event));
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => road.ask((found, sandbox) => found.svg(sandbox, width(), light)),
      paint: (picture, scale, light) => road.ask((found, sandbox) => found.drawPicture(sandbox, picture, scale, light)),
    });
    this.node = h("div", { class: "traction-picture" }, holder, this.#reading, h("p", { class: "note" }, say("page-traction-plot-note")));
  }

  /** Has it drawn anew. */
  changed() {
    this.#drawn.changed();
    this.#tell();
  }

  describe() {
    this.#drawn.canvas.setAttribute("aria-label", say("page-drawing-traction", { train: this.#desk.info?.name ?? "" }));
  }

  /** Paints it, where it is not up to date. */
  draw() {
    this.#drawn.paint(
      DRAWING,
      (width) =>
        this.#road.ask((road, sandbox) => {
          this.#places = road.places(sandbox, width);
          this.#growth = growthIn(this.#drawn.holder);
          this.#tell();
          return this.#places.height;
        }),
      (canvas) => this.#road.ask((road, sandbox) => road.draw(sandbox, canvas)),
    );
  }

  /** Looks at a road speed in m/s, as far as the diagram goes. @param {number} speed */
  look(speed) {
    if (!this.#places) return;
    this.#road.cursor = Math.min(Math.max(speed, 0), this.#places.fastest);
    this.changed();
  }

  /** The road speed that is looked at: at first a third of what the diagram shows. */
  #speed() {
    const fastest = this.#places?.fastest ?? 0;
    return Math.min((this.#road.cursor ??= fastest / 3), fastest);
  }

  /** Puts the cursor where its speed is, and says what is read there. */
  #tell() {
    const places = this.#places;
    if (!places) return;
    const speed = this.#speed();
    const found = this.#road.ask((road) => road.reading(speed));
    if (!found) return;
    const units = roadUnits(this.#desk.units);
    const engine = unitOf(this.#desk.units, "speed");
    const x = places.left + (speed / places.fastest) * (places.right - places.left);
    this.#cursor.style.left = `${x * this.#growth}px`;
    const of = (/** @type {number} */ value, /** @type {import("../state/units.js").Unit} */ unit, digits = 3) => `${number(value / unit.size, digits)}${NO_BREAK}${unit.name}`;
    const label = (/** @type {string} */ id) => this.#desk.info?.ranges.find((range) => range.id === id)?.label ?? id;
    const at = say("page-traction-at", { speed: of(speed, units.speed) });
    const ranges = found.ranges.map(({ id, at: { force, engineSpeed } }) =>
      say("page-traction-reads", { range: label(id), force: of(force, units.force), speed: of(engineSpeed, engine, 4) }),
    );
    const roads = found.roads.map(({ slope, force }) => {
      const name = slope === 0 ? say("diagram-traction-level") : say("diagram-traction-slope", { slope: String(Math.round(slope * PERCENT)) });
      return say("page-traction-road-reads", { slope: name, force: of(force, units.force) });
    });
    const none = ranges.length ? ranges : [say("page-traction-nothing-runs")];
    this.#reading.replaceChildren(h("b", {}, at), ...[...none, ...roads].map((words) => h("span", {}, words)));
    this.#cursor.setAttribute("aria-valuemax", String(Math.round(places.fastest / units.speed.size)));
    this.#cursor.setAttribute("aria-valuenow", String(Math.round(speed / units.speed.size)));
    this.#cursor.setAttribute("aria-valuetext", [at, ...none, ...roads].join("; "));
  }

  /** @param {PointerEvent} event */
  #place({ clientX, clientY }) {
    const { left, top } = this.#drawn.holder.getBoundingClientRect();
    return { x: (clientX - left) / this.#growth, y: (clientY - top) / this.#growth };
  }

  /** @param {number} x */
  #lookAt(x) {
    const places = this.#places;
    if (places) this.look(((x - places.left) / (places.right - places.left)) * places.fastest);
  }

  /** @param {PointerEvent} event */
  #begin(event) {
    if (event.button !== 0) return;
    this.#press = { ...this.#place(event), moved: false };
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const place = this.#place(event);
    const press = this.#press;
    // A mouse looks wherever it is, a finger where it is drawn along.
    if (event.pointerType !== "mouse" && !press) return;
    if (press && Math.hypot(place.x - press.x, place.y - press.y) > STILL) press.moved = true;
    if (event.pointerType === "mouse" || press?.moved) this.#lookAt(place.x);
  }

  /** @param {PointerEvent} event */
  #end(event) {
    const press = this.#press;
    this.#press = undefined;
    if (!press) return;
    const { x, y } = this.#place(event);
    this.#lookAt(x);
    if (press.moved) return;
    const width = this.#drawn.canvas.width / this.#desk.look.scale;
    const range = this.#road.ask((road, sandbox) => road.nearest(sandbox, width, x, y));
    if (range) this.#apply(range);
  }

  /** @param {KeyboardEvent} event */
  #go(event) {
    const { speed: unit } = roadUnits(this.#desk.units);
    const now = this.#speed() / unit.size;
    /** @type {Record<string, number>} */
    const goes = {
      ArrowRight: Math.floor(now + STEP + 1e-9),
      ArrowUp: Math.floor(now + STEP + 1e-9),
      ArrowLeft: Math.ceil(now - STEP - 1e-9),
      ArrowDown: Math.ceil(now - STEP - 1e-9),
      PageUp: now + BIG_STEP,
      PageDown: now - BIG_STEP,
      Home: 0,
      End: (this.#places?.fastest ?? 0) / unit.size,
    };
    if (!(event.key in goes)) return;
    event.preventDefault();
    event.stopPropagation();
    this.look(goes[event.key] * unit.size);
  }
}
