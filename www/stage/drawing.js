/** A drawing in a panel: a canvas as wide as there is room, painted by the whole engine in the frames of the stage. */

import { h } from "../kit/dom.js";
import { growthIn } from "./growth.js";
import { resize } from "./stage.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {string} name what the page knows the canvas by
 * @param {string[] | undefined} events of the desk, after which it is another picture; none where
 *   something in it moves, so that every frame is
 * @param {() => void} redraw asks for a frame
 * @param {AbortSignal} signal
 */
export function drawing(desk, name, events, redraw, signal) {
  const canvas = /** @type {HTMLCanvasElement} */ (h("canvas", { role: "img", "data-drawing": name }));
  const holder = h("div", { class: "drawing-holder" }, canvas);
  let width = 0;
  /** Whether what is painted no longer holds. */
  let stale = true;

  function changed() {
    stale = true;
    redraw();
  }

  // The canvas follows with the next frame: changed here, it would have the observer called again
  // in the same one, which browsers report as an error.
  const observer = new ResizeObserver(([entry]) => {
    if (entry.contentRect.width === width) return;
    width = entry.contentRect.width;
    changed();
  });
  observer.observe(holder);
  signal.addEventListener("abort", () => observer.disconnect());
  for (const event of events ? [...events, "look", "whole"] : []) desk.addEventListener(event, changed);

  /**
   * Paints the canvas, unless it has no width yet or is up to date.
   * @param {string} subject what the engine knows the drawing by
   * @param {(width: number) => number | undefined} heightAt the height it is drawn for at a width
   * @param {(canvas: HTMLCanvasElement) => void} [draw] how it is drawn, where the sandbox alone does not know
   */
  function paint(subject, heightAt, draw) {
    if (width === 0 || !desk.isWhole || (events && !stale)) return;
    const growth = growthIn(holder);
    const across = width / growth;
    const height = heightAt(across);
    if (height === undefined) return;
    stale = false;
    canvas.dataset.subject = subject;
    resize(canvas, across, height, desk.look.scale, growth);
    if (draw) draw(canvas);
    else desk.askWhole((engine, sandbox) => engine.drawPanel(sandbox, subject, canvas));
  }

  return { canvas, holder, paint, changed };
}
