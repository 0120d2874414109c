/** What a question is answered with: fields of the kind that it asks for. */

import { h } from "../kit/dom.js";
import { capital, say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../state/desk.js").Desk} Desk */

/**
 * @typedef {object} Fields
 * @property {Node[]} nodes
 * @property {() => string[]} answer what was picked or written
 * @property {(right: string[]) => void} show puts in what is right
 */

/**
 * @param {Question} question
 * @param {Desk} desk
 * @returns {Fields}
 */
export function answerFields(question, desk) {
  switch (question.by) {
    case "stage":
      return onStage(desk);
    case "order":
      return inOrder(question);
    case "number":
      return written([{ id: "0", label: say("page-exercise-number"), now: null }], "text");
    case "counts":
      return written(question.choices, "number");
    default:
      return picked(question, question.by === "one" ? "radio" : "checkbox");
  }
}

/** Applying clutches and brakes in the drawing. @param {Desk} desk @returns {Fields} */
function onStage(desk) {
  return {
    nodes: [h("p", { class: "note" }, say("page-exercise-on-stage"))],
    answer: () => desk.answer?.applied ?? [],
    show: (right) => desk.apply(right),
  };
}

/** @param {Question} question @param {"radio" | "checkbox"} type @returns {Fields} */
function picked({ choices, text }, type) {
  const boxes = choices.map(({ id }) => /** @type {HTMLInputElement} */ (h("input", { type, name: "exercise-choice", value: id })));
  const labels = choices.map(({ label }, at) => h("label", { class: "control check" }, boxes[at], h("span", {}, capital(label))));
  return {
    nodes: [h("div", { class: "exercise-choices", role: type === "radio" ? "radiogroup" : "group", "aria-label": text }, ...labels)],
    answer: () => boxes.filter(({ checked }) => checked).map(({ value }) => value),
    show: (right) => boxes.forEach((box) => (box.checked = right.includes(box.value))),
  };
}

/** @param {Question["choices"]} choices @param {"text" | "number"} type @returns {Fields} */
function written(choices, type) {
  const inputs = choices.map(({ id, now }) =>
    /** @type {HTMLInputElement} */ (h("input", { type, inputmode: type === "number" ? "numeric" : "text", "data-choice": id, value: now ?? "", maxlength: 40 })),
  );
  const rows = choices.map(({ label }, at) => h("label", { class: "exercise-line" }, h("span", {}, capital(label)), inputs[at]));
  return {
    nodes: [h("div", { class: "exercise-lines" }, ...rows)],
    answer: () => inputs.map(({ value }) => value),
    show: (right) => inputs.forEach((input, at) => (input.value = right[at] ?? "")),
  };
}

/** A list whose lines are moved up and down by buttons. @param {Question} question @returns {Fields} */
function inOrder({ choices, text }) {
  let order = choices.map(({ id }) => id);
  const list = h("ol", { class: "exercise-order", "aria-label": text });
  const labels = new Map(choices.map(({ id, label }) => [id, label]));

  /** @param {number} at @param {number} by @param {string} sign @param {string} message */
  const mover = (at, by, sign, message) => {
    const what = labels.get(order[at]) ?? "";
    const words = say(message, { what });
    const button = /** @type {HTMLButtonElement} */ (
      h("button", { class: "plain", type: "button", "aria-label": words, title: words, "data-move": `${order[at]} ${by}`, click: () => move(at, by) }, sign)
    );
    button.disabled = at + by < 0 || at + by >= order.length;
    return button;
  };

  /** @param {number} at @param {number} by */
  function move(at, by) {
    const [id] = order.splice(at, 1);
    order.splice(at + by, 0, id);
    build();
    const same = /** @type {HTMLButtonElement | null} */ (list.querySelector(`[data-move="${id} ${by}"]`));
    const other = /** @type {HTMLButtonElement | null} */ (list.querySelector(`[data-move="${id} ${-by}"]`));
    (same?.disabled ? other : same)?.focus();
  }

  function build() {
    const rows = order.map((id, at) =>
      h("li", { "data-choice": id }, h("span", {}, labels.get(id) ?? ""), mover(at, -1, "↑", "page-exercise-up"), mover(at, 1, "↓", "page-exercise-down")),
    );
    list.replaceChildren(...rows);
  }

  build();
  return {
    nodes: [list],
    answer: () => order,
    show: (right) => {
      order = [...right];
      build();
    },
  };
}
