/** What tasks are called, and lists to choose their parts from. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { capital, listed, say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../state/desk.js").Desk} Desk */

/** What members of a set may be asked for. */
export const PARTS = /** @type {const} */ (["held", "driving", "driven"]);

/** What each kind lets one choose. @type {Record<import("../engine/levertrain_whole.js").TaskKind, ("range" | "set" | "shaft" | "part")[]>} */
export const CHOSEN = {
  reach: [],
  members: ["range", "set", "part"],
  direction: ["range", "shaft"],
  speed: ["range", "shaft"],
  neutral: [],
  "tie-up": [],
  order: [],
  teeth: [],
  failed: [],
};

/** A question in a line. @param {Question} question */
export function taskWords({ given, text }) {
  return given ? `${given} ${text}` : text;
}

/** The same where questions stand under one another: what is put in order tells two of them apart. @param {Question} question */
export function lineWords(question) {
  const words = taskWords(question);
  return question.by === "order" ? `${words} ${listed(question.choices.map(({ label }) => label))}` : words;
}

/**
 * An answer in a line.
 * @param {Desk} desk
 * @param {Question} question
 * @param {string[]} answer
 */
export function answerWords(desk, { by, choices }, answer) {
  const label = (/** @type {string} */ id) => choices.find((choice) => choice.id === id)?.label ?? id;
  switch (by) {
    case "stage":
      return listed(answer.map((id) => desk.elementLabel(id)));
    case "number":
      return decimal(answer[0]);
    case "counts":
      return listed(choices.map(({ label }, at) => `${capital(label)} ${answer[at]}`));
    case "order":
      return answer.map(label).join(" → ");
    default:
      return listed(answer.map((id) => capital(label(id))));
  }
}

/** A number as a fraction has it, and to four figures where that is another. @param {string} exact */
export function decimal(exact) {
  const [above, below = "1"] = exact.split("/");
  const plain = number(Number(above) / Number(below));
  const text = exact.replace("-", "−");
  return below === "1" ? text : say("page-handout-number", { plain, exact: text });
}

/** A number of points or a share, to a hundredth where that says more. @param {number} value */
export function hundredths(value) {
  const rounded = Math.round(100 * value) / 100;
  // The zero before the decimals counts.
  return number(rounded, String(rounded).replace(/\D/g, "").length);
}

/** @param {Desk} desk @returns {[string, string][]} */
export function rangeOptions({ info }) {
  return info?.ranges.map(({ id, label }) => [id, label]) ?? [];
}

/**
 * A list to choose from, with its name before it.
 * @param {string} id
 * @param {string} name
 * @param {() => void} [change]
 */
export function choice(id, name, change) {
  const select = /** @type {HTMLSelectElement} */ (h("select", { id, change }));
  const node = h("div", { class: "exercise-line" }, h("label", { for: id }, name), h("span", { class: "select" }, select));
  return {
    node,
    get value() {
      return select.value;
    },
    /** Chooses one of the list, where it is there. @param {string} value */
    pick(value) {
      if ([...select.options].some((option) => option.value === value)) select.value = value;
    },
    /** @param {[string, string][]} options */
    offer(options) {
      const before = select.value;
      const same = [...select.options].map(({ value, text }) => `${value} ${text}`).join() === options.map(([value, words]) => `${value} ${words}`).join();
      if (same) return;
      select.replaceChildren(...options.map(([value, words]) => h("option", { value }, words)));
      if (options.some(([known]) => known === before)) select.value = before;
    },
    /** The same, and chooses the first where that has not been there. @param {[string, string][]} options */
    offerLatest(options) {
      const had = [...select.options].some(({ value }) => value === options[0]?.[0]);
      this.offer(options);
      if (!had && options.length > 0) [[select.value]] = options;
    },
  };
}
