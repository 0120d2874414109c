/** A map of many timings of a shift: what comes of releasing and applying sooner or later. A press commands that timing. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { markLocked } from "../state/lockable.js";
import { follow } from "../state/follow.js";
import { unitOf } from "../state/units.js";
import { Helper } from "../work/helper.js";
import { timeWords } from "./timed_grip.js";
import { withUnit } from "./timed_figures.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./timed_run.js").TimedRun} TimedRun */
/** @typedef {import("../work/timed.js").Commanded} Commanded */
/** @typedef {import("../work/timed.js").Offsets} Offsets */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} TimedPlan */
/**
 * What is mapped: offsets, numbers of each, what flare and tie-up are slight, when release and filling begin, and column and row of that.
 * @typedef {{ offsets: Offsets, values: Float64Array, slight: [number, number], at: [number, number], now: [number, number] }} Mapped
 */

const DRAWING = "timings";
/** How many times of each there may be, the most that are reckoned within some milliseconds; and how many seconds they span. */
const COUNTS = [32, 16, 8];
const BUDGET = 2000;
const SPAN = 0.512;
/** How long a change must have been over before it is mapped, in milliseconds. */
const REST = 150;
/** How far beside its marks a press still counts, in CSS pixels. */
const BESIDE = 22;
/** Numbers of each timing. */
const NUMBERS = 3;

export class TimedMap {
  #desk;
  #run;
  #changed;
  #drawn;
  /** @type {Helper<Commanded & Offsets, Float64Array> | undefined} */
  #helper;
  /** Whether a worker could not do it; the next one could not either. */
  #alone = false;
  /** Whether somebody wants it: some pages forbid workers, and it takes its time. */
  #wanted = false;
  /** What is commanded. @type {TimedPlan | undefined} */
  #plan;
  #begin = h("button", { class: "plain", type: "button", "data-part": "timed-map-begin", click: () => this.#want() }, say("page-timed-map-begin"));
  #shown;
  #turn = 0;
  #timeout = 0;
  /** What the map is of. */
  #of = "";
  /** @type {Mapped | undefined} */
  #map;
  /** Where marks begin, and how large the room of each is, in CSS pixels of the page. */
  #places = { left: 0, top: 0, cell: 1 };
  /** Which timing keys are at. */
  #cursor = h("div", { class: "timed-cell", role: "slider", tabindex: "0", "aria-label": say("page-timed-map-keys"), "aria-valuemin": "1" });
  /** @type {[number, number]} */
  #key = [0, 0];
  /** How many times of each there are. */
  #count = COUNTS[0];
  #told = h("p", { class: "note", "data-part": "timed-map-told" });

  /**
   * @param {Desk} desk
   * @param {TimedRun} run
   * @param {() => void} changed what to do when another timing is commanded
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, run, changed, redraw, signal) {
    this.#desk = desk;
    this.#run = run;
    this.#changed = changed;
    this.#drawn = drawing(desk, DRAWING, [], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.classList.add("timed-map-plot");
    holder.append(this.#cursor);
    holder.addEventListener("click", (event) => this.#pick(event));
    this.#cursor.addEventListener("keydown", (event) => this.#go(event));
    canvas.setAttribute("aria-label", say("page-drawing-timings"));
    follow(desk, ["lock", "veil"], () => markLocked(desk, "settings", this.#cursor));
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => this.#ask((map, sandbox) => map.svg(sandbox, width(), light)),
      paint: (picture, scale, light) => this.#ask((map, sandbox) => map.drawPicture(sandbox, picture, scale, light)),
    });
    this.#shown = h("div", { hidden: true }, holder, this.#told);
    this.node = h(
      "section",
      { class: "timed-map", hidden: true, "aria-labelledby": "timed-map", "data-part": "timed-map" },
      h("h3", { id: "timed-map" }, say("page-timed-map")),
      h("p", { class: "note" }, say("page-timed-map-note")),
      this.#begin,
      this.#shown,
    );
    signal.addEventListener("abort", () => this.rest());
  }

  /** Maps what is commanded, once that rests. @param {TimedPlan} plan */
  show(plan) {
    const both = plan.commands.some(({ applies }) => applies) && plan.commands.some(({ applies }) => !applies);
    this.node.hidden = !both;
    this.#plan = plan;
    const of = JSON.stringify(this.#run.commanded);
    if (!both || !this.#wanted || of === this.#of) return;
    this.#of = of;
    this.#turn += 1;
    clearTimeout(this.#timeout);
    const turn = this.#turn;
    this.#timeout = setTimeout(() => this.#reckon(plan, turn).catch((error) => this.#desk.report(error)), REST);
  }

  #want() {
    this.#wanted = true;
    if (this.#plan) this.show(this.#plan);
  }

  /** Gives the worker up until it is wanted again. */
  rest() {
    clearTimeout(this.#timeout);
    this.#helper?.end();
    this.#helper = undefined;
  }

  /** Paints it, where it is not up to date. */
  draw() {
    if (!this.#map || this.node.hidden) return;
    this.#drawn.paint(
      DRAWING,
      (width) => this.#ask((map) => this.#place(map.places(width))),
      (canvas) => this.#ask((map, sandbox) => map.draw(sandbox, canvas)),
    );
  }

  /** @param {TimedPlan} plan @param {number} turn */
  async #reckon({ commands, slight_flare: flare, slight_bind: bind }, turn) {
    const first = (/** @type {boolean} */ applies) => Math.min(...commands.filter((command) => command.applies === applies).map(({ at }) => at));
    const starts = /** @type {[number, number]} */ ([first(false), first(true)]);
    const count = this.#fitting();
    const [apart, sooner] = [SPAN / count, count / 2 - 1];
    const now = /** @type {[number, number]} */ (starts.map((start) => Math.min(sooner, Math.floor(start / apart + 1e-9))));
    const [releases, applies] = now.map((at) => Float64Array.from({ length: count }, (_, step) => (step - at) * apart));
    const values = await this.#values({ releases, applies });
    if (!values || turn !== this.#turn) return;
    this.#count = count;
    this.#cursor.setAttribute("aria-valuemax", String(count * count));
    this.#map = { offsets: { releases, applies }, values, slight: [flare, bind], at: starts, now };
    this.#key = [...now];
    const pressed = this.#begin.matches(":focus");
    this.#begin.hidden = true;
    this.#shown.hidden = false;
    if (pressed) this.#cursor.focus({ preventScroll: true });
    this.#drawn.changed();
    this.#tell();
  }

  /** How many times of each: fewer where one takes long, as in a train with many one-way clutches. */
  #fitting() {
    const start = performance.now();
    this.#run.ask((shift) => shift.timings(Float64Array.of(0), Float64Array.of(0)));
    const one = performance.now() - start;
    return COUNTS.find((count) => count * count * one <= BUDGET) ?? COUNTS[COUNTS.length - 1];
  }

  /** @param {Offsets} offsets */
  async #values(offsets) {
    if (!this.#alone) {
      this.#helper ??= new Helper("timer.js");
      const values = await this.#helper.ask({ ...this.#run.commanded, ...offsets });
      if (values) return values;
      this.#alone = true;
    }
    return this.#run.ask((shift) => shift.timings(offsets.releases, offsets.applies));
  }

  /**
   * @template T
   * @param {(map: import("../engine/levertrain_whole.js").TimingsMap, sandbox: import("../engine/levertrain_whole.js").Sandbox) => T} question
   * @returns {T | undefined}
   */
  #ask(question) {
    const known = this.#map;
    if (!known) return undefined;
    return this.#desk.askWhole((engine, sandbox) => {
      const times = (/** @type {Float64Array} */ offsets, /** @type {number} */ start) => offsets.map((offset) => start + offset);
      const { releases, applies } = known.offsets;
      const map = new engine.TimingsMap(times(releases, known.at[0]), times(applies, known.at[1]), known.values, known.slight[0], known.slight[1], known.now[0], known.now[1]);
      try {
        return question(map, sandbox);
      } finally {
        map.free();
      }
    });
  }

  /** @param {Float64Array} places @returns {number} the height that the drawing takes */
  #place([height, left, top, cell]) {
    const growth = growthIn(this.#drawn.holder);
    this.#places = { left: left * growth, top: top * growth, cell: cell * growth };
    this.#tell();
    return height;
  }

  /** Puts the cursor over its mark, and says what comes of it. */
  #tell() {
    const map = this.#map;
    if (!map) return;
    const [column, row] = this.#key;
    const { left, top, cell } = this.#places;
    this.#cursor.style.left = `${left + column * cell}px`;
    this.#cursor.style.top = `${top + (this.#count - 1 - row) * cell}px`;
    this.#cursor.style.width = this.#cursor.style.height = `${cell}px`;
    this.#cursor.setAttribute("aria-valuenow", String(row * this.#count + column + 1));
    const words = this.#words(map, column, row);
    this.#cursor.setAttribute("aria-valuetext", words);
    this.#told.textContent = words;
  }

  /** @param {Mapped} map @param {number} column @param {number} row */
  #words({ offsets, values, at }, column, row) {
    const { units } = this.#desk;
    const [flare, bind, heat] = values.subarray((row * this.#count + column) * NUMBERS);
    const times = { release: timeWords(at[0] + offsets.releases[column]), apply: timeWords(at[1] + offsets.applies[row]) };
    if (Number.isNaN(heat)) return say("page-timed-map-refused", times);
    return say("page-timed-map-at", {
      ...times,
      flare: withUnit(flare, unitOf(units, "speed")),
      bind: withUnit(bind, unitOf(units, "torque")),
      heat: say("page-timed-joule", { heat: number(heat, 3) }),
    });
  }

  /** Commands the timing that was clicked or tapped. @param {MouseEvent} event */
  #pick({ clientX, clientY }) {
    const box = this.#drawn.holder.getBoundingClientRect();
    const { left, top, cell } = this.#places;
    const column = Math.floor((clientX - box.left - left) / cell);
    const row = this.#count - 1 - Math.floor((clientY - box.top - top) / cell);
    // Whoever presses a little beside the map means the nearest mark.
    const within = (/** @type {number} */ at) => Math.min(Math.max(at, 0), this.#count - 1);
    const beside = Math.max(Math.abs(column - within(column)), Math.abs(row - within(row))) * cell;
    if (beside > BESIDE) return;
    this.#key = [within(column), within(row)];
    this.#tell();
    this.#take();
  }

  #take() {
    const map = this.#map;
    if (!map || this.#cursor.matches("[aria-disabled=true]")) return;
    const [column, row] = this.#key;
    this.#run.mark();
    this.#run.command((shift) => {
      for (const { element, at, ramp, applies } of shift.plan().commands) {
        const later = applies ? map.offsets.applies[row] : map.offsets.releases[column];
        shift.command(element, Math.max(at + later, 0), ramp);
      }
    });
    // The marks stay where they are, and the frame goes to what is commanded now.
    const moved = /** @type {[number, number]} */ ([column, row]);
    const shifted = (/** @type {Float64Array} */ offsets, /** @type {number} */ by) => offsets.map((offset) => offset - by);
    const { releases, applies } = map.offsets;
    this.#map = {
      ...map,
      offsets: { releases: shifted(releases, releases[column]), applies: shifted(applies, applies[row]) },
      at: [map.at[0] + releases[column], map.at[1] + applies[row]],
      now: moved,
    };
    this.#of = JSON.stringify(this.#run.commanded);
    this.#turn += 1;
    this.#drawn.changed();
    this.#changed();
  }

  /** @param {KeyboardEvent} event */
  #go(event) {
    const [column, row] = this.#key;
    /** @type {Record<string, [number, number]>} */
    const goes = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1], PageUp: [0, 5], PageDown: [0, -5], Home: [-this.#count, 0], End: [this.#count, 0] };
    if (event.key === "Enter" || event.key === " ") this.#take();
    else if (event.key in goes) {
      const within = (/** @type {number} */ at) => Math.min(Math.max(at, 0), this.#count - 1);
      this.#key = [within(column + goes[event.key][0]), within(row + goes[event.key][1])];
    } else return;
    event.preventDefault();
    event.stopPropagation();
    this.#tell();
  }
}
