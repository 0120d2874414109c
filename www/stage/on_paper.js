/** Drawings and lines on a sheet of paper. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** Pixels of a drawing to one of the page: enough for print. */
const FINE = 3;
/** What drawings are laid out for, in CSS pixels: the width of a sheet. */
export const WIDTH = 720;

/**
 * A drawing of a train, as wide as the sheet.
 * @param {import("../state/engine.js").WholeEngine} engine
 * @param {import("../engine/levertrain.js").Sandbox} sandbox
 * @param {"section" | "lever"} drawing
 * @param {number} width
 * @param {number} height
 */
export function figure(engine, sandbox, drawing, width, height) {
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(width * FINE);
  canvas.height = Math.round(height * FINE);
  engine.drawPicture(sandbox, drawing, canvas, FINE, false);
  const node = h("div", { class: "worksheet-figure" }, canvas);
  node.style.setProperty("--tall", String(height / width));
  return node;
}

/** Where name and date are written. */
export function nameLine() {
  const line = (/** @type {string} */ name) => h("span", { class: "line" }, name, h("span", { class: "blank" }));
  return h("p", { class: "lines" }, line(say("page-worksheet-name")), line(say("page-worksheet-date")));
}
