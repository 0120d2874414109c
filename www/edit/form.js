/** The form that changes a train: what it is made of, as lists of fields, and the buttons over them. */

import { focusedIn, h, keepIn } from "../kit/dom.js";
import { saveTrain } from "../kit/save.js";
import { capital, say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { doing, choice, choiceField, textField } from "./fields.js";
import { elementRows } from "./element_rows.js";
import { rangeRows } from "./range_rows.js";
import { RowFilter } from "./row_filter.js";
import { setCards } from "./set_cards.js";
import { goesOn } from "./steps.js";
import { aroundOf, surroundingRows } from "./surrounding_rows.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").Edit} Edit */
/** @typedef {import("../engine/levertrain_whole.js").Sheet} Sheet */

const HOUSING = "housing";
const MOST_NAME = 80;

/** Trains to begin with, by how many sets they have. */
const STARTERS = [0, 1, 2, 3];

/**
 * A part of the form: what it was made of, and what brings its fields up to date, has what belongs to the
 * shaft that is pointed at stand out, and follows what is applied.
 * @typedef {{ shape: string, node?: HTMLElement, shown: (() => void)[], lit: (() => void)[], answered: (() => void)[] }} Part
 */

export class Form {
  /** The parts that are kept while they are made of the same. @type {Map<string, Part>} */
  #parts = new Map();
  /** Those of the form that is being built. @type {Map<string, Part>} */
  #next = new Map();
  /** What is in no such part. @type {Part} */
  #rest = { shape: "", shown: [], lit: [], answered: [] };
  /** What fields that are made belong to. */
  #making = this.#rest;
  /** What long lists are looked through by. @type {Map<string, RowFilter>} */
  #filters = new Map();
  /** What of the train decides which fields there are. */
  #shape = "";
  /** The node that holds them. */
  #node;
  /** Whether an edit goes on with the one before. */
  #goesOn;
  /** @type {Sheet} */
  sheet;
  /** Engine, converter and load. @type {import("./surrounding_rows.js").Around} */
  around = {};

  /**
   * @param {Desk} desk
   * @param {HTMLElement} node
   * @param {Sheet} sheet
   */
  constructor(desk, node, sheet) {
    this.desk = desk;
    this.#node = node;
    this.#goesOn = goesOn(node);
    this.sheet = sheet;
    desk.addEventListener("light", () => this.#all.forEach(({ lit }) => lit.forEach((light) => light())));
    desk.addEventListener("answer", () => {
      // What an edit changes is shown after it anyway.
      if (!desk.editing) this.#all.forEach(({ answered }) => answered.forEach((follow) => follow()));
    });
  }

  /** Unfolds a section, in sight. @param {string} key */
  unfold(key) {
    const section = /** @type {HTMLDetailsElement | null} */ (this.#node.querySelector(`details[data-key="${key}"]`));
    if (!section) return;
    section.open = true;
    section.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** Keeps something up to date with what is applied. @param {() => void} follow */
  answers(follow) {
    this.#making.answered.push(follow);
  }

  /** Has a part in sight: where the form scrolls by itself, by that alone. @param {HTMLElement} part */
  showIn(part) {
    const form = this.#node;
    if (form.scrollHeight <= form.clientHeight) {
      part.scrollIntoView({ block: "nearest", behavior: "instant" });
      return;
    }
    const [own, all] = [part.getBoundingClientRect(), form.getBoundingClientRect()];
    form.scrollTop += Math.max(0, own.bottom - all.bottom) + Math.min(0, own.top - all.top);
  }

  /** Has a field ready to be typed over. @param {string} key */
  name(key) {
    const field = /** @type {HTMLInputElement | null} */ (this.#node.querySelector(`input[data-key="${key}"]`));
    field?.focus({ preventScroll: true });
    field?.select();
  }

  /** Has something stand out while its shaft is pointed at. @param {() => void} light */
  lights(light) {
    this.#making.lit.push(light);
  }

  get #all() {
    return [this.#rest, ...this.#parts.values()];
  }

  /**
   * A part of the form that stays as it is while it is made of the same: to make and to lay out all of a
   * large train takes long.
   * @param {string} key
   * @param {unknown} shape what decides which fields it has and what they are called
   * @param {() => HTMLElement} make
   */
  part(key, shape, make) {
    const text = JSON.stringify([this.#bodies, shape]);
    const known = this.#parts.get(key);
    /** @type {Part} */
    const part = known?.shape === text ? known : { shape: text, shown: [], lit: [], answered: [] };
    this.#next.set(key, part);
    if (part.node) {
      part.shown.forEach((show) => show());
      return part.node;
    }
    this.#making = part;
    part.node = make();
    this.#making = this.#rest;
    return part.node;
  }

  /**
   * The rows of a list, with a field to find some of them by where it is long.
   * @param {string} key
   * @param {string} list what they are
   * @param {[string, HTMLElement][]} rows by what tells them apart
   */
  list(key, list, rows) {
    const filter = this.#filters.get(key) ?? new RowFilter(key, list);
    this.#filters.set(key, filter);
    return filter.over(rows);
  }

  get #bodies() {
    return this.bodies(true);
  }

  /** The train as the page knows it. */
  get info() {
    return /** @type {import("../state/desk.js").TrainInfo} */ (this.desk.info);
  }

  /**
   * Makes an edit; what it says against it is told where the page tells everything.
   * @param {Edit} edit
   * @param {boolean} [continues] whether it is one step with the edit of the same before it
   * @returns {boolean} whether it is made
   */
  edit(edit, continues = false) {
    return this.attempt(() => this.desk.edit(edit, this.#goesOn(continues)));
  }

  /** @param {() => void} change */
  attempt(change) {
    const active = focusedIn(this.#node);
    // Looking for all of them takes a while, and what is typed into does not go.
    const at = active && !active.matches("input") ? stopsIn(this.#node).findIndex((stop) => stop === active) : -1;
    try {
      change();
      // In the frame, as that lays out what the focus is put into anyway.
      if (at >= 0) requestAnimationFrame(() => this.#keepFocus(at));
      this.desk.dismiss();
      return true;
    } catch (error) {
      this.desk.report(error, say("page-edit-refused"));
      this.#show();
      return false;
    }
  }

  /** Where what had the focus is gone, what has come into its place gets it. @param {number} at */
  #keepFocus(at) {
    const { activeElement: active } = /** @type {ShadowRoot | Document} */ (this.#node.getRootNode());
    const isElsewhere = !active && document.activeElement && document.activeElement !== document.body;
    if (isElsewhere || active?.matches(":not(body, :disabled)")) return;
    const stops = stopsIn(this.#node);
    stops[Math.min(at, stops.length - 1)]?.focus({ preventScroll: true });
  }

  /** Keeps a field up to date. @param {() => void} show */
  shows(show) {
    this.#making.shown.push(show);
    show();
  }

  /** Shafts by id and label, for a choice; the housing where that may be chosen. @param {boolean} housing */
  bodies(housing) {
    const shafts = this.info.shafts.map(({ id, label }) => /** @type {[string, string]} */ ([id, label]));
    return housing ? [...shafts, /** @type {[string, string]} */ ([HOUSING, capital(this.info.housing)])] : shafts;
  }

  /** Brings it up to date with the train. @param {Sheet} sheet */
  update(sheet) {
    this.sheet = sheet;
    this.around = aroundOf(this.desk.text);
    const shape = shapeOf(this.info, sheet, this.around, this.desk.units);
    if (shape === this.#shape) this.#show();
    else this.#build(shape);
  }

  #show() {
    for (const { shown } of this.#all) for (const show of shown) show();
  }

  /** @param {string} shape */
  #build(shape) {
    const at = focusIn(this.#node);
    const unfolded = new Set(foldersIn(this.#node).flatMap(({ open, dataset }) => (open ? [dataset.key] : [])));
    this.#shape = shape;
    this.#rest = { shape: "", shown: [], lit: [], answered: [] };
    this.#making = this.#rest;
    this.#next = new Map();
    const rows = [trainRows, setCards, elementRows, rangeRows, surroundingRows];
    keepIn(this.#node, rows.flatMap((rows) => rows(this)));
    this.#parts = this.#next;
    for (const folder of foldersIn(this.#node)) folder.open = unfolded.has(folder.dataset.key);
    if (!at) return;
    const again = /** @type {HTMLElement | null} */ (this.#node.querySelector(`[data-key="${at}"]`));
    again?.focus({ preventScroll: true });
  }
}

/**
 * The form with its buttons, kept up to date.
 * @param {Desk} desk
 * @param {() => boolean} open whether anybody sees it
 * @param {{ begin(text: string, name: string): void, repeat(): void, forget(): Promise<(() => void) | undefined> }} files
 * @returns {{ nodes: Node[], update: () => void }}
 */
export function trainForm(desk, open, files) {
  const node = h("div", { class: "edit-form" });
  /** @type {Form | undefined} */
  let form;
  const undo = doing(say("page-edit-undo"), "undo", () => form?.attempt(() => desk.undo()));
  const redo = doing(say("page-edit-redo"), "redo", () => form?.attempt(() => desk.redo()));
  const begin = choice(
    STARTERS.map((sets) => [String(sets), sets === 0 ? say("page-edit-nothing") : say("page-edit-starter", { count: sets })]),
    say("page-edit-begin-with"),
  );
  const fresh = doing(say("page-edit-begin"), "begin", () => {
    const text = desk.askWhole((engine) => engine.starterText(Number(begin.value)));
    if (text !== undefined) files.begin(text, say("edit-blank"));
  });
  const save = doing(say("page-edit-save"), "save", () => saveFile(desk));
  const repeat = doing(say("page-edit-repeat"), "repeat", () => files.repeat(), say("page-edit-repeat-train"));
  const remove = doing(say("page-edit-delete"), "delete", forget);
  const restore = doing(say("page-edit-restore"), "restore", () => {
    back?.();
    back = undefined;
    update();
  });
  /** Brings back what was deleted last. @type {(() => void) | undefined} */
  let back;
  const bar = h("p", { class: "row edit-bar" }, undo, redo, repeat, remove, restore);
  const begins = h("p", { class: "row edit-bar" }, h("span", { class: "select" }, begin), fresh, save);

  async function forget() {
    back = (await files.forget()) ?? back;
    update();
  }

  function update() {
    if (!open() || !desk.info) return;
    const { sheet } = desk;
    if (!sheet) return;
    form ??= new Form(desk, node, sheet);
    form.update(sheet);
    undo.disabled = sheet.undo === 0;
    redo.disabled = sheet.redo === 0;
    remove.disabled = !desk.source || !("file" in desk.source);
    restore.hidden = !back;
  }
  follow(desk, ["train", "whole", "units"], update);
  return { nodes: [bar, begins, node], update };
}

/** @param {Form} form */
function trainRows(form) {
  const { info } = form;
  const names = { input: say("page-input"), output: say("page-output") };
  const ends = /** @type {const} */ (["input", "output"]).map((end) => {
    const name = names[end];
    const field = choiceField(form, {
      key: end,
      name,
      value: () => form.info[end],
      options: form.bodies(false),
      edit: (shaft) => ({ edit: end, shaft }),
    });
    return h("label", { class: "edit-row" }, h("span", {}, name), field);
  });
  const name = textField(form, {
    key: "name",
    name: say("page-edit-name"),
    value: () => form.info.name,
    edit: (text) => ({ edit: "name", name: text }),
    most: MOST_NAME,
  });
  const shafts = info.shafts.map(({ id }) =>
    textField(form, {
      key: `shaft ${id}`,
      name: say("page-shaft"),
      value: () => form.info.shafts.find((shaft) => shaft.id === id)?.label ?? "",
      edit: (label) => ({ edit: "label-shaft", shaft: id, label }),
    }),
  );
  return [
    h("label", { class: "edit-row wide" }, h("span", {}, say("page-edit-name")), name),
    h("div", { class: "edit-pair" }, ...ends),
    h("details", { class: "edit-shafts", "data-key": "shafts" }, h("summary", {}, say("page-edit-shafts")), ...shafts),
  ];
}

/**
 * @param {import("../state/desk.js").TrainInfo} info
 * @param {Sheet} sheet
 * @param {import("./surrounding_rows.js").Around} around
 * @param {import("../state/units.js").Units} units
 */
function shapeOf({ shafts, housing, ranges }, { sets, elements }, { engine, converter, load }, units) {
  return JSON.stringify([
    shafts,
    housing,
    ranges.map(({ id }) => id),
    sets.map(({ id, kind, gears, members }) => [id, kind, gears.length, members.length]),
    elements.map(({ id, kind, friction }) => [id, kind, friction !== null]),
    [engine?.full, engine?.motoring, converter?.table].map((points) => points?.length),
    load !== undefined,
    units,
  ]);
}

/** What folds in it. @param {HTMLElement} node */
function foldersIn(node) {
  return [...node.querySelectorAll("details")];
}

/** The key of the field in it that has the focus. @param {HTMLElement} node */
function focusIn(node) {
  return focusedIn(node)?.dataset.key;
}

/** What in it the tabulator stops at. @param {HTMLElement} node */
function stopsIn(node) {
  const all = /** @type {HTMLInputElement[]} */ ([...node.querySelectorAll("input, select, button, summary")]);
  return all.filter((stop) => !stop.disabled && !isHidden(stop));
}

/**
 * Whether something in the form is out of sight. Asking the browser would have it lay the page out.
 * @param {HTMLElement} stop
 */
function isHidden(stop) {
  const folder = stop.closest("details:not([open])");
  return stop.closest("[hidden]") !== null || (folder !== null && !stop.matches("summary"));
}

/** Keeps the train as a file. @param {Desk} desk */
export function saveFile(desk) {
  const text = desk.askWhole((engine, sandbox) => engine.scenarioText(sandbox));
  if (text === undefined) return;
  saveTrain(text, desk.info?.name ?? "");
}
