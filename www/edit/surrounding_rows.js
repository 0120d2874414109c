/** What stands around a train: its engine, a torque converter, and what holds the output back. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { forField, fromField, unitOf } from "../state/units.js";
import { amountField, doing, textField } from "./fields.js";

/** @typedef {import("./form.js").Form} Form */
/** @typedef {import("../engine/levertrain_whole.js").Part} Part */
/** @typedef {import("../engine/levertrain_whole.js").Rows} Rows */
/** @typedef {import("../state/units.js").Unit} Unit */

/**
 * The parts as files hold them.
 * @typedef {object} Around
 * @property {{ label: string, full: number[][], motoring: number[][] }} [engine]
 * @property {{ label: string, table: number[][] }} [converter]
 * @property {{ label: string, constant: number, linear: number, quadratic: number, weight: number }} [load]
 */

/** As files may have them, in their own units. */
const SPEED = { least: 1, most: 30_000 };
const MOST_TORQUE = 100_000;
const TORQUE_RATIO = { least: 1, most: 10 };
const CAPACITY_FACTOR = { least: 1, most: 100_000 };
const MOST_POINTS = 32;

/** A speed in rev/min that what grows with it is told at: by itself it would be a number with many zeros. */
const AT = 1000;

const NO_UNIT = { name: "", size: 1 };

/** Curves of the engine with their messages and the largest torque in them. */
const CURVES = /** @type {const} */ ([
  ["full", "page-edit-full", MOST_TORQUE],
  ["motoring", "page-edit-motoring", 0],
]);

/** Terms of the load in the order of files, with their messages and what they are told for one of. */
const TERMS = /** @type {const} */ ([
  ["constant", "page-edit-load-constant", 1],
  ["linear", "page-edit-load-linear", AT],
  ["quadratic", "page-edit-load-quadratic", AT * AT],
  ["weight", "page-edit-load-weight", 1],
]);

/**
 * A column of points: what it is called, its unit, and from what to what a number in it may be.
 * @typedef {{ message: string, unit: Unit, limits: (at: number) => [number, number] }} Column
 */

/**
 * What of them a train has. Its file says so: an engine that the page asked would be larger by a thousandth.
 * @param {string} text
 * @returns {Around}
 */
export function aroundOf(text) {
  // Some editors begin a file with a byte order mark.
  return JSON.parse(text.replace(/^\ufeff/, ""));
}

/** @param {Form} form */
export function surroundingRows(form) {
  const heading = h("h3", {}, say("page-panel-operating"));
  const { around: { engine, converter, load }, desk: { units } } = form;
  if (!engine || !load) {
    const give = doing(say("page-edit-give-engine"), "engine", () => {
      if (form.edit({ edit: "surround", part: "engine", there: true })) form.unfold("around engine");
    });
    return [heading, h("p", { class: "row edit-long" }, give)];
  }
  const convert = doing(say("page-edit-give-converter"), "converter", () => {
    if (form.edit({ edit: "surround", part: "converter", there: true })) form.unfold("around converter");
  });
  const none = doing(say("page-edit-no-engine"), "no engine", () => form.edit({ edit: "surround", part: "engine", there: false }));
  return [
    heading,
    form.part("engine", [engine.full.length, engine.motoring.length, units], () =>
      folder(form, "engine", "page-operating-engine", ...engineCurves(form)),
    ),
    converter
      ? form.part("converter", [converter.table.length, units], () =>
          folder(form, "converter", "edit-converter", ...converterTable(form)),
        )
      : h("p", { class: "row edit-long" }, convert),
    form.part("load", units, () => folder(form, "load", "page-edit-load", ...terms(form))),
    h("p", { class: "row edit-long" }, none),
  ];
}

/**
 * @param {Form} form
 * @param {Part} part
 * @param {string} message
 * @param {...Node} content
 */
function folder(form, part, message, ...content) {
  const label = () => form.around[part]?.label ?? "";
  const shown = h("span", { class: "quiet" });
  // Not twice.
  form.shows(() => (shown.textContent = label() === say(message) ? "" : label()));
  const name = textField(form, {
    key: `label ${part}`,
    name: say("page-edit-label"),
    value: label,
    edit: (label) => ({ edit: "label-part", part, label }),
  });
  const called = h("label", { class: "edit-row" }, h("span", {}, say("page-edit-label")), name);
  const summary = h("summary", {}, say(message), " ", shown);
  return h("details", { class: "edit-around", "data-key": `around ${part}` }, summary, called, ...content);
}

/** @param {Form} form */
function engineCurves(form) {
  const { desk } = form;
  const rows = (/** @type {"full" | "motoring"} */ curve) => form.around.engine?.[curve] ?? [];
  const speedAt = (/** @type {number[][]} */ rows, /** @type {number} */ at) => rows.at(at)?.[0] ?? 0;
  /** Both curves begin and end at the same speeds, which change together. @type {(curve: "full" | "motoring", at: number) => [number, number]} */
  const speeds = (curve, at) => {
    const own = rows(curve);
    const both = [own, rows(curve === "full" ? "motoring" : "full")];
    if (at === 0) return [SPEED.least, Math.min(...both.map((rows) => speedAt(rows, 1)))];
    if (at === own.length - 1) return [Math.max(...both.map((rows) => speedAt(rows, -2))), SPEED.most];
    return [speedAt(own, at - 1), speedAt(own, at + 1)];
  };
  return CURVES.map(([curve, message, most]) =>
    points(form, curve, say(message), () => rows(curve), [
      { message: "page-take-speed", unit: unitOf(desk.units, "speed"), limits: (at) => speeds(curve, at) },
      { message: "page-take-torque", unit: unitOf(desk.units, "torque"), limits: () => [-MOST_TORQUE, most] },
    ]),
  );
}

/** @param {Form} form */
function converterTable(form) {
  const rows = () => form.around.converter?.table ?? [];
  const [speed, torque] = [unitOf(form.desk.units, "speed"), unitOf(form.desk.units, "torque")];
  const factor = { name: `${speed.name} / √(${torque.name})`, size: speed.size / Math.sqrt(torque.size) };
  const table = points(form, "table", say("edit-converter"), rows, [
    {
      message: "page-edit-speed-ratio",
      unit: NO_UNIT,
      // The first is stall.
      limits: (at) => (at === 0 ? [0, 0] : [rows()[at - 1]?.[0] ?? 0, rows()[at + 1]?.[0] ?? 1]),
    },
    { message: "page-edit-torque-ratio", unit: NO_UNIT, limits: () => [TORQUE_RATIO.least, TORQUE_RATIO.most] },
    { message: "page-edit-capacity-factor", unit: factor, limits: () => [CAPACITY_FACTOR.least, CAPACITY_FACTOR.most] },
  ]);
  const none = doing(say("page-edit-no-converter"), "no converter", () => form.edit({ edit: "surround", part: "converter", there: false }));
  return [table, none];
}

/**
 * A table of points: a field for each number, and buttons that put a point after one or take it away.
 * @param {Form} form
 * @param {Rows} list
 * @param {string} title
 * @param {() => number[][]} rows
 * @param {Column[]} columns
 */
function points(form, list, title, rows, columns) {
  const heads = columns.map(({ message, unit }) => h("th", { scope: "col" }, say(message, { unit: unit.name })));
  const count = rows().length;
  const body = rows().map((_, at) => {
    const cells = columns.map((column, index) => h("td", {}, cell(form, list, title, rows, at, column, index)));
    const number = at + 1;
    const add = doing("+", `add ${list} ${at}`, () => form.edit({ edit: "point", rows: list, at: number, there: true }), say("page-edit-add-point", { number, list: title }));
    const remove = doing("−", `remove ${list} ${at}`, () => form.edit({ edit: "point", rows: list, at, there: false }), say("page-edit-remove-point", { number, list: title }));
    const isLast = number === count;
    add.disabled = isLast || count >= MOST_POINTS;
    // Two of them are a curve still; that of a converter begins at stall.
    remove.disabled = count <= 2 || (at === 0 && list === "table");
    return h("tr", {}, ...cells, h("td", { class: "edit-point" }, add, remove));
  });
  const caption = h("caption", {}, title);
  return h("table", { class: "edit-points" }, caption, h("thead", {}, h("tr", {}, ...heads, h("td", { class: "edit-point" }))), h("tbody", {}, ...body));
}

/**
 * @param {Form} form
 * @param {Rows} list
 * @param {string} title
 * @param {() => number[][]} rows
 * @param {number} at
 * @param {Column} column
 * @param {number} index
 */
function cell(form, list, title, rows, at, { message, unit, limits }, index) {
  const value = () => rows()[at]?.[index] ?? 0;
  const [least, most] = limits(at);
  if (least === most) return h("span", { class: "edit-fixed" }, String(value()));
  return measured(form, {
    key: `${list} ${at} ${index}`,
    name: say("page-edit-point-of", { what: say(message, { unit: unit.name }), number: at + 1, list: title }),
    value,
    unit,
    limits: () => limits(at),
    edit: (amount) => ({ edit: "amount", rows: list, at, column: index, amount }),
  });
}

/** @param {Form} form */
function terms(form) {
  const torque = unitOf(form.desk.units, "torque");
  return TERMS.map(([term, message, share], column) => {
    const words = say(message, { unit: torque.name });
    const field = measured(form, {
      key: `load ${term}`,
      name: words,
      value: () => form.around.load?.[term] ?? 0,
      unit: { name: torque.name, size: torque.size / share },
      limits: () => [0, MOST_TORQUE],
      edit: (amount) => ({ edit: "amount", rows: "load", at: 0, column, amount }),
    });
    return h("label", { class: "edit-amount" }, field, h("span", {}, words));
  });
}

/**
 * A number in the reader's unit.
 * @param {Form} form
 * @param {{ key: string, name: string, value: () => number, unit: Unit, limits: () => [number, number],
 *   edit: (amount: number) => import("../engine/levertrain_whole.js").Edit }} field
 */
function measured(form, { key, name, value, unit, limits, edit }) {
  const shown = (/** @type {number} */ amount) => Number(forField(amount, unit));
  return amountField(form, {
    key,
    name,
    value: () => shown(value()),
    least: () => shown(limits()[0]),
    most: () => shown(limits()[1]),
    edit: (amount) => edit(fromField(String(amount), unit)),
  });
}
