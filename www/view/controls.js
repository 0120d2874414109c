/** Input speed, turning, and how sets that share two shafts are drawn. */

import { h, icon } from "../dom.js";
import { follow } from "../desk.js";
import { MOST_SPEED } from "../format.js";

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
  const field = input("number", { ...limits, step: "any", id: "speed", change: type });
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
    { class: "controls", role: "group", "aria-label": "Input speed and turning" },
    h(
      "div",
      { class: "control speed" },
      h("label", { for: "speed" }, "Input speed"),
      slider,
      h("span", { class: "field" }, field, h("span", { class: "unit" }, "rev/min")),
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
    const speed = Number(field.value);
    if (field.value !== "" && speed >= 0 && speed <= MOST_SPEED) desk.setSpeed(speed);
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
    field.value = String(desk.speed);
    const turning = desk.look.rate > 0;
    play.replaceChildren(icon(turning ? "pause" : "play"), turning ? "Stop" : "Turn");
    play.disabled = desk.still;
    play.title = desk.still ? "Your system asks for no motion" : "";
    merged.checked = desk.look.merged;
  }
  follow(desk, ["speed", "look"], update);
  return node;
}

/**
 * @param {string} type
 * @param {Record<string, unknown>} attributes
 */
function input(type, attributes) {
  return /** @type {HTMLInputElement} */ (h("input", { type, ...attributes }));
}
