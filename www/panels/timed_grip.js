/** A handle on the plot that is moved along the axis of time: by pointer, finger and keys. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { say } from "../kit/words.js";

/** What keys move by, in seconds. @type {Record<string, number>} */
const STEPS = { ArrowLeft: -0.01, ArrowDown: -0.01, ArrowRight: 0.01, ArrowUp: 0.01, PageDown: -0.1, PageUp: 0.1 };
/** Times are whole so many of a second. */
const FINENESS = 1000;
/** Keys within so many milliseconds are one change. */
const TOGETHER = 1000;

/** A time as it is read. @param {number} seconds */
export function timeWords(seconds) {
  return say("page-timed-seconds", { time: number(Math.round(seconds * FINENESS) / FINENESS, 4) });
}

export class TimedGrip {
  #value = 0;
  #most = 1;
  #moves;
  #timeAt;
  /** When a key moved it last. */
  #keyed = -Infinity;
  /** The pointer that drags it, and how far beside its middle it was taken. @type {{ pointer: number, off: number, from: number } | undefined} */
  #drag;

  /**
   * @param {string} name
   * @param {string} part what the page knows it by
   * @param {(clientX: number) => number} timeAt the time that a place in the window is
   * @param {{ hold(holds: boolean): void, mark(): void, to(seconds: number): void }} moves what to do as it is taken or let go, before
   *   keys move it, and as it moves
   */
  constructor(name, part, timeAt, moves) {
    this.#timeAt = timeAt;
    this.#moves = moves;
    this.node = h("div", {
      class: "timed-grip",
      role: "slider",
      tabindex: "0",
      "aria-label": name,
      "aria-valuemin": "0",
      "data-part": part,
      title: name,
      keydown: (/** @type {KeyboardEvent} */ event) => this.#key(event),
      pointermove: (/** @type {PointerEvent} */ event) => this.#pull(event),
      pointerup: (/** @type {PointerEvent} */ event) => this.#drop(event),
      pointercancel: (/** @type {PointerEvent} */ event) => this.#drop(event, true),
      lostpointercapture: (/** @type {PointerEvent} */ event) => this.#drop(event),
    });
  }

  /**
   * Stands at a place, and says its time.
   * @param {[number, number]} place in CSS pixels
   * @param {number} value seconds
   * @param {number} most the latest time there is
   */
  place([x, y], value, most) {
    this.#value = value;
    this.#most = most;
    this.node.style.left = `${x}px`;
    this.node.style.top = `${y}px`;
    this.node.setAttribute("aria-valuemax", String(most));
    this.node.setAttribute("aria-valuenow", String(value));
    this.node.setAttribute("aria-valuetext", timeWords(value));
  }

  /** @param {number} seconds */
  #to(seconds) {
    const whole = Math.round(Math.min(Math.max(seconds, 0), this.#most) * FINENESS) / FINENESS;
    if (whole === this.#value) return;
    // At once: the next key may come before the next frame.
    this.#value = whole;
    this.#moves.to(whole);
  }

  /** Keys in quick succession are one change. @param {KeyboardEvent} event @param {number} seconds */
  #byKey({ timeStamp }, seconds) {
    if (timeStamp - this.#keyed > TOGETHER) this.#moves.mark();
    this.#keyed = timeStamp;
    this.#to(seconds);
  }

  get #isLocked() {
    return this.node.matches("fieldset:disabled *");
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.key === "Escape" && this.#drag) {
      const { from } = this.#drag;
      this.#end();
      this.#to(from);
    } else if (event.ctrlKey || event.metaKey || event.altKey) return;
    else if (event.key in STEPS) this.#byKey(event, this.#value + STEPS[event.key]);
    else if (event.key === "Home") this.#byKey(event, 0);
    else if (event.key === "End") this.#byKey(event, this.#most);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** How far from its middle something in the window is. @param {PointerEvent} event */
  away({ clientX, clientY }) {
    const { left, top, width, height } = this.node.getBoundingClientRect();
    return Math.hypot(clientX - left - width / 2, clientY - top - height / 2);
  }

  /** Is dragged from now on. @param {PointerEvent} event */
  take(event) {
    if (event.button !== 0 || this.#drag || this.#isLocked) return;
    event.preventDefault();
    this.node.focus({ preventScroll: true });
    this.node.setPointerCapture(event.pointerId);
    this.#drag = { pointer: event.pointerId, off: this.#timeAt(event.clientX) - this.#value, from: this.#value };
    this.#moves.hold(true);
  }

  /** @param {PointerEvent} event */
  #pull({ pointerId, clientX }) {
    if (this.#drag?.pointer === pointerId) this.#to(this.#timeAt(clientX) - this.#drag.off);
  }

  /** @param {PointerEvent} event @param {boolean} [back] */
  #drop({ pointerId }, back = false) {
    if (this.#drag?.pointer !== pointerId) return;
    const { from } = this.#drag;
    this.#end();
    if (back) this.#to(from);
  }

  #end() {
    this.#drag = undefined;
    this.#moves.hold(false);
  }
}
