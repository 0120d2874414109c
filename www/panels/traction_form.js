/** What is asked of a train on the road: when it shifts, where its converter is locked up, and which slopes are drawn. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { forField, fromField, unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./traction_road.js").RoadAsk} RoadAsk */

/** Slopes that can be drawn, in percent, and those that are at first. */
const SLOPES = [5, 10, 15, 20, 30, 50];
const DRAWN = [5, 10, 20];
const PERCENT = 100;
/** Part of the engine's last speed that is offered to shift at. */
const USUAL = 0.85;

export class TractionForm {
  #desk;
  #changed;
  #rule = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      { id: "traction-rule", change: () => this.#tell() },
      h("option", { value: "force" }, say("page-traction-by-force")),
      h("option", { value: "speed" }, say("page-traction-by-speed")),
    )
  );
  #speed = decimalField({ id: "traction-speed", min: 0, change: () => this.#type() });
  #unit = h("span", {});
  #bySpeed = h("p", { class: "find-field", hidden: true }, h("label", { for: "traction-speed" }, say("page-traction-shift-speed")), h("span", { class: "find-between" }, this.#speed, this.#unit));
  #lockup = /** @type {HTMLSelectElement} */ (h("select", { id: "traction-lockup", change: () => this.#tell() }));
  #locked = h("p", { class: "find-field" }, h("label", { for: "traction-lockup" }, say("page-traction-lockup")), h("span", { class: "select" }, this.#lockup));
  #slopes = SLOPES.map((slope) => {
    const field = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", value: slope, checked: DRAWN.includes(slope), change: () => this.#tell() }));
    return { slope, field, node: h("label", { class: "check find-choice" }, field, h("span", {}, say("diagram-traction-slope", { slope: String(slope) }))) };
  });
  /** The engine speed in rev/min, kept through other units. @type {number | undefined} */
  #wanted;

  /**
   * @param {Desk} desk
   * @param {(asked: RoadAsk) => void} changed
   */
  constructor(desk, changed) {
    this.#desk = desk;
    this.#changed = changed;
    this.node = h(
      "div",
      { class: "find-fields traction-ask" },
      h("p", { class: "find-field" }, h("label", { for: "traction-rule" }, say("page-traction-rule")), h("span", { class: "select" }, this.#rule)),
      this.#bySpeed,
      this.#locked,
      h("fieldset", { class: "find-group" }, h("legend", {}, say("page-traction-slopes")), ...this.#slopes.map(({ node }) => node)),
    );
  }

  /** Takes what was typed; what is no number is asked as it is, and refused. */
  #type() {
    this.#wanted = fromField(typedIn(this.#speed), unitOf(this.#desk.units, "speed"));
    this.#tell();
  }

  /**
   * Offers what the train has: the lock-up where there is a converter, from each forward range on.
   * @param {string[]} forward labels of the forward ranges, by falling ratio
   * @param {[number, number]} engine its lowest and last speed in rev/min
   */
  offer(forward, [least, most]) {
    const before = this.#lockup.value;
    const options = forward.map((label, at) => h("option", { value: at }, say("page-traction-locked-from", { range: label })));
    this.#lockup.replaceChildren(h("option", { value: "" }, say("page-traction-open")), ...options);
    this.#lockup.value = before !== "" && Number(before) < forward.length ? before : "";
    this.#locked.hidden = !this.#desk.info?.converter;
    if (this.#wanted === undefined || this.#wanted <= least || this.#wanted > most) this.#wanted = Math.round(most * USUAL);
    this.letter();
  }

  /** Letters the engine speed in the page's unit. */
  letter() {
    const unit = unitOf(this.#desk.units, "speed");
    this.#unit.textContent = unit.name;
    if (this.#wanted !== undefined) putIn(this.#speed, forField(this.#wanted, unit));
  }

  #tell() {
    this.#bySpeed.hidden = this.#rule.value === "force";
    this.#changed(this.asked());
  }

  /** @returns {RoadAsk} */
  asked() {
    const locked = this.#lockup.value;
    return {
      lockedFrom: locked === "" || this.#locked.hidden ? undefined : Number(locked),
      shiftSpeed: this.#rule.value === "force" ? undefined : this.#wanted,
      slopes: this.#slopes.filter(({ field }) => field.checked).map(({ slope }) => slope / PERCENT),
    };
  }
}
