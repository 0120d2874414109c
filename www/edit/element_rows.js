/** The brakes and clutches of a train: what each joins. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { amountField, choice, choiceField, countField, doing, textField } from "./fields.js";

/** @typedef {import("./form.js").Form} Form */
/** @typedef {Form["sheet"]["elements"][number]} ElementSheet */

const HOUSING = "housing";
const MOST = 16;

/** Kinds as files name them, with the messages that say them. */
const KINDS = /** @type {[string, string][]} */ ([
  ["brake", "page-edit-brake"],
  ["clutch", "page-edit-clutch"],
  ["one-way", "page-edit-one-way"],
]);

/** Friction data to begin with, invented. */
const USUAL_FRICTION = { surfaces: 6, outer_radius: 80, inner_radius: 66, coefficient: 0.1, clamp_force: 4000 };

/** Its fields with their messages and limits. */
const FRICTION = /** @type {[keyof typeof USUAL_FRICTION, string, number, number][]} */ ([
  ["surfaces", "page-edit-surfaces", 1, 40],
  ["outer_radius", "page-edit-outer-radius", 1, 2000],
  ["inner_radius", "page-edit-inner-radius", 1, 2000],
  ["coefficient", "page-edit-coefficient", 0.01, 1],
  ["clamp_force", "page-edit-clamp-force", 1, 10_000_000],
]);

/** @param {Form} form */
export function elementRows(form) {
  const rows = form.sheet.elements.map(({ id, kind, label, friction }) => {
    const node = form.part(`element ${id}`, [kind, label, friction !== null], () => row(form, id));
    return /** @type {[string, HTMLElement]} */ ([id, node]);
  });
  const listed = form.list("elements", say("page-elements"), rows);
  return [h("h3", {}, say("page-elements")), ...listed, form.part("add element", form.sheet.elements.length >= MOST, () => adding(form))];
}

/**
 * @param {Form} form
 * @param {string} id
 */
function row(form, id) {
  const now = () => /** @type {ElementSheet} */ (form.sheet.elements.find((element) => element.id === id));
  const { kind, label } = now();
  const name = textField(form, {
    key: `element ${id}`,
    name: say("page-edit-label"),
    value: () => now().label,
    edit: (text) => ({ edit: "label-element", element: id, label: text }),
  });
  const end = (/** @type {0 | 1} */ at) =>
    choiceField(form, {
      key: `end ${at} ${id}`,
      name: say("page-edit-end-of", { label }),
      value: () => now().ends[at],
      options: form.bodies(at === 1 && kind === "one-way"),
      edit: (body) => {
        const [first, second] = now().ends;
        return { edit: "ends", element: id, ends: at === 0 ? [body, second] : [first, body] };
      },
    });
  const ends = kind === "brake" ? [say("page-edit-holds"), end(0)] : kind === "clutch" ? [say("page-edit-joins"), end(0), end(1)] : [say("page-edit-keeps"), end(0), way(form, id, now), end(1)];
  const remove = doing(say("page-edit-remove"), `remove ${id}`, () => form.edit({ edit: "remove-element", element: id }), say("page-edit-remove-what", { label }));
  return h("div", { class: "edit-line", "data-element": id }, name, ...ends, remove, ...holding(form, id, now));
}

/**
 * What it can hold: five numbers, or a button that gives some to begin with.
 * @param {Form} form
 * @param {string} id
 * @param {() => ElementSheet} now
 */
function holding(form, id, now) {
  const { kind, label, friction } = now();
  if (kind === "one-way") return [];
  const change = (/** @type {ElementSheet["friction"]} */ friction) =>
    form.edit({ edit: "friction", element: id, friction });
  if (!friction) {
    const words = say("page-edit-give-friction");
    return [doing(words, `friction ${id}`, () => change(USUAL_FRICTION), say("page-edit-give-friction-to", { label }))];
  }
  const fields = FRICTION.map(([key, message, least, most]) => {
    const words = say(message);
    const field = (key === "surfaces" ? countField : amountField)(form, {
      key: `${key} ${id}`,
      name: say("page-edit-friction-of", { what: words, label }),
      value: () => now().friction?.[key] ?? 0,
      edit: (amount) => ({ edit: "friction", element: id, friction: { ...USUAL_FRICTION, ...now().friction, [key]: amount } }),
      least,
      most,
    });
    return h("label", { class: "edit-amount" }, field, h("span", {}, words));
  });
  const none = doing(say("page-edit-no-friction"), `no friction ${id}`, () => change(null), say("page-edit-no-friction-of", { label }));
  return [h("details", { class: "edit-friction", "data-key": `holds ${id}` }, h("summary", {}, say("page-edit-friction")), ...fields, none)];
}

/**
 * @param {Form} form
 * @param {string} id
 * @param {() => ElementSheet} now
 */
function way(form, id, now) {
  return choiceField(form, {
    key: `way ${id}`,
    name: say("page-edit-way"),
    value: () => (now().backward ? "backward" : "forward"),
    options: [
      ["backward", say("page-edit-from-backward")],
      ["forward", say("page-edit-from-forward")],
    ],
    edit: (chosen) => ({ edit: "locks", element: id, way: chosen === "forward" ? "forward" : "backward" }),
  });
}

/** @param {Form} form */
function adding(form) {
  const kind = choice(
    KINDS.map(([value, message]) => [value, say(message)]),
    say("page-edit-kind"),
    "new element",
  );
  const first = choice(form.bodies(false), say("page-edit-first-end"), "new first");
  const second = choice(form.bodies(true), say("page-edit-second-end"), "new second");
  const other = h("span", { class: "select" }, second);
  const fit = () => {
    other.hidden = kind.value === "brake";
    const housing = /** @type {HTMLOptionElement} */ (second.lastElementChild);
    housing.disabled = kind.value === "clutch";
    if (housing.disabled && second.value === HOUSING) second.selectedIndex = second.length > 2 ? 1 : 0;
  };
  kind.addEventListener("change", fit);
  if (second.length > 2) second.selectedIndex = 1;
  fit();
  const add = doing(say("page-edit-add"), "add element", () => {
    const end = kind.value === "brake" ? HOUSING : second.value;
    form.edit({ edit: "add-element", kind: kind.value, ends: [first.value, end] });
  });
  add.disabled = form.sheet.elements.length >= MOST;
  return h("p", { class: "row" }, h("span", { class: "select" }, kind), h("span", { class: "select" }, first), other, add);
}
