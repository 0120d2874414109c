/**
 * The stage: the half-section drawing with its switches, the lever diagram right under it, on one
 * axis and in one width. Where a train needs more width than there is, both scroll as one.
 */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { handles } from "./handles.js";

/** @typedef {import("../state/desk.js").Desk} Desk */

/** Name of the measurement of a drag: script time from the pointer event to finished drawings. */
const DRAG_MEASURE = "levertrain-drag";

/** The browser never forgets a measurement by itself. */
const MEASURES_KEPT = 1000;

/** Canvas pixels to a CSS pixel, at least, so that fine lines stay fine on any screen. */
const LEAST_SCALE = 2;
/** More cannot be seen, and the engine refuses it. */
const MOST_SCALE = 8;

/**
 * @param {Desk} desk
 * @param {{ drawn(): void, redraw(): void, alsoDraw(): void }} page what to do after each drawing,
 *   how to ask for one, and what else is drawn in the same frame
 * @param {AbortSignal} signal
 */
export function stage(desk, page, signal) {
  const section = canvas("section");
  const lever = canvas("lever");
  const switches = handles(desk, drawNow);
  const sheet = h(
    "div",
    { class: "sheet" },
    h("div", { class: "section" }, section, switches.node),
    lever,
  );
  const scroller = h("div", { class: "stage", part: "stage", "data-part": "stage", role: "group" }, sheet);

  /** Fits both drawings to the width there is. */
  function fit() {
    const available = scroller.clientWidth;
    if (!desk.info || available === 0) return;
    const scale = Math.min(Math.max(LEAST_SCALE, devicePixelRatio), MOST_SCALE);
    if (scale !== desk.look.scale) desk.setLook({ scale });
    const size = desk.fit(available);
    if (!size) return;
    sheet.style.width = `${size.width}px`;
    // On paper both keep their shape in whatever room there is.
    sheet.style.setProperty("--tall", String((size.sectionHeight + size.leverHeight) / size.width));
    resize(section, size.width, size.sectionHeight, scale);
    resize(lever, size.width, size.leverHeight, scale);
    const scrolls = size.width > available + 1;
    if (scrolls) scroller.tabIndex = 0;
    else scroller.removeAttribute("tabindex");
    scroller.setAttribute("aria-label", scrolls ? "Drawings; they scroll sideways" : "Drawings");
    switches.place();
    draw();
  }

  function draw() {
    if (!desk.info) return;
    desk.draw("section", section);
    desk.draw("lever", lever);
    page.alsoDraw();
    page.drawn();
  }

  /**
   * Draws in the handling of the event itself, not in a later frame.
   * @param {Event} event
   */
  function drawNow(event) {
    // While a pack is on its way only the half-section changes.
    if (desk.preview && desk.preview === previewed) {
      desk.draw("section", section);
      page.drawn();
    } else {
      draw();
      page.redraw();
    }
    previewed = desk.preview;
    const start = Math.max(event.timeStamp, handlingSince);
    measured += 1;
    if (measured % MEASURES_KEPT === 0) performance.clearMeasures(DRAG_MEASURE);
    performance.measure(DRAG_MEASURE, { start, end: performance.now() });
  }

  let measured = 0;
  /** @type {import("../state/desk.js").Preview | undefined} */
  let previewed;
  // An event may have waited in the queue; script time starts when its handling does.
  let handlingSince = 0;
  for (const name of ["pointermove", "pointerup", "click"]) {
    switches.node.addEventListener(name, () => (handlingSince = performance.now()), true);
  }

  for (const [drawing, node] of /** @type {const} */ ([["section", section], ["lever", lever]])) {
    const point = (/** @type {PointerEvent} */ event) => {
      desk.light(desk.shaftAt(drawing, event.offsetX, event.offsetY));
    };
    node.addEventListener("pointermove", point);
    node.addEventListener("pointerdown", point);
    // A finger that is lifted leaves what it pointed at lit.
    node.addEventListener("pointerleave", (event) => {
      if (event.pointerType !== "touch") desk.light(undefined);
    });
  }

  // Moved to another screen, or zoomed, the canvases need other pixels in the same size.
  function watchScale() {
    const screen = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    screen.addEventListener(
      "change",
      () => {
        fit();
        watchScale();
      },
      { once: true, signal },
    );
  }
  watchScale();

  const observer = new ResizeObserver(fit);
  observer.observe(scroller);
  signal.addEventListener("abort", () => observer.disconnect());

  function describe() {
    const name = desk.info?.name ?? "";
    const caution = desk.info?.caution;
    section.setAttribute("aria-label", `Half-section drawing of ${name}${caution ? `. ${caution}` : ""}`);
    lever.setAttribute("aria-label", `Lever diagram of ${name}; the table of members says the same`);
    fit();
  }
  follow(desk, ["train"], describe);
  return { node: scroller, draw, fit };
}

/** @param {string} drawing */
function canvas(drawing) {
  const node = h("canvas", { role: "img", "data-drawing": drawing });
  return /** @type {HTMLCanvasElement} */ (/** @type {unknown} */ (node));
}

/**
 * Gives a canvas its size on the page and its pixels; setting them clears it, so only on a change.
 * @param {HTMLCanvasElement} canvas
 * @param {number} width CSS pixels
 * @param {number} height CSS pixels
 * @param {number} scale
 */
export function resize(canvas, width, height, scale) {
  const [across, down] = [Math.round(width * scale), Math.round(height * scale)];
  canvas.style.width = `${width}px`;
  canvas.style.height = `${height}px`;
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
}
