/** The plot of a shift in time: its ramps have handles, and a press anywhere else reads that time. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { lockable } from "../state/lockable.js";
import { TimedGrip } from "./timed_grip.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./timed_run.js").TimedRun} TimedRun */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} TimedPlan */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlaces} TimedPlaces */

const DRAWING = "in-time";
/** Least height of a row of commands, in CSS pixels, for a pointer and for a finger. */
const REACH = { fine: 32, coarse: 48 };

export class TimedDrawing {
  #desk;
  #run;
  #changed;
  #read;
  #drawn;
  #grips = h("div", { class: "timed-grips" });
  /** Begin and end of each command. @type {TimedGrip[][]} */
  #handles = [];
  /** What they are of. */
  #of = "";
  /** @type {TimedPlaces | undefined} */
  #places;
  #until = 1;
  #coarse = matchMedia("(pointer: coarse)");
  /** Whether the speeds of all shafts are drawn. */
  all = false;
  /** The time that is read, in seconds. */
  time = 0;

  /**
   * @param {Desk} desk
   * @param {TimedRun} run
   * @param {{ changed(): void, read(seconds: number): void }} tell what to do when something else is commanded or read
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, run, { changed, read }, redraw, signal) {
    this.#desk = desk;
    this.#run = run;
    this.#changed = changed;
    this.#read = read;
    this.#drawn = drawing(desk, DRAWING, ["light", "units"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.classList.add("timed-plot");
    holder.append(lockable(desk, "settings", this.#grips));
    this.node = holder;
    // Where two are close to each other the nearer one is meant, whichever lies on top.
    this.#grips.addEventListener("pointerdown", (event) => {
      const all = this.#handles.flat();
      const away = all.map((grip) => grip.away(event));
      all[away.indexOf(Math.min(...away))]?.take(event);
    });
    this.#coarse.addEventListener("change", () => this.changed(), { signal });
    const pick = (/** @type {PointerEvent} */ event) => {
      if (event.buttons & 1) this.#read(Math.min(Math.max(this.#timeAt(event.clientX), 0), this.#until));
    };
    canvas.addEventListener("pointerdown", (event) => {
      canvas.setPointerCapture(event.pointerId);
      pick(event);
    });
    canvas.addEventListener("pointermove", pick);
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => run.ask((shift, sandbox) => shift.svg(sandbox, width(), light)),
      paint: (picture, scale, light) => run.ask((shift, sandbox) => shift.drawPicture(sandbox, picture, scale, light)),
    });
  }

  /** @param {string} from @param {string} to */
  describe(from, to) {
    this.#drawn.canvas.setAttribute("aria-label", say("page-drawing-timed", { from, to }));
  }

  /** Has it drawn anew. */
  changed() {
    this.#drawn.changed();
  }

  /** Paints it, where it is not up to date. */
  draw() {
    this.#drawn.paint(
      DRAWING,
      (width) => this.#run.ask((shift, sandbox) => this.#place(shift, sandbox, width)),
      (canvas) => this.#run.ask((shift, sandbox) => shift.draw(sandbox, canvas)),
    );
  }

  /** Where the axis of time begins and ends, in CSS pixels of the page. */
  get axis() {
    const growth = growthIn(this.node);
    const { left = 0, right = 1 } = this.#places ?? {};
    return [left * growth, right * growth];
  }

  /** The time at a place in the window. @param {number} clientX */
  #timeAt(clientX) {
    const [left, right] = this.axis;
    const x = clientX - this.node.getBoundingClientRect().left;
    return ((x - left) / (right - left)) * this.#until;
  }

  /**
   * @param {import("../engine/levertrain_whole.js").TimedShift} shift
   * @param {import("../engine/levertrain_whole.js").Sandbox} sandbox
   * @param {number} width
   */
  #place(shift, sandbox, width) {
    shift.show(this.all, this.#desk.lit, this.time, this.#coarse.matches ? REACH.coarse : REACH.fine);
    const places = shift.places(sandbox, width);
    if (!places) return undefined;
    this.#places = places;
    const plan = shift.plan();
    this.#until = plan.until;
    this.#hold(plan);
    const growth = growthIn(this.node);
    // What lies beside it keeps to its axis.
    const beside = this.node.parentElement?.style;
    beside?.setProperty("--timed-left", `${places.left * growth}px`);
    beside?.setProperty("--timed-right", `${(width - places.right) * growth}px`);
    const times = [
      ...plan.commands.map(({ at, fill, ramp }) => [at, at + fill + ramp]),
      ...(plan.cut ? [[plan.cut[0], plan.cut[1]]] : []),
    ];
    for (const [row, ends] of this.#handles.entries()) {
      for (const [end, grip] of ends.entries()) {
        const [x, y] = places.grips[row][end];
        grip.place([x * growth, y * growth], times[row][end], plan.until);
      }
    }
    return places.height;
  }

  /** Has handles for what is commanded. @param {TimedPlan} plan */
  #hold({ commands, cut }) {
    const of = JSON.stringify([commands.map(({ element, applies }) => [element, applies]), Boolean(cut)]);
    if (of === this.#of) return;
    this.#of = of;
    this.#handles = commands.map(({ element, applies }) => {
      const label = this.#desk.elementLabel(element);
      const names = applies
        ? [say("page-timed-apply-begins", { element: label }), say("page-timed-apply-ends", { element: label })]
        : [say("page-timed-release-begins", { element: label }), say("page-timed-release-ends", { element: label })];
      return names.map((name, end) => this.#grip(name, `timed-${element}-${end}`, (seconds) => this.#command(element, end, seconds)));
    });
    if (cut) {
      const names = [say("page-timed-cut-begins"), say("page-timed-cut-ends")];
      this.#handles.push(names.map((name, end) => this.#grip(name, `timed-cut-${end}`, (seconds) => this.#cut(end, seconds))));
    }
    this.#grips.replaceChildren(...this.#handles.flat().map(({ node }) => node));
  }

  /** @param {string} name @param {string} part @param {(seconds: number) => void} to */
  #grip(name, part, to) {
    const hold = (/** @type {boolean} */ holds) => {
      if (holds) this.#run.mark();
      this.#run.ask((shift, sandbox) => shift.hold(sandbox, holds));
      this.changed();
    };
    return new TimedGrip(name, part, (clientX) => this.#timeAt(clientX), { hold, mark: () => this.#run.mark(), to });
  }

  /** @param {string} element @param {number} end @param {number} seconds */
  #command(element, end, seconds) {
    this.#run.command((shift) => {
      const command = shift.plan().commands.find((known) => known.element === element);
      if (!command) return;
      const { at, fill, ramp } = command;
      if (end === 0) shift.command(element, seconds, ramp);
      else shift.command(element, at, Math.max(seconds - at - fill, 0));
    });
    this.#changed();
  }

  /** @param {number} end @param {number} seconds */
  #cut(end, seconds) {
    this.#run.command((shift) => {
      const { cut } = shift.plan();
      if (!cut) return;
      const [begin, until, depth] = cut;
      if (end === 0) shift.cut(Math.min(seconds, until), until, depth);
      else shift.cut(begin, Math.max(seconds, begin), depth);
    });
    this.#changed();
  }
}
