/** The power flow: a band for every stream of power, as wide as there is power in it. */

import { h } from "../dom.js";
import { follow } from "../desk.js";
import { panel } from "./panel.js";
import { resize } from "./stage.js";

const DRAWING = "flow";

/** Height of the picture as a share of its width, and its limits in CSS pixels. */
const SHAPE = { share: 0.45, least: 220, most: 380 };

/**
 * @param {import("../desk.js").Desk} desk
 * @param {() => void} redraw
 * @param {AbortSignal} signal
 */
export function flow(desk, redraw, signal) {
  const canvas = /** @type {HTMLCanvasElement} */ (h("canvas", { role: "img", "data-drawing": DRAWING }));
  const holder = h("div", { class: "end-holder" }, canvas);
  const node = panel("Power flow", "flow", false, holder);
  node.classList.add("wide");

  let width = 0;

  function draw() {
    if (!node.open || node.hidden || width === 0) return;
    const height = Math.min(Math.max(width * SHAPE.share, SHAPE.least), SHAPE.most);
    resize(canvas, width, height, desk.look.scale);
    desk.draw(DRAWING, canvas);
  }

  // The canvas follows with the next frame: see the end view.
  const observer = new ResizeObserver(([entry]) => {
    if (entry.contentRect.width === width) return;
    width = entry.contentRect.width;
    redraw();
  });
  observer.observe(holder);
  signal.addEventListener("abort", () => observer.disconnect());
  node.addEventListener("toggle", redraw);

  follow(desk, ["train"], () => {
    node.hidden = !isDrawn(desk);
    canvas.setAttribute("aria-label", `Power flow of ${desk.info?.name ?? ""}; the table of torque and power says the same`);
  });
  return { node, draw };
}

/**
 * Whether the engine knows the drawing.
 * @param {import("../desk.js").Desk} desk
 */
function isDrawn(desk) {
  try {
    return Boolean(desk.svg(DRAWING, SHAPE.most, SHAPE.least));
  } catch {
    return false;
  }
}
