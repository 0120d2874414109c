/** Fields of the forms that change a train: each shows what is, and asks for an edit when it is changed. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { focusedIn, h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** @typedef {import("./form.js").Form} Form */
/** @typedef {import("../engine/levertrain_whole.js").Edit} Edit */
/** What a field is known by while the form is built anew, and what those hear who do not see it.
 * @typedef {{ key: string, name: string }} Named */

/** Milliseconds after which a number counts as typed. */
const HALF_TYPED = 800;

/**
 * A text, which changes the train with every letter.
 * @param {{ edit(edit: Edit, continues?: boolean): unknown, shows(show: () => void): void }} form
 * @param {Named & { value: () => string, edit: (text: string) => Edit, most?: number }} field
 */
export function textField(form, { key, name, value, edit, most = 40 }) {
  const input = /** @type {HTMLInputElement} */ (
    h("input", { type: "text", maxlength: most, "aria-label": name, "data-key": key, input: type, blur: show })
  );
  form.shows(show);

  function type() {
    if (input.value.trim() !== "") form.edit(edit(input.value), true);
  }

  function show() {
    // What the train makes of the letters typed is no reason to move the cursor; another name is.
    if (input.value.trim() !== value().trim()) input.value = value();
  }
  return input;
}

/**
 * What of a number is allowed; some limits hang on other numbers of the train.
 * @typedef {{ least: number | (() => number), most: number | (() => number) }} Limits
 */

/**
 * A whole number, which changes the train as soon as it is one that is allowed.
 * @param {Form} form
 * @param {Named & Limits & { value: () => number, edit: (count: number) => Edit }} field
 */
export function countField(form, field) {
  const whole = { type: "number", inputmode: "numeric", step: 1 };
  return numberField(form, field, (attributes) => /** @type {HTMLInputElement} */ (h("input", { ...whole, ...attributes })));
}

/**
 * @param {Form} form
 * @param {Named & Limits & { value: () => number, edit: (count: number) => Edit }} field
 * @param {(attributes: Record<string, unknown>) => HTMLInputElement} made
 */
function numberField(form, { key, name, value, edit, least, most }, made) {
  const input = made({ class: "count", "aria-label": name, "data-key": key, input: type, blur: show });
  let waits = 0;
  /** Whether what is typed stands as it is, since it is being tried. */
  let tried = false;
  form.shows(show);
  typedOver(input);

  function limits() {
    return { least: typeof least === "number" ? least : least(), most: typeof most === "number" ? most : most() };
  }

  function type() {
    const count = Number(typedIn(input));
    const { least, most } = limits();
    const whole = input.inputMode === "decimal" || Number.isInteger(count);
    const allowed = input.value !== "" && whole && count >= least && count <= most;
    refuse(allowed ? "" : say("page-edit-from-to", { least, most }));
    tried = true;
    const taken = allowed && form.edit(edit(count), true);
    tried = false;
    // What is refused is left to whoever types it, as half a number is.
    if (!taken) input.setAttribute("aria-invalid", String(true));
    else {
      input.removeAttribute("aria-invalid");
      show();
    }
  }

  /** Says what would be taken, once nobody types on. @param {string} words */
  function refuse(words) {
    clearTimeout(waits);
    // Said again, it would be laid out again.
    if (input.title !== words) input.title = words;
    if (input.validationMessage !== words) input.setCustomValidity(words);
    if (words) waits = setTimeout(() => isTyped(input) && input.reportValidity(), HALF_TYPED);
  }

  function show() {
    if (isTyped(input) && (tried || input.hasAttribute("aria-invalid"))) return;
    input.removeAttribute("aria-invalid");
    refuse("");
    const { least, most } = limits();
    if (input.min !== String(least)) input.min = String(least);
    if (input.max !== String(most)) input.max = String(most);
    if (typedIn(input) !== String(value())) putIn(input, String(value()));
  }
  return input;
}

/**
 * A number, which changes the train as soon as it is one that is allowed.
 * @param {Form} form
 * @param {Named & Limits & { value: () => number, edit: (amount: number) => Edit }} field
 */
export function amountField(form, field) {
  return numberField(form, field, decimalField);
}

/**
 * A choice.
 * @param {Form} form
 * @param {Named & { value: () => string, options: [string, string][], edit: (value: string) => Edit }} field
 */
export function choiceField(form, { key, name, value, options, edit }) {
  const select = choice(options, name, key);
  select.addEventListener("change", () => form.edit(edit(select.value)));
  form.shows(() => (select.value = value()));
  return h("span", { class: "select" }, select);
}

/**
 * A choice by itself.
 * @param {[string, string][]} options values and their words
 * @param {string} name
 * @param {string} [key]
 */
export function choice(options, name, key) {
  const nodes = options.map(([value, words]) => h("option", { value }, words));
  return /** @type {HTMLSelectElement} */ (h("select", { "aria-label": name, "data-key": key }, ...nodes));
}

/**
 * A button that does one thing.
 * @param {string} words
 * @param {string} key
 * @param {() => void} click
 * @param {string} [heard] what those hear who do not see what it belongs to
 */
export function doing(words, key, click, heard) {
  return h("button", { class: "plain", type: "button", "data-key": key, "aria-label": heard, title: heard, click }, words);
}

/** Whether somebody is at it: then what is typed stays, whatever the train makes of it. @param {HTMLElement} input */
function isTyped(input) {
  return focusedIn(input) === input;
}

/**
 * Has the press that goes into a number be ready to type another, as the tabulator has it.
 * @param {HTMLInputElement} input
 */
export function typedOver(input) {
  let goesIn = false;
  input.addEventListener("pointerdown", () => (goesIn = !isTyped(input)));
  input.addEventListener("click", () => goesIn && input.select());
}
