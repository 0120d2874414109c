/** The file of the train, as text. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { doing } from "../edit/fields.js";
import { saveFile } from "../edit/form.js";
import { TrainText } from "../edit/text.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const text = new TrainText(desk, () => panel.open, signal);
  const save = doing(say("page-edit-save"), "save", () => saveFile(desk));
  const buttons = h("p", { class: "row" }, text.back, save);
  panel.fill(h("p", { class: "note" }, say("page-file-note")), ...text.nodes, buttons);
  panel.toggled(() => text.update());
}
