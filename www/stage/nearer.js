/**
 * Seeing a part of both drawings from nearer: by buttons, by keys, by wheel with Ctrl and by two fingers. What
 * is seen stays where it is, and all of both can be reached by scrolling their place, which grows no larger.
 */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** How many times as large at most, and how much a press of a button or a key does. */
const MOST = 4;
const STEP = 1.25;
/** How much a turn of the wheel does, to the pixel. */
const WHEEL = 0.002;
/** So near to the usual size it is meant. */
const USUAL = 1.03;

/** @typedef {{ x: number, y: number }} Point in the pixels of the window */

/**
 * @param {HTMLElement} scroller
 * @param {() => void} changed
 */
export function nearer(scroller, changed) {
  let factor = 1;
  const smaller = step("−", "page-stage-smaller", 1 / STEP);
  const larger = step("+", "page-stage-larger", STEP);
  const node = h("div", { class: "joined", role: "group", "aria-label": say("page-stage-size"), "data-part": "size", hidden: true }, smaller, larger);
  /** Two fingers on the drawings, by their pointers. @type {Map<number, Point>} */
  const fingers = new Map();

  /**
   * @param {string} sign
   * @param {string} message
   * @param {number} ratio
   */
  function step(sign, message, ratio) {
    const words = say(message);
    return /** @type {HTMLButtonElement} */ (
      /** @type {unknown} */ (h("button", { type: "button", "aria-label": words, title: words, click: () => by(ratio) }, sign))
    );
  }

  /**
   * @param {number} ratio
   * @param {Point} [at] what stays where it is; the middle where it is nothing
   */
  function by(ratio, at) {
    const wanted = Math.min(Math.max(factor * ratio, 1), MOST);
    const next = wanted < USUAL ? 1 : wanted;
    if (next === factor) return;
    const { left, top, width, height } = scroller.getBoundingClientRect();
    const [x, y] = at ? [at.x - left, at.y - top] : [width / 2, height / 2];
    const [across, down] = [scroller.scrollLeft + x, scroller.scrollTop + y];
    const grows = next / factor;
    factor = next;
    changed();
    scroller.scrollLeft = across * grows - x;
    scroller.scrollTop = down * grows - y;
  }

  scroller.addEventListener(
    "wheel",
    (event) => {
      // Browsers give two fingers on a pad as a wheel with Ctrl.
      if (!event.ctrlKey) return;
      event.preventDefault();
      by(Math.exp(-event.deltaY * WHEEL), { x: event.clientX, y: event.clientY });
    },
    { passive: false },
  );
  scroller.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event)) return;
    if (event.key !== "+" && event.key !== "-") return;
    event.preventDefault();
    by(event.key === "+" ? STEP : 1 / STEP);
  });
  const apart = () => {
    const [one, other] = [...fingers.values()];
    return { far: Math.hypot(one.x - other.x, one.y - other.y), at: { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2 } };
  };
  scroller.addEventListener("pointerdown", ({ pointerType, pointerId, clientX, clientY }) => {
    if (pointerType === "touch") fingers.set(pointerId, { x: clientX, y: clientY });
  });
  scroller.addEventListener("pointermove", ({ pointerId, clientX, clientY }) => {
    if (!fingers.has(pointerId)) return;
    const before = fingers.size === 2 ? apart() : undefined;
    fingers.set(pointerId, { x: clientX, y: clientY });
    if (!before) return;
    const now = apart();
    if (before.far > 0) by(now.far / before.far, now.at);
  });
  for (const name of ["pointerup", "pointercancel"]) {
    scroller.addEventListener(name, (event) => fingers.delete(/** @type {PointerEvent} */ (event).pointerId));
  }

  /**
   * Follows what has changed about the size.
   * @param {boolean} wide whether the train is wider than its place
   * @param {number} height of both drawings at their usual size, in CSS pixels
   */
  function update(wide, height) {
    const near = factor > 1;
    node.hidden = !wide && !near;
    smaller.disabled = !near;
    larger.disabled = factor >= MOST;
    scroller.toggleAttribute("data-near", near);
    scroller.style.maxHeight = near ? `${height}px` : "";
  }

  return { node, update, factor: () => factor };
}

/** Whether a key goes into a field. @param {Event} event */
function isTyping(event) {
  return /** @type {HTMLElement} */ (event.composedPath()[0]).matches("input, textarea, select");
}
