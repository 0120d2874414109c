/** Changing the train: its form, and the way back. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { trainForm } from "../edit/form.js";
import { OnDrawing } from "../edit/on_drawing.js";
import { takeSteps } from "../edit/steps.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, files, section, keys, signal }) {
  const { nodes, update } = trainForm(desk, () => panel.open, files);
  panel.fill(...nodes, h("p", { class: "note" }, say("page-edit-note")));
  const onDrawing = new OnDrawing(desk, section, makeRange);
  onDrawing.show(panel.open);
  panel.toggled(() => {
    update();
    onDrawing.show(panel.open);
  });
  // Letter by letter the train follows what is typed: its way back is that of the fields too.
  const owns = (/** @type {Node} */ node) => panel.node.contains(node) || onDrawing.owns(node);
  const steps = { active: () => panel.open, back: () => desk.undo(), again: () => desk.redo() };
  takeSteps(keys, owns, steps, signal);

  /** Makes a range of what is applied; its name comes next where its field is beside the drawing. */
  function makeRange() {
    const add = /** @type {HTMLElement | null} */ (panel.node.querySelector("[data-key='add range']"));
    if (panel.node.getBoundingClientRect().top < innerHeight / 2) add?.click();
    else desk.edit({ edit: "add-range", label: "", applied: desk.answer?.applied ?? [] });
  }
}
