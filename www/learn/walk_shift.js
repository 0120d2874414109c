/** The story of a shift from what is applied to a range: what happens, and the speeds before and after. */

import { h } from "../kit/dom.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { figure } from "./walk_steps.js";

/** @typedef {import("../engine/levertrain_whole.js").Shift} Shift */
/** @typedef {import("../state/desk.js").TrainInfo} TrainInfo */

export class Shifting {
  #ask;
  #light;
  /** @type {TrainInfo | undefined} */
  #info;
  #to = /** @type {HTMLSelectElement} */ (h("select", { id: "walk-shift-to", "data-part": "walk-shift-to", change: () => this.#tell() }));
  #story = h("ol", { class: "walk-story", "data-part": "walk-story" });
  #speeds;

  /**
   * @param {(to: string[]) => Shift | undefined} ask
   * @param {(shaft?: string) => void} light
   */
  constructor(ask, light) {
    this.#ask = ask;
    this.#light = light;
    const heads = ["page-shaft", "page-walk-before", "page-walk-after", "page-walk-difference", "page-walk-change"];
    this.#speeds = table(
      say("page-walk-speeds"),
      heads.map((key) => say(key)),
      [1, 2, 3],
    );
    this.node = h(
      "section",
      { "data-part": "walk-shift", "aria-labelledby": "walk-shift" },
      h("h3", { id: "walk-shift" }, say("page-walk-shift")),
      h("p", { class: "walk-to" }, h("label", { for: "walk-shift-to" }, say("page-walk-to")), h("span", { class: "select" }, this.#to)),
      this.#story,
      h("p", { class: "note" }, say("page-walk-per-turn")),
      h("div", { class: "scroll" }, this.#speeds.node),
    );
  }

  /**
   * Begins at another combination; the next range is offered first.
   * @param {TrainInfo} info
   * @param {string | null | undefined} range the one that is applied
   */
  show(info, range) {
    this.node.hidden = info.ranges.length === 0;
    this.#info = info;
    const at = info.ranges.findIndex(({ id }) => id === range);
    const next = info.ranges[at + 1] ?? info.ranges[at - 1] ?? info.ranges[0];
    this.#to.replaceChildren(...info.ranges.map(({ id, label }) => h("option", { value: id }, label)));
    if (next) this.#to.value = next.id;
    this.#tell();
  }

  /** The id of the range that is shifted to. */
  get to() {
    return this.#to.value;
  }

  set to(id) {
    this.#to.value = id;
    this.#tell();
  }

  #tell() {
    const to = this.#info?.ranges.find(({ id }) => id === this.#to.value);
    const shift = to && this.#ask(to.applied);
    this.#story.replaceChildren(...(shift?.steps ?? []).map(({ sentence }) => h("li", {}, sentence)));
    this.#speeds.body.replaceChildren(
      ...(shift?.shafts ?? []).map(({ id, label, before, after, difference, words }) => {
        const light = () => this.#light(id);
        return h(
          "tr",
          { "data-shaft-id": id, pointerenter: light, pointerleave: () => this.#light() },
          h("th", { scope: "row" }, label),
          figure(before),
          figure(after),
          figure(difference),
          h("td", {}, words),
        );
      }),
    );
  }
}
