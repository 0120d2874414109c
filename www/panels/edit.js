/** Changing the train: its form, and the way back. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { trainForm } from "../edit/form.js";
import { OnDrawing } from "../edit/on_drawing.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, files, section }) {
  const { nodes, update } = trainForm(desk, () => panel.open, files);
  panel.fill(...nodes, h("p", { class: "note" }, say("page-edit-note")));
  const onDrawing = new OnDrawing(desk, section, makeRange);
  onDrawing.show(panel.open);
  panel.toggled(() => {
    update();
    onDrawing.show(panel.open);
  });
  panel.node.addEventListener("keydown", (event) => {
    // Letter by letter the train follows what is typed: its way back is that of the fields too.
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const back = event.key === "z" && !event.shiftKey;
    const again = event.key === "y" || (event.key.toLowerCase() === "z" && event.shiftKey);
    if (!back && !again) return;
    event.preventDefault();
    if (back) desk.undo();
    else desk.redo();
  });

  /** Makes a range of what is applied; its name comes next where its field is beside the drawing. */
  function makeRange() {
    const add = /** @type {HTMLElement | null} */ (panel.node.querySelector("[data-key='add range']"));
    if (panel.node.getBoundingClientRect().top < innerHeight / 2) add?.click();
    else desk.edit({ edit: "add-range", label: "", applied: desk.answer?.applied ?? [] });
  }
}
