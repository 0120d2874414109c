/** Shifts as swaps of elements: drawn, between the named ranges, and the ranges that the train could have. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { ShiftChains } from "./shifts_chains.js";
import { ShiftDrawing } from "./shifts_drawing.js";
import { ShiftSearch } from "./shifts_search.js";
import { ShiftTable } from "./shifts_table.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const search = new ShiftSearch(desk);
  const picture = new ShiftDrawing(desk, search, redraw, signal);
  const shifts = new ShiftTable(desk, signal);
  const chains = new ShiftChains(
    desk,
    ({ least, most, ranges }) => search.ask((graph) => graph.chains(least, most, ranges)),
    (nodes) => picture.mark(nodes),
    signal,
  );
  const count = h("p", { class: "note", role: "status", "data-part": "shifts-count" });
  const progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-shifts-progress"), hidden: true }));
  const found = h(
    "div",
    { class: "shifts", hidden: true },
    picture.node,
    h("p", { class: "note" }, say("page-shifts-note")),
    h("div", { class: "shifts-tables" }, shifts.node, chains.node),
  );
  panel.fill(progress, count, found);

  /** The text of the train that is shown. @type {string | undefined} */
  let shown;

  /** Shows the train on the desk while the panel is unfolded. */
  async function build() {
    if (!panel.open || !desk.isWhole || !desk.info) {
      search.rest();
      return;
    }
    const { text } = desk;
    const known = search.ask((graph) => graph.shifts());
    if (shown === text && known) return;
    const complete = await search.complete((part) => {
      progress.hidden = false;
      progress.value = part;
    });
    if (!complete || desk.text !== text) return;
    progress.hidden = true;
    const list = search.ask((graph) => graph.shifts());
    if (!list) return;
    shown = text;
    found.hidden = false;
    count.textContent = say("page-shifts-count", { count: list.combinations });
    picture.describe();
    shifts.show(list);
    chains.find();
  }

  const begin = () => void build().catch((error) => desk.report(error));
  draws(() => panel.open && !found.hidden && picture.draw());
  panel.toggled(begin);
  follow(desk, ["answer", "lock", "veil"], () => picture.update());
  follow(desk, ["train", "whole"], begin);
  signal.addEventListener("abort", () => search.free());
}
