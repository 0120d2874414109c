/** One set seen along the axis, its gears turning at their true relative speeds. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { drawing } from "../stage/drawing.js";

/** The picture is square up to this height, in CSS pixels. */
const TALLEST = 360;

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const { canvas, holder, paint } = drawing(desk, "end", undefined, redraw, signal);
  const sets = /** @type {HTMLSelectElement} */ (h("select", { id: "end-set", change: choose }));
  panel.fill(
    h("p", { class: "filter" }, h("label", { for: "end-set" }, say("page-end-view-set")), h("span", { class: "select" }, sets)),
    holder,
  );

  function build() {
    sets.replaceChildren(
      ...(desk.info?.couplings ?? []).map(({ id, label }) => h("option", { value: id }, label)),
    );
    choose();
  }

  function choose() {
    const set = sets.selectedOptions[0]?.textContent ?? "";
    canvas.setAttribute("aria-label", say("page-drawing-end", { set }));
    redraw();
  }

  /** Whether the set that is chosen is one of the train that is open: another one may just have been opened. */
  const isThere = () => desk.info?.couplings.some(({ id }) => id === sets.value) ?? false;

  draws(() => panel.open && isThere() && paint(`end:${sets.value}`, (width) => Math.min(width, TALLEST)));
  panel.toggled(redraw);
  follow(desk, ["train"], build);
}
