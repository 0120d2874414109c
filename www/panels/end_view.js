/** One set seen along the axis, its gears turning at their true relative speeds. */

import { h } from "../kit/dom.js";
import { follow } from "../state/desk.js";
import { drawing } from "../stage/drawing.js";
import { panel } from "../kit/panel.js";

/** The picture is square up to this height, in CSS pixels. */
const TALLEST = 360;

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {() => void} redraw
 * @param {AbortSignal} signal
 */
export function endView(desk, redraw, signal) {
  const { canvas, holder, paint } = drawing(desk, "end", undefined, redraw, signal);
  const sets = /** @type {HTMLSelectElement} */ (h("select", { id: "end-set", change: choose }));
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

  function draw() {
    if (node.open && sets.value) paint(`end:${sets.value}`, (width) => Math.min(width, TALLEST));
  }

  node.addEventListener("toggle", redraw);

  follow(desk, ["train"], build);
  return { node, draw };
}
