/** What is asked of a search: wanted ratios, bounds, rules, and what makes one train better than another. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { focusedIn, h } from "../kit/dom.js";
import { ratio as ratioText } from "../kit/format.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain.js").Ask} Ask */
/** @typedef {import("../engine/levertrain.js").Criterion} Criterion */
/** @typedef {import("../engine/levertrain.js").ToothRule} ToothRule */
/** @typedef {import("../state/desk.js").Desk} Desk */

/** @type {Criterion[]} */
const CRITERIA = ["error", "size", "steps", "efficiency", "pinion-speed"];
/** @type {ToothRule[]} */
const RULES = ["coaxial", "equal-spacing", "neighbours-clear", "fewest-teeth"];
const COUNTS = [3, 4, 5, 6];
const USUAL = { tolerance: 2, teeth: [18, 100], pinions: [12, 100], counts: [3, 4], best: ["error", "size"] };
const TEETH = { min: 6, max: 300, step: 1, inputmode: "numeric" };
const HUNDRED = 100;
/** Percent. */
const MOST_TOLERANCE = 50;
/** Stands for what is no number: below whatever can be asked for. */
const REFUSED = -1e9;

export class AskForm {
  #desk;
  #rows = h("tbody");
  /** Of each range its field, what that held at first, and where its present ratio stands. @type {{ id: string, field: HTMLInputElement, usual: string, now: HTMLElement }[]} */
  #wanted = [];
  #tolerance = decimalField({ id: "find-tolerance", min: 0, max: MOST_TOLERANCE, step: 0.5 });
  #teeth = USUAL.teeth.map((count, at) => whole(`find-teeth-${at}`, count));
  #pinionTeeth = USUAL.pinions.map((count, at) => whole(`find-pinion-teeth-${at}`, count));
  #counts = COUNTS.map((count) => choice(`find-count-${count}`, String(count), USUAL.counts.includes(count)));
  #rules = RULES.map((rule) => choice(`find-rule-${rule}`, say("page-find-rule", { rule }), true));
  #best = CRITERIA.map((criterion) => choice(`find-best-${criterion}`, say("page-find-criterion", { criterion }), USUAL.best.includes(criterion)));
  #spread = decimalField({ id: "find-spread", min: 1, max: 1000, step: 0.1 });
  #steps = decimalField({ id: "find-steps", min: 0.5, max: 2, step: 0.01 });
  #efficiency = decimalField({ id: "find-efficiency", min: 0, max: 100 });
  #pinionSpeed = decimalField({ id: "find-pinion-speed", min: 0, max: 1000 });
  #efficient = new EfficientRanges("find");
  #openSpeed = decimalField({ id: "find-open-speed", min: 0, max: 1000 });
  #keep = h("div", { class: "find-choices" });
  #ring = h("div", { class: "find-choices" });
  #pairs = h("div", { class: "find-choices" });
  #distance = group(say("page-find-distance"), [this.#pairs]);
  /** @type {{ id: string, keep: Choice, ring: Choice, distance: Choice }[]} */
  #sets = [];

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
    putIn(this.#tolerance, String(USUAL.tolerance));
    const { node: ratios, body } = table(say("page-find-wanted"), [say("page-chart-range"), say("page-find-now"), say("page-find-ratio")], [1]);
    this.#rows = body;
    ratios.classList.add("find-ratios");
    this.node = h(
      "div",
      { class: "find-ask" },
      h("p", { class: "note" }, say("page-find-note")),
      h("div", { class: "scroll" }, ratios),
      h(
        "div",
        { class: "find-fields" },
        labelled(say("page-find-tolerance"), this.#tolerance),
        between(say("page-find-teeth"), this.#teeth),
        between(say("page-find-pinion-teeth"), this.#pinionTeeth),
        group(say("page-find-counts"), this.#counts.map(({ node }) => node)),
        group(say("page-find-best"), this.#best.map(({ node }) => node)),
      ),
      h(
        "details",
        { class: "find-more" },
        h("summary", {}, say("page-find-more")),
        h(
          "div",
          { class: "find-fields" },
          group(say("page-find-rules"), this.#rules.map(({ node }) => node)),
          group(say("page-find-keep"), [this.#keep]),
          group(say("page-find-ring"), [this.#ring]),
          this.#distance,
          labelled(say("page-find-spread"), this.#spread),
          labelled(say("page-find-steps"), this.#steps),
          labelled(say("page-find-least-efficiency"), this.#efficiency),
          this.#efficient.node,
          labelled(say("page-find-most-pinion"), this.#pinionSpeed),
          labelled(say("page-find-most-open"), this.#openSpeed),
        ),
      ),
    );
  }

  /**
   * Offers the ranges and sets of the train on the desk, with the ratios that they have.
   * @param {boolean} [keeps] whether what was typed stays
   */
  build(keeps = false) {
    const typed = new Map(keeps ? this.#wanted.flatMap(({ id, field, usual }) => (field.value === usual ? [] : [[id, field.value]])) : []);
    const ranges = this.#desk.chart()?.ranges ?? [];
    const drives = ranges.filter(({ ratio }) => ratio !== null);
    this.#wanted = drives.map(({ id, label, ratio }) => {
      const field = decimalField({ id: `find-ratio-${id}`, step: 0.01, "aria-label": say("page-find-ratio-of", { label }) });
      putIn(field, ratio ? String(Number(ratio.decimal.toPrecision(4))) : "");
      const usual = field.value;
      field.value = typed.get(id) ?? usual;
      return { id, field, usual, now: h("td", { class: "figure" }) };
    });
    this.#rows.replaceChildren(
      ...drives.map(({ label }, at) => h("tr", {}, h("th", { scope: "row" }, h("bdi", {}, label)), this.#wanted[at].now, h("td", {}, this.#wanted[at].field))),
    );
    this.#efficient.build(drives);
    this.tellRatios();
    const couplings = this.#desk.info?.couplings ?? [];
    this.#sets = couplings.map(({ id, label }) => ({ id, keep: choice(`find-keep-${id}`, label, false), ring: choice(`find-ring-${id}`, label, false), distance: choice(`find-distance-${id}`, label, false) }));
    this.#keep.replaceChildren(...this.#sets.map(({ keep }) => keep.node));
    const ringed = this.#sets.filter((_, at) => couplings[at].members.some(({ letter }) => letter === "R"));
    this.#ring.replaceChildren(...ringed.map(({ ring }) => ring.node));
    /** @type {{ couplings: { kind: string }[] }} */
    const train = JSON.parse(this.#desk.text);
    const pairs = this.#sets.filter((_, at) => train.couplings[at]?.kind === "gear-pair");
    this.#pairs.replaceChildren(...pairs.map(({ distance }) => distance.node));
    this.#distance.hidden = pairs.length < 2;
  }

  /** Tells the ratios that the ranges have now. */
  tellRatios() {
    const ranges = this.#desk.chart()?.ranges ?? [];
    this.#wanted.forEach(({ id, now }) => (now.textContent = ratioText(ranges.find((range) => range.id === id)?.ratio ?? null)));
  }

  /** How far ratios may be off, in percent. */
  get tolerance() {
    return Number(typedIn(this.#tolerance));
  }

  set tolerance(percent) {
    putIn(this.#tolerance, String(Number(percent.toPrecision(6))));
  }

  /** What is wrong with what is typed in percent, in the words of the field; nothing where it is right. */
  wrong() {
    return wrongPercent(this.#tolerance, this.#efficiency);
  }

  /** How many ranges a ratio can be wanted for. */
  get ranges() {
    return this.#wanted.length;
  }

  /** Has the fields ask for this. @param {Ask} ask */
  put(ask) {
    const text = (/** @type {number | undefined} */ value, times = 1) => (value === undefined ? "" : String(Number((value * times).toPrecision(12))));
    this.#wanted.forEach(({ id, field }) => putIn(field, text(ask.wanted.find(({ range }) => range === id)?.ratio)));
    const tolerances = [...ask.wanted, ask.spread, ask.steps].map((near) => near?.tolerance);
    putIn(this.#tolerance, text(tolerances.find((tolerance) => tolerance !== undefined), HUNDRED));
    this.#teeth.forEach((field, at) => (field.value = String(ask.teeth[at])));
    this.#pinionTeeth.forEach((field, at) => (field.value = String(ask.pinion_teeth[at])));
    const tick = (/** @type {Choice[]} */ choices, /** @type {(at: number) => boolean} */ chosen) => choices.forEach(({ field }, at) => (field.checked = chosen(at)));
    tick(this.#counts, (at) => ask.pinions.includes(COUNTS[at]));
    tick(this.#rules, (at) => ask.rules.includes(RULES[at]));
    tick(this.#best, (at) => ask.best.includes(CRITERIA[at]));
    putIn(this.#spread, text(ask.spread?.value));
    putIn(this.#steps, text(ask.steps?.value));
    const efficient = ask.wanted.filter(({ efficiency }) => efficiency !== undefined);
    putIn(this.#efficiency, text(ask.limits.efficiency ?? efficient[0]?.efficiency, HUNDRED));
    this.#efficient.put(efficient.length > 0 ? efficient.map(({ range }) => range) : undefined);
    putIn(this.#pinionSpeed, text(ask.limits.pinion_speed));
    putIn(this.#openSpeed, text(ask.limits.open_speed));
    for (const { id, keep, ring, distance } of this.#sets) {
      keep.field.checked = ask.keep?.includes(id) ?? false;
      ring.field.checked = ask.same_ring?.some((group) => group.includes(id)) ?? false;
      distance.field.checked = ask.same_distance?.some((group) => group.includes(id)) ?? false;
    }
  }

  /** What is asked. @returns {Ask} */
  ask() {
    const percent = (/** @type {HTMLInputElement} */ field) => numberIn(field, (value) => value / HUNDRED);
    const tolerance = percent(this.#tolerance) ?? 0;
    const near = (/** @type {HTMLInputElement} */ field) => numberIn(field, (value) => ({ value, tolerance }));
    const [spread, steps] = [near(this.#spread), near(this.#steps)];
    const least = percent(this.#efficiency);
    const wanted = this.#wanted.flatMap(({ id, field }) => {
      const ratio = numberIn(field);
      const efficiency = this.#efficient.has(id) ? least : undefined;
      if (ratio !== undefined) return [{ range: id, ratio, tolerance, efficiency }];
      // Free ranges have their places among the steps.
      return spread || steps || efficiency !== undefined ? [{ range: id, efficiency }] : [];
    });
    const ring = this.#sets.filter(({ ring }) => ring.field.checked).map(({ id }) => id);
    const distance = this.#sets.filter(({ distance }) => distance.field.checked).map(({ id }) => id);
    const limits = {
      efficiency: this.#efficient.all ? least : undefined,
      pinion_speed: numberIn(this.#pinionSpeed),
      open_speed: numberIn(this.#openSpeed),
    };
    return {
      wanted,
      spread,
      steps,
      teeth: pair(this.#teeth),
      pinion_teeth: pair(this.#pinionTeeth),
      pinions: COUNTS.filter((_, at) => this.#counts[at].field.checked),
      keep: this.#sets.filter(({ keep }) => keep.field.checked).map(({ id }) => id),
      same_ring: ring.length > 1 ? [ring] : [],
      same_distance: distance.length > 1 ? [distance] : [],
      rules: RULES.filter((_, at) => this.#rules[at].field.checked),
      // What is left empty is left out.
      limits,
      best: CRITERIA.filter((_, at) => this.#best[at].field.checked),
    };
  }
}

/** In which ranges a least efficiency must hold: in all, unless some are chosen. */
export class EfficientRanges {
  /** @type {{ id: string, choice: Choice }[]} */
  #ranges = [];
  #choices = h("div", { class: "find-choices" });
  #name;

  /** @param {string} name what the ids of its fields begin with */
  constructor(name) {
    this.#name = name;
    this.node = group(say("page-find-efficient-ranges"), [this.#choices]);
  }

  /** Offers these ranges; those that were offered before stay as they are. @param {{ id: string, label: string }[]} ranges */
  build(ranges) {
    const known = new Map(this.#ranges.map(({ id, choice }) => [id, choice.field.checked]));
    this.#ranges = ranges.map(({ id, label }) => ({ id, choice: choice(`${this.#name}-efficient-${id}`, label, known.get(id) ?? true) }));
    this.#choices.replaceChildren(...this.#ranges.map(({ choice }) => choice.node));
  }

  /** Has these chosen; all, where none are named. @param {string[] | undefined} ids */
  put(ids) {
    this.#ranges.forEach(({ id, choice }) => (choice.field.checked = ids?.includes(id) ?? true));
  }

  /** Whether all are chosen, or none, which says nothing else. */
  get all() {
    const chosen = this.#ranges.filter(({ choice }) => choice.field.checked).length;
    return chosen === 0 || chosen === this.#ranges.length;
  }

  /** Whether it must hold in this one and not in all. @param {string} id */
  has(id) {
    return !this.all && this.#ranges.some((range) => range.id === id && range.choice.field.checked);
  }
}

/**
 * Has Enter in a field of a form begin, as fields on the web do.
 * @param {HTMLElement} form
 * @param {HTMLElement} begin the button that does
 */
export function beginsByEnter(form, begin) {
  form.addEventListener("keydown", (event) => {
    const field = event.composedPath()[0];
    const types = field instanceof HTMLInputElement && field.type !== "checkbox";
    if (event.key !== "Enter" || event.isComposing || !types) return;
    event.preventDefault();
    begin.click();
  });
}

/** Brings what is said into view, which below a long form it may not be. @param {HTMLElement} said */
export function comesIntoView(said) {
  said.scrollIntoView({ block: "nearest" });
}

/**
 * Folds a form away once there is something to look at; whoever was in it goes on at the button after it, and sees what was found
 * from its beginning, beside the stage: of the long form they saw the end.
 * @param {HTMLElement} panel
 * @param {HTMLDetailsElement} unfolds
 * @param {HTMLElement} form
 * @param {HTMLElement} begin
 */
export function foldAway(panel, unfolds, form, begin) {
  const isHere = focusedIn(form) !== null;
  const { top, bottom } = panel.getBoundingClientRect();
  unfolds.open = false;
  if (isHere) begin.focus();
  if (top < 0 && bottom > 0) panel.scrollIntoView({ block: "start" });
}

/** @typedef {{ node: HTMLElement, field: HTMLInputElement }} Choice */

/**
 * @param {string} id
 * @param {string} words
 * @param {boolean} checked
 * @returns {Choice}
 */
export function choice(id, words, checked) {
  const field = /** @type {HTMLInputElement} */ (h("input", { id, type: "checkbox" }));
  field.checked = checked;
  return { node: h("label", { class: "check find-choice", for: id }, field, h("bdi", {}, words)), field };
}

/** @param {string} id @param {number} count */
export function whole(id, count) {
  const field = /** @type {HTMLInputElement} */ (h("input", { id, type: "number", ...TEETH }));
  field.value = String(count);
  return field;
}

/** @param {string} words @param {HTMLInputElement} field */
export function labelled(words, field) {
  return h("p", { class: "find-field" }, h("label", { for: field.id }, words), field);
}

/** @param {string} words @param {HTMLInputElement[]} fields the least and the most */
export function between(words, [least, most]) {
  least.setAttribute("aria-label", say("page-find-least", { what: words }));
  most.setAttribute("aria-label", say("page-find-most", { what: words }));
  return h("p", { class: "find-field" }, h("span", {}, words), h("span", { class: "find-between" }, least, h("span", {}, say("page-find-to")), most));
}

/** @param {string} words @param {HTMLElement[]} choices */
export function group(words, choices) {
  return h("fieldset", { class: "find-group" }, h("legend", {}, words), ...choices);
}

/**
 * @template [T=number]
 * @param {HTMLInputElement} field
 * @param {(value: number) => T} [made]
 * @returns {T | undefined} nothing where it is empty; what is no number is one that is refused
 */
export function numberIn(field, made = (value) => /** @type {T} */ (value)) {
  const typed = typedIn(field);
  if (typed === "" && !field.validity.badInput) return undefined;
  const value = typed === "" ? NaN : Number(typed);
  return made(Number.isFinite(value) ? value : REFUSED);
}

/**
 * What is wrong with what is typed in percent, which the engine would tell as parts.
 * @param {HTMLInputElement} tolerance
 * @param {HTMLInputElement} efficiency
 * @returns {string | undefined}
 */
export function wrongPercent(tolerance, efficiency) {
  const within = (/** @type {HTMLInputElement} */ field, /** @type {number} */ most) => {
    const value = numberIn(field);
    return value === undefined || (value >= 0 && value <= most);
  };
  if (typedIn(tolerance) === "" || !within(tolerance, MOST_TOLERANCE)) return say("page-find-wrong-tolerance", { most: String(MOST_TOLERANCE) });
  return within(efficiency, HUNDRED) ? undefined : say("page-find-wrong-efficiency");
}

/** @param {HTMLInputElement[]} fields @returns {[number, number]} */
function pair([least, most]) {
  const count = (/** @type {HTMLInputElement} */ { value }) => Math.max(Math.round(Number(value)) || 0, 0);
  return [count(least), count(most)];
}
