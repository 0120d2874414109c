/** Input speed and torque, turning, and how sets that share two shafts are drawn. */

import { h, icon } from "../dom.js";
import { follow } from "../desk.js";
import { MOST_SPEED, MOST_TORQUE } from "../format.js";
import { WHOLE } from "../quantities.js";
import { forField, fromField, unitOf } from "../units.js";
import { unitChoice } from "./unit_choice.js";

/** Rates of turning as shares of the engine's full rate. */
const RATES = [
  { rate: 1, name: "Normal" },
  { rate: 0.4, name: "Slow" },
  { rate: 0.1, name: "Very slow" },
];

/** @param {import("../desk.js").Desk} desk */
export function controls(desk) {
  const limits = { min: 0, max: MOST_SPEED, step: 50 };
  const slider = input("range", { ...limits, "aria-label": "Input speed in rev/min", input: slide });
  const field = input("number", { min: 0, step: "any", id: "speed", change: type });
  const torque = input("number", { min: 0, step: "any", id: "torque", change: typeTorque });
  const merged = input("checkbox", { "data-part": "merged", change: merge });
  const rates = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      { id: "rate", "data-part": "rate", change: turn },
      ...RATES.map(({ rate, name }) => h("option", { value: rate }, name)),
    )
  );
  const play = h("button", {
    class: "plain play",
    type: "button",
    "data-part": "turning",
    click: () => turn(desk.look.rate === 0),
  });

  const node = h(
    "div",
    { class: "controls", role: "group", "aria-label": "Input and turning" },
    h(
      "div",
      { class: "control speed" },
      h("label", { for: "speed" }, "Input speed"),
      slider,
      h("span", { class: "field" }, field, unitChoice(desk, "speed")),
    ),
    h(
      "div",
      { class: "control" },
      h("label", { for: "torque" }, "Input torque"),
      h("span", { class: "field" }, torque, unitChoice(desk, "torque")),
    ),
    h(
      "div",
      { class: "control" },
      play,
      h("label", { class: "unseen", for: "rate" }, "How fast the drawings turn"),
      h("span", { class: "select" }, rates),
    ),
    h(
      "label",
      { class: "control check" },
      merged,
      h("span", {}, "Join sets that share two shafts in one lever"),
    ),
  );

  function slide() {
    desk.setSpeed(Number(slider.value));
  }

  function type() {
    const speed = fromField(field.value, unitOf(desk.units, "speed"));
    if (field.value !== "" && speed >= 0 && speed <= MOST_SPEED) desk.setSpeed(speed);
    else update();
  }

  function typeTorque() {
    const value = fromField(torque.value, unitOf(desk.units, "torque"));
    if (torque.value !== "" && value >= 0 && value <= MOST_TORQUE) desk.setTorque(value);
    else update();
  }

  function merge() {
    desk.setLook({ merged: merged.checked });
  }

  /** @param {unknown} on an event when the rate was chosen: turning goes on as it was */
  function turn(on) {
    const turning = typeof on === "boolean" ? on : desk.look.rate > 0;
    desk.setLook({ rate: turning ? Number(rates.value) : 0 });
  }

  function update() {
    slider.value = String(desk.speed);
    const units = { speed: unitOf(desk.units, "speed"), torque: unitOf(desk.units, "torque") };
    slider.setAttribute("aria-valuetext", desk.quantities.text("speed", WHOLE));
    field.value = forField(desk.speed, units.speed);
    field.max = forField(MOST_SPEED, units.speed);
    torque.value = forField(desk.torque, units.torque);
    torque.max = forField(MOST_TORQUE, units.torque);
    const turning = desk.look.rate > 0;
    play.replaceChildren(icon(turning ? "pause" : "play"), turning ? "Stop" : "Turn");
    play.disabled = desk.still;
    play.title = desk.still ? "Your system asks for no motion" : "";
    merged.checked = desk.look.merged;
  }
  follow(desk, ["speed", "torque", "units", "look"], update);
  return node;
}

/**
 * @param {string} type
 * @param {Record<string, unknown>} attributes
 */
function input(type, attributes) {
  return /** @type {HTMLInputElement} */ (h("input", { type, ...attributes }));
}
