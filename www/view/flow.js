/** The power flow: a band for every stream of power, as wide as there is power in it. */

import { follow } from "../desk.js";
import { drawing } from "./drawing.js";
import { panel } from "./panel.js";

const DRAWING = "flow";

/**
 * @param {import("../desk.js").Desk} desk
 * @param {() => void} redraw
 * @param {AbortSignal} signal
 */
export function flow(desk, redraw, signal) {
  const { canvas, holder, paint } = drawing(desk, DRAWING, redraw, signal);
  const node = panel("Power flow", "flow", false, holder);
  node.classList.add("wide");

  function draw() {
    if (node.open) paint(DRAWING, (width) => desk.ask((sandbox) => sandbox.flowHeight(width)));
  }

  node.addEventListener("toggle", redraw);

  follow(desk, ["train"], () => {
    canvas.setAttribute("aria-label", `Power flow of ${desk.info?.name ?? ""}; the table of torque and power says the same`);
  });
  return { node, draw };
}
