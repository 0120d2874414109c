/** Input speed and torque, the rate of turning, and how sets that share two shafts are drawn. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { MOST_SPEED, MOST_TORQUE, NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { WHOLE } from "../state/quantities.js";
import { forField, fromField, unitOf } from "../state/units.js";
import { unitChoice } from "./unit_choice.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {HTMLElement} rate chooses how fast the drawings turn
 */
export function controls(desk, rate) {
  const limits = { min: 0, max: MOST_SPEED, step: 50 };
  const slider = input("range", { ...limits, "aria-label": say("page-input-speed"), input: slide });
  const speed = amountField(desk, "speed", MOST_SPEED, (value) => desk.setSpeed(value));
  const torque = amountField(desk, "torque", MOST_TORQUE, (value) => desk.setTorque(value));
  const merged = input("checkbox", { "data-part": "merged", change: merge });
  const oneModule = input("checkbox", { "data-part": "one-module", change: scale });
  const apart = h("span", { class: "note" }, ` ${say("page-joined-none")}`);

  const node = h(
    "div",
    { class: "controls", part: "controls", role: "group", "aria-label": say("page-controls") },
    lockable(
      desk,
      "settings",
      h("div", { class: "control speed" }, h("label", { for: "speed" }, say("page-input-speed")), slider, ...speed.nodes),
      h("div", { class: "control" }, h("label", { for: "torque" }, say("page-input-torque")), ...torque.nodes),
    ),
    rate,
    lockable(
      desk,
      "settings",
      h("label", { class: "control check" }, merged, h("span", {}, say("page-joined"), apart)),
      h("label", { class: "control check" }, oneModule, h("span", {}, say("page-one-scale"))),
    ),
  );

  function slide() {
    desk.setSpeed(Number(slider.value));
  }

  function merge() {
    desk.setLook({ merged: merged.checked });
  }

  function scale() {
    desk.setLook({ one_module: oneModule.checked });
  }

  function update() {
    slider.value = String(desk.speed);
    slider.setAttribute("aria-label", say("page-input-speed-in", { unit: desk.quantities.unit("speed") }));
    slider.setAttribute("aria-valuetext", desk.quantities.text("speed", WHOLE));
    speed.show(desk.speed);
    torque.show(desk.torque);
    const joinable = desk.info?.joinable ?? false;
    oneModule.checked = desk.look.one_module;
    merged.disabled = !joinable;
    merged.checked = desk.look.merged && joinable;
    apart.hidden = joinable;
  }
  follow(desk, ["train", "speed", "torque", "units", "look"], update);
  return node;
}

/**
 * A field for the input speed or torque. What is out of range becomes the nearest limit, and a note
 * says so until something that fits is typed.
 * @param {import("../state/desk.js").Desk} desk
 * @param {"speed" | "torque"} quantity
 * @param {number} most in the inner unit
 * @param {(value: number) => void} set
 */
function amountField(desk, quantity, most, set) {
  const limits = h("span", { class: "unseen", id: `${quantity}-limits` });
  const note = h("span", { class: "note", role: "status", "data-part": `${quantity}-note` });
  const field = decimalField({
    min: 0,
    id: quantity,
    "aria-describedby": limits.id,
    change: type,
  });
  const unit = () => unitOf(desk.units, quantity);
  const range = () => say("page-up-to", { most: `${number(most / unit().size)}${NO_BREAK}${unit().name}` });

  function type() {
    const typed = typedIn(field);
    const value = fromField(typed, unit());
    const bad = typed === "" || !Number.isFinite(value);
    const kept = bad ? desk[quantity] : Math.min(Math.max(value, 0), most);
    set(kept);
    // The limit itself, rounded as it is shown, is in range.
    const fits = !bad && Number(forField(kept, unit())) === Number(typed);
    const outside = !bad && kept !== value && !fits;
    if (bad) note.textContent = say("page-not-number", { range: range() });
    else note.textContent = outside ? say("page-allowed", { range: range() }) : "";
  }

  /** @param {number} value */
  function show(value) {
    putIn(field, forField(value, unit()));
    field.max = forField(most, unit());
    limits.textContent = range();
    note.textContent = "";
  }
  return { show, nodes: [h("span", { class: "field" }, field, unitChoice(desk, quantity)), limits, note] };
}

/**
 * @param {string} type
 * @param {Record<string, unknown>} attributes
 */
function input(type, attributes) {
  return /** @type {HTMLInputElement} */ (h("input", { type, ...attributes }));
}
