/** From which combination to which it is shifted: named ranges, or whatever was applied when it was chosen. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {"from" | "to"} End */

/** The values of options that are no ranges: what was taken from the stage, and to take it. */
const TAKEN = "";
const TAKE = " ";

export class TimedChoice {
  #desk;
  #changed;
  /** What was taken from the stage for each end. @type {Partial<Record<End, string[]>>} */
  #taken = {};
  /** @type {Record<End, HTMLSelectElement>} */
  #selects;

  /**
   * @param {Desk} desk
   * @param {() => void} changed called when something else is chosen
   */
  constructor(desk, changed) {
    this.#desk = desk;
    this.#changed = changed;
    const select = (/** @type {End} */ end) =>
      /** @type {HTMLSelectElement} */ (h("select", { id: `timed-${end}`, "data-part": `timed-${end}`, change: () => this.#choose(end) }));
    this.#selects = { from: select("from"), to: select("to") };
    const field = (/** @type {HTMLSelectElement} */ node, /** @type {string} */ name) =>
      h("div", { class: "control" }, h("label", { for: node.id }, name), h("span", { class: "select" }, node));
    this.nodes = [field(this.#selects.from, say("page-timed-from")), field(this.#selects.to, say("page-timed-to"))];
  }

  /** Offers what the train on the desk has; what is chosen stays where it can. */
  offer() {
    const { info, answer } = this.#desk;
    const known = new Set(info?.elements.map(({ id }) => id));
    for (const end of /** @type {End[]} */ (["from", "to"])) {
      if (this.#taken[end]?.some((id) => !known.has(id))) delete this.#taken[end];
    }
    const ranges = info?.ranges ?? [];
    const now = Math.max(ranges.findIndex(({ id }) => id === answer?.range), 0);
    const first = ranges[now + 1] ? now : Math.max(now - 1, 0);
    const usual = { from: ranges[first]?.id ?? TAKEN, to: ranges[first + 1]?.id ?? TAKEN };
    for (const end of /** @type {End[]} */ (["from", "to"])) {
      const select = this.#selects[end];
      const { value } = select;
      if (ranges.length < 2) this.#taken[end] ??= answer?.applied ?? [];
      this.#fill(end);
      const stays = [...select.options].some((option) => option.value === value && value !== TAKE);
      select.value = stays && value !== "" ? value : stays && this.#taken[end] ? TAKEN : usual[end];
    }
  }

  /** Goes back to what is usual for the train. */
  reset() {
    this.#taken = {};
    for (const select of Object.values(this.#selects)) select.replaceChildren();
    this.offer();
  }

  /**
   * What is applied at an end.
   * @param {End} end
   * @returns {string[]}
   */
  applied(end) {
    const range = this.#desk.info?.ranges.find(({ id }) => id === this.#selects[end].value);
    return range ? range.applied : (this.#taken[end] ?? []);
  }

  /** What an end is called. @param {End} end */
  label(end) {
    const select = this.#selects[end];
    return select.selectedOptions[0]?.textContent ?? "";
  }

  /** @param {End} end */
  #fill(end) {
    const ranges = this.#desk.info?.ranges ?? [];
    const options = ranges.map(({ id, label }) => h("option", { value: id }, label));
    const taken = this.#taken[end];
    if (taken) options.push(h("option", { value: TAKEN }, say("page-timed-taken", { elements: taken.join(" ") || say("page-combinations-none") })));
    options.push(h("option", { value: TAKE }, say("page-timed-take")));
    this.#selects[end].replaceChildren(...options);
  }

  /** @param {End} end */
  #choose(end) {
    const select = this.#selects[end];
    if (select.value === TAKE) {
      this.#taken[end] = [...(this.#desk.answer?.applied ?? [])];
      this.#fill(end);
      select.value = TAKEN;
    }
    this.#changed();
  }
}
