/**
 * Fields for numbers that may have decimals. Where these stand after a comma it is a field of text: a
 * browser's own field for numbers goes by the language of the browser, not by that of the page, and
 * hands over nothing where it takes a comma for a mistake. Both signs are read.
 */

import { h } from "./dom.js";
import { decimalSign } from "./words.js";

const DIGITS = /^\s*[+\-\u2212]?[\d.]+\s*$/;
/** What arrows change a number by, as in a browser's own fields. @type {Record<string, number>} */
const STEPS = { ArrowUp: 1, ArrowDown: -1 };

/** @param {Record<string, unknown>} attributes */
export function decimalField(attributes) {
  if (decimalSign() === ".") {
    return /** @type {HTMLInputElement} */ (h("input", { type: "number", inputmode: "decimal", step: "any", ...attributes }));
  }
  const field = /** @type {HTMLInputElement} */ (
    h("input", { type: "text", inputmode: "decimal", autocomplete: "off", ...attributes, keydown: step })
  );
  return field;

  /** @param {KeyboardEvent} event */
  function step(event) {
    const by = STEPS[event.key];
    const now = Number(typedIn(field));
    if (!by || !Number.isFinite(now)) return;
    event.preventDefault();
    const least = Number(field.getAttribute("min") ?? -Infinity);
    const most = Number(field.getAttribute("max") || Infinity);
    putIn(field, String(Number(Math.min(Math.max(now + by, least), most).toPrecision(12))));
    for (const name of ["input", "change"]) field.dispatchEvent(new Event(name, { bubbles: true }));
  }
}

/**
 * What is typed in a field, as programs write numbers; what is no number stays none.
 * @param {HTMLInputElement} field
 */
export function typedIn({ type, value }) {
  if (type === "number" || value.trim() === "") return value.trim();
  const text = value.replace(",", ".").replace("\u2212", "-");
  return DIGITS.test(text) ? text : "?";
}

/**
 * Shows a number, as programs write it.
 * @param {HTMLInputElement} field
 * @param {string} text
 */
export function putIn(field, text) {
  field.value = field.type === "number" ? text : text.replace(".", decimalSign());
}
