/** One set seen along the axis, its gears turning at their true relative speeds. */

import { h } from "../dom.js";
import { follow } from "../desk.js";
import { panel } from "./panel.js";
import { resize } from "./stage.js";

/** The picture is square up to this height, in CSS pixels. */
const TALLEST = 360;

/**
 * @param {import("../desk.js").Desk} desk
 * @param {() => void} redraw
 * @param {AbortSignal} signal
 */
export function endView(desk, redraw, signal) {
  const canvas = /** @type {HTMLCanvasElement} */ (h("canvas", { role: "img", "data-drawing": "end" }));
  const sets = /** @type {HTMLSelectElement} */ (h("select", { id: "end-set", change: choose }));
  const holder = h("div", { class: "end-holder" }, canvas);
  const node = panel(
    "End view",
    "end-view",
    false,
    h("p", { class: "filter" }, h("label", { for: "end-set" }, "Seen from the input"), h("span", { class: "select" }, sets)),
    holder,
  );

  function build() {
    sets.replaceChildren(
      ...(desk.info?.couplings ?? []).map(({ id, label }) => h("option", { value: id }, label)),
    );
    choose();
  }

  function choose() {
    const label = sets.selectedOptions[0]?.textContent ?? "";
    canvas.setAttribute("aria-label", `${label} seen along the axis`);
    redraw();
  }

  let width = 0;

  function draw() {
    if (!node.open || !sets.value || width === 0) return;
    resize(canvas, width, Math.min(width, TALLEST), desk.look.scale);
    desk.draw(`end:${sets.value}`, canvas);
  }

  // The canvas follows with the next frame: changed here, it would have the observer called again
  // in the same one, which browsers report as an error.
  const observer = new ResizeObserver(([entry]) => {
    if (entry.contentRect.width === width) return;
    width = entry.contentRect.width;
    redraw();
  });
  observer.observe(holder);
  signal.addEventListener("abort", () => observer.disconnect());
  node.addEventListener("toggle", redraw);

  follow(desk, ["train"], build);
  return { node, draw };
}
