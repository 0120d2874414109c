/** The power flow: a band for every stream of power, as wide as there is power in it. */

import { follow } from "../state/desk.js";
import { drawing } from "../stage/drawing.js";
import { panel } from "../kit/panel.js";

const DRAWING = "flow";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {() => void} redraw
 * @param {AbortSignal} signal
 */
export function flow(desk, redraw, signal) {
  const { canvas, holder, paint } = drawing(desk, DRAWING, ["answer", "light"], redraw, signal);
  const node = panel("Power flow", "flow", false, holder);
  node.classList.add("wide");

  /** The height that suits the width `measured`, which takes a look at every range. @type {number | undefined} */
  let height;
  let measured = 0;

  /** @param {number} width */
  function heightAt(width) {
    if (measured !== width) {
      measured = width;
      height = desk.ask((sandbox) => sandbox.flowHeight(width));
    }
    return height;
  }

  function draw() {
    if (node.open) paint(DRAWING, heightAt);
  }

  node.addEventListener("toggle", redraw);

  desk.addEventListener("answer", () => (measured = 0));
  follow(desk, ["train"], () => {
    canvas.setAttribute("aria-label", `Power flow of ${desk.info?.name ?? ""}; the table of torque and power says the same`);
  });
  return { node, draw };
}
