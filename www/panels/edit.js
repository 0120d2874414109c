/** Changing the train: its form, and the way back. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { trainForm } from "../edit/form.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, openText }) {
  const { nodes, update } = trainForm(desk, () => panel.open, openText);
  panel.fill(...nodes, h("p", { class: "note" }, say("page-edit-note")));
  panel.toggled(update);
}
