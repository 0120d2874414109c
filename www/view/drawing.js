/** A drawing in a panel: a canvas as wide as there is room, painted in the frames of the stage. */

import { h } from "../dom.js";
import { resize } from "./stage.js";

/**
 * @param {import("../desk.js").Desk} desk
 * @param {string} name what the page knows the canvas by
 * @param {() => void} changed told when there is another width, which takes another painting
 * @param {AbortSignal} signal
 */
export function drawing(desk, name, changed, signal) {
  const canvas = /** @type {HTMLCanvasElement} */ (h("canvas", { role: "img", "data-drawing": name }));
  const holder = h("div", { class: "drawing-holder" }, canvas);
  let width = 0;

  // The canvas follows with the next frame: changed here, it would have the observer called again
  // in the same one, which browsers report as an error.
  const observer = new ResizeObserver(([entry]) => {
    if (entry.contentRect.width === width) return;
    width = entry.contentRect.width;
    changed();
  });
  observer.observe(holder);
  signal.addEventListener("abort", () => observer.disconnect());

  /**
   * Paints the canvas, unless it has never had a width.
   * @param {string} subject what the engine knows the drawing by
   * @param {(width: number) => number | undefined} heightAt height in CSS pixels at a width
   */
  function paint(subject, heightAt) {
    const height = width > 0 ? heightAt(width) : undefined;
    if (height === undefined) return;
    resize(canvas, width, height, desk.look.scale);
    desk.draw(subject, canvas);
  }

  return { canvas, holder, paint };
}
