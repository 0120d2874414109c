/** Dragging a plate pack: from pointer movements to a closure from 0 (open) to 1 (applied). */

/** @typedef {import("../engine/levertrain.js").Handle} Handle */

/** Movement in CSS pixels up to which a press is a press; fingers are less steady. */
const SLOP = { mouse: 3, pen: 4, touch: 6 };

/** Past this share of the way, letting go changes the element over. */
const HALF = 0.5;

/**
 * @typedef {object} DragTarget
 * @property {() => Handle} handle where the pack is now
 * @property {() => boolean} applied whether it is applied
 * @property {(closure: number, event: Event) => void} move
 * @property {(change: boolean, event: Event) => void} end
 */

/**
 * Makes a button draggable; a press without movement stays an ordinary click.
 * @param {HTMLElement} button
 * @param {DragTarget} target
 */
export function makeDraggable(button, target) {
  /** @type {{ pointer: number, x: number, y: number, start: number, closure: number, moved: boolean, givenUp: boolean } | null} */
  let drag = null;
  let swallowClick = false;

  const escape = (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Escape" || !drag || drag.givenUp) return;
    event.stopPropagation();
    // The pointer is still down: what it does until it is up is nobody's wish.
    drag.givenUp = true;
    if (drag.moved) target.end(false, event);
  };

  button.addEventListener("pointerdown", (event) => {
    if (drag || event.button !== 0) return;
    const start = target.applied() ? 1 : 0;
    drag = {
      pointer: event.pointerId,
      x: event.clientX,
      y: event.clientY,
      start,
      closure: start,
      moved: false,
      givenUp: false,
    };
    button.setPointerCapture(event.pointerId);
    addEventListener("keydown", escape, true);
  });

  button.addEventListener("pointermove", (event) => {
    if (!drag || drag.givenUp || event.pointerId !== drag.pointer) return;
    const [dx, dy] = [event.clientX - drag.x, event.clientY - drag.y];
    const slop = SLOP[/** @type {keyof typeof SLOP} */ (event.pointerType)] ?? SLOP.mouse;
    if (!drag.moved && Math.hypot(dx, dy) <= slop) return;
    drag.moved = true;
    drag.closure = closure(target.handle(), drag.start, dx, dy);
    target.move(drag.closure, event);
  });

  button.addEventListener("pointerup", (event) => {
    if (!drag || event.pointerId !== drag.pointer) return;
    finish(Math.abs(drag.closure - drag.start) > HALF, event);
  });
  button.addEventListener("pointercancel", (event) => finish(false, event));
  button.addEventListener("lostpointercapture", (event) => finish(false, event));

  // Before the button's own click listener, so that a drag is not also a press.
  button.addEventListener(
    "click",
    (event) => {
      if (swallowClick) event.stopImmediatePropagation();
      swallowClick = false;
    },
    true,
  );

  /**
   * @param {boolean} change
   * @param {Event} event
   */
  function finish(change, event) {
    if (!drag) return;
    const { moved, givenUp } = drag;
    drag = null;
    removeEventListener("keydown", escape, true);
    if (!moved && !givenUp) return;
    // The click that belongs to this release comes at once or never.
    swallowClick = true;
    setTimeout(() => (swallowClick = false));
    if (!givenUp) target.end(change, event);
  }
}

/**
 * How far a pack is closed after a movement from where it was fully open or fully closed.
 * @param {Handle} handle
 * @param {number} start 0 or 1
 * @param {number} dx
 * @param {number} dy
 */
function closure({ closes, bothWays, travel }, start, dx, dy) {
  const along = (dx * closes[0] + dy * closes[1]) / travel;
  const way = bothWays ? Math.abs(along) * (start === 0 ? 1 : -1) : along;
  return Math.min(Math.max(start + way, 0), 1);
}
