/** Pulling a line from one thing in the half-section to another, by mouse, pen or finger. */

/** Movement in CSS pixels up to which a press is a press; fingers are less steady. */
const SLOP = { mouse: 3, pen: 4, touch: 8 };

/**
 * @typedef {object} Pull
 * @property {(x: number, y: number) => void} move in CSS pixels of the drawing
 * @property {(x: number, y: number) => void} drop
 * @property {() => void} end whether it was dropped or given up
 */

/**
 * Has a button be pulled; a press without movement stays an ordinary click.
 * @param {HTMLElement} button
 * @param {HTMLElement} ground what places are counted from
 * @param {() => Pull | undefined} begin what pulling it does
 */
export function makePullable(button, ground, begin) {
  /** @type {{ pointer: number, x: number, y: number, pull?: Pull } | undefined} */
  let held;
  let swallowClick = false;

  const place = (/** @type {PointerEvent} */ event) => {
    const { left, top } = ground.getBoundingClientRect();
    return /** @type {[number, number]} */ ([event.clientX - left, event.clientY - top]);
  };
  const escape = (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Escape" || !held?.pull) return;
    event.stopPropagation();
    finish();
  };

  button.addEventListener("pointerdown", (event) => {
    if (held || event.button !== 0) return;
    held = { pointer: event.pointerId, x: event.clientX, y: event.clientY };
    button.setPointerCapture(event.pointerId);
    addEventListener("keydown", escape, true);
  });
  button.addEventListener("pointermove", (event) => {
    if (event.pointerId !== held?.pointer) return;
    const slop = SLOP[/** @type {keyof typeof SLOP} */ (event.pointerType)] ?? SLOP.mouse;
    const far = Math.hypot(event.clientX - held.x, event.clientY - held.y) > slop;
    if (!held.pull && far) held.pull = begin();
    held.pull?.move(...place(event));
  });
  button.addEventListener("pointerup", (event) => {
    if (event.pointerId !== held?.pointer) return;
    const { pull } = held;
    finish();
    pull?.drop(...place(event));
  });
  // A finger that is lifted in full swing sets off a scroll of its own, which swallows the next tap.
  button.addEventListener("touchmove", (event) => event.preventDefault(), { passive: false });
  button.addEventListener("pointercancel", finish);
  button.addEventListener("lostpointercapture", finish);
  // Before the button's own click listener, so that a line is not also a press.
  button.addEventListener(
    "click",
    (event) => {
      if (swallowClick) event.stopImmediatePropagation();
      swallowClick = false;
    },
    true,
  );

  function finish() {
    if (!held) return;
    const { pull } = held;
    held = undefined;
    removeEventListener("keydown", escape, true);
    if (!pull) return;
    // The click that belongs to this release comes at once or never.
    swallowClick = true;
    setTimeout(() => (swallowClick = false));
    pull.end();
  }
}
