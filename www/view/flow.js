/** The power flow: a band for every stream of power, as wide as there is power in it. */

import { h } from "../dom.js";
import { follow } from "../desk.js";
import { panel } from "./panel.js";
import { resize } from "./stage.js";

const DRAWING = "flow";

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
    if (!node.open || width === 0) return;
    const height = desk.ask((sandbox) => sandbox.flowHeight(width));
    if (height === undefined) return;
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
    canvas.setAttribute("aria-label", `Power flow of ${desk.info?.name ?? ""}; the table of torque and power says the same`);
  });
  return { node, draw };
}
