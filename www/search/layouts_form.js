/** What is asked of a search for layouts: sets, elements, ranges, and bounds on teeth. */

import { decimalField, putIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { KINDS } from "../edit/set_kinds.js";
import { between, choice, EfficientRanges, group, labelled, numberIn, whole, wrongPercent } from "./ask_form.js";

/** @typedef {import("../engine/levertrain.js").LayoutAsk} LayoutAsk */

/** Kinds of sets that turn about one axis. */
const SETS = KINDS.filter(([kind]) => kind !== "gear-pair");
const MOST_SETS = 4;
const MOST_RANGES = 12;
const HUNDRED = 100;
/** What is asked until something else is: invented ratios that many layouts give. */
const USUAL = { sets: ["planetary", "planetary"], applied: 2, elements: 4, forward: ["2.8", "1.55", "1"], backward: "-2.2", tolerance: "3", teeth: [18, 100], pinions: [12, 100] };
const COUNTS = [3, 4];
/** Stands for the range backwards among the others, which are numbered. */
const BACKWARD = "0";

export class LayoutsForm {
  #sets = Array.from({ length: MOST_SETS }, (_, at) => kindChoice(at));
  #applied = count("layouts-applied", USUAL.applied, 1, 4);
  #elements = count("layouts-elements", USUAL.elements, 1, 6);
  #clutches = count("layouts-clutches", undefined, 0, 6);
  #brakes = count("layouts-brakes", undefined, 0, 6);
  #ranges = count("layouts-ranges", USUAL.forward.length, 1, MOST_RANGES);
  #forward = Array.from({ length: MOST_RANGES }, (_, at) => decimalField({ id: `layouts-ratio-${at + 1}`, min: 0.001, max: 1000, step: 0.01, "aria-label": say("page-layouts-ratio-of", { range: String(at + 1) }) }));
  #ratios = h("div", { class: "layouts-ratios" });
  #hasBackward = choice("layouts-has-backward", say("page-layouts-has-backward"), true);
  #backward = decimalField({ id: "layouts-backward", min: -1000, max: -0.001, step: 0.01 });
  #tolerance = decimalField({ id: "layouts-tolerance", min: 0, max: 50, step: 0.5 });
  #spread = decimalField({ id: "layouts-spread", min: 1, max: 1000, step: 0.1 });
  #steps = [0, 1].map((at) => decimalField({ id: `layouts-step-${at}`, min: 1, max: 1000, step: 0.01 }));
  #swaps = choice("layouts-swaps", say("page-layouts-swaps"), true);
  #direct = /** @type {HTMLSelectElement} */ (h("select", { id: "layouts-direct" }, ...["any", "with", "without"].map((direct) => h("option", { value: direct }, say("page-layouts-direct-is", { direct })))));
  #limits = {
    efficiency: decimalField({ id: "layouts-efficiency", min: 0, max: 100, step: 0.1 }),
    pinion: decimalField({ id: "layouts-pinion-speed", min: 0, max: 1000, step: 0.1 }),
    open: decimalField({ id: "layouts-open-speed", min: 0, max: 1000, step: 0.1 }),
  };
  #efficient = new EfficientRanges("layouts");
  #teeth = USUAL.teeth.map((teeth, at) => whole(`layouts-teeth-${at}`, teeth));
  #pinionTeeth = USUAL.pinions.map((teeth, at) => whole(`layouts-pinion-teeth-${at}`, teeth));

  constructor() {
    USUAL.forward.forEach((ratio, at) => putIn(this.#forward[at], ratio));
    putIn(this.#backward, USUAL.backward);
    putIn(this.#tolerance, USUAL.tolerance);
    this.#ranges.addEventListener("input", () => this.#offer());
    this.#hasBackward.field.addEventListener("change", () => this.#offer());
    this.node = h(
      "div",
      { class: "find-ask" },
      h("p", { class: "note" }, say("page-layouts-note")),
      h(
        "div",
        { class: "find-fields" },
        group(say("page-layouts-sets"), this.#sets.map((field) => h("span", { class: "select" }, field))),
        labelled(say("page-layouts-applied"), this.#applied),
        labelled(say("page-layouts-elements"), this.#elements),
        labelled(say("page-layouts-ranges"), this.#ranges),
        labelled(say("page-find-tolerance"), this.#tolerance),
      ),
      group(say("page-layouts-ratios"), [this.#ratios]),
      h(
        "details",
        { class: "find-more" },
        h("summary", {}, say("page-find-more")),
        h(
          "div",
          { class: "find-fields" },
          labelled(say("page-layouts-clutches"), this.#clutches),
          labelled(say("page-layouts-brakes"), this.#brakes),
          labelled(say("page-layouts-spread"), this.#spread),
          between(say("page-layouts-step"), this.#steps),
          group(say("page-layouts-shifts"), [this.#swaps.node]),
          h("p", { class: "find-field" }, h("label", { for: this.#direct.id }, say("page-layouts-direct")), h("span", { class: "select" }, this.#direct)),
          between(say("page-find-teeth"), this.#teeth),
          between(say("page-find-pinion-teeth"), this.#pinionTeeth),
          labelled(say("page-find-least-efficiency"), this.#limits.efficiency),
          this.#efficient.node,
          labelled(say("page-find-most-pinion"), this.#limits.pinion),
          labelled(say("page-find-most-open"), this.#limits.open),
        ),
      ),
    );
    this.#offer();
  }

  /** Offers a field for each range. */
  #offer() {
    const ranges = Math.min(Math.max(Math.round(Number(this.#ranges.value)) || 1, 1), MOST_RANGES);
    const fields = this.#forward.slice(0, ranges).map((field, at) => labelled(String(at + 1), field));
    this.#backward.disabled = !this.#hasBackward.field.checked;
    const forward = fields.map((_, at) => ({ id: String(at + 1), label: String(at + 1) }));
    const backward = { id: BACKWARD, label: say("page-layouts-backward") };
    this.#efficient.build(this.#hasBackward.field.checked ? [...forward, backward] : forward);
    this.#ratios.replaceChildren(...fields, labelled(say("page-layouts-backward"), this.#backward), this.#hasBackward.node);
  }

  /** What is wrong with what is typed in percent, in the words of the field; nothing where it is right. */
  wrong() {
    return wrongPercent(this.#tolerance, this.#limits.efficiency);
  }

  /** What the range at this place of what is asked is called among others. @param {number} at */
  rangeAt(at) {
    return at < (countIn(this.#ranges) ?? 0) ? say("page-layouts-range", { range: String(at + 1) }) : say("page-layouts-backward-range");
  }

  /** Has the fields ask for this. @param {LayoutAsk} ask */
  put(ask) {
    const { forward, backward, spread, step, limits } = ask;
    const text = (/** @type {number | undefined} */ value, times = 1) => (value === undefined ? "" : String(Number((value * times).toPrecision(12))));
    this.#sets.forEach((field, at) => (field.value = ask.sets[at] ?? ""));
    this.#applied.value = text(ask.applied);
    this.#elements.value = text(ask.elements);
    this.#clutches.value = text(ask.clutches);
    this.#brakes.value = text(ask.brakes);
    this.#ranges.value = text(forward.length);
    this.#forward.forEach((field, at) => putIn(field, text(forward[at]?.ratio)));
    this.#hasBackward.field.checked = backward !== undefined;
    putIn(this.#backward, text(backward?.ratio));
    const tolerances = [...forward, backward, spread].map((wanted) => wanted?.tolerance);
    putIn(this.#tolerance, text(tolerances.find((tolerance) => tolerance !== undefined) ?? 0, HUNDRED));
    putIn(this.#spread, text(spread?.value));
    this.#steps.forEach((field, at) => putIn(field, text(step?.[at])));
    this.#swaps.field.checked = ask.single_swaps;
    this.#direct.value = ask.direct === undefined ? "any" : ask.direct ? "with" : "without";
    this.#teeth.forEach((field, at) => (field.value = text(ask.teeth[at])));
    this.#pinionTeeth.forEach((field, at) => (field.value = text(ask.pinion_teeth[at])));
    const all = [...forward.map((wanted, at) => ({ id: String(at + 1), wanted })), { id: BACKWARD, wanted: backward }];
    const efficient = all.filter(({ wanted }) => wanted?.efficiency !== undefined);
    putIn(this.#limits.efficiency, text(limits.efficiency ?? efficient[0]?.wanted?.efficiency, HUNDRED));
    putIn(this.#limits.pinion, text(limits.pinion_speed));
    putIn(this.#limits.open, text(limits.open_speed));
    this.#offer();
    this.#efficient.put(efficient.length > 0 ? efficient.map(({ id }) => id) : undefined);
  }

  /** What is asked. @returns {LayoutAsk} */
  ask() {
    const tolerance = (numberIn(this.#tolerance) ?? 0) / HUNDRED;
    const efficient = numberIn(this.#limits.efficiency, (value) => value / HUNDRED);
    const wanted = (/** @type {HTMLInputElement} */ field, /** @type {string} */ id) => {
      const ratio = numberIn(field);
      const efficiency = this.#efficient.has(id) ? efficient : undefined;
      return ratio === undefined ? { efficiency } : { ratio, tolerance, efficiency };
    };
    const ranges = Math.round(Number(this.#ranges.value)) || 0;
    const [spread, least, most] = [this.#spread, ...this.#steps].map((field) => numberIn(field));
    const direct = { any: undefined, with: true, without: false }[this.#direct.value];
    return {
      sets: this.#sets.map(({ value }) => value).filter((kind) => kind !== ""),
      applied: countIn(this.#applied) ?? 0,
      elements: countIn(this.#elements) ?? 0,
      clutches: countIn(this.#clutches),
      brakes: countIn(this.#brakes),
      forward: this.#forward.slice(0, Math.max(ranges, 0)).map((field, at) => wanted(field, String(at + 1))),
      backward: this.#hasBackward.field.checked ? wanted(this.#backward, BACKWARD) : undefined,
      spread: spread === undefined ? undefined : { value: spread, tolerance },
      step: least === undefined && most === undefined ? undefined : [least ?? 1, most ?? 1000],
      single_swaps: this.#swaps.field.checked,
      direct,
      teeth: [countIn(this.#teeth[0]) ?? 0, countIn(this.#teeth[1]) ?? 0],
      pinion_teeth: [countIn(this.#pinionTeeth[0]) ?? 0, countIn(this.#pinionTeeth[1]) ?? 0],
      pinions: COUNTS,
      limits: {
        efficiency: this.#efficient.all ? efficient : undefined,
        pinion_speed: numberIn(this.#limits.pinion),
        open_speed: numberIn(this.#limits.open),
      },
      rules: ["coaxial", "equal-spacing", "neighbours-clear", "fewest-teeth"],
    };
  }
}

/** The choice of a set. @param {number} at */
function kindChoice(at) {
  const options = [["", "page-layouts-no-set"], ...SETS].map(([kind, words]) => h("option", { value: kind }, say(words)));
  const field = /** @type {HTMLSelectElement} */ (h("select", { id: `layouts-set-${at + 1}`, "aria-label": say("page-layouts-set", { number: String(at + 1) }) }, ...options));
  field.value = USUAL.sets[at] ?? "";
  return field;
}

/** @param {string} id @param {number | undefined} value @param {number} min @param {number} max */
function count(id, value, min, max) {
  const field = /** @type {HTMLInputElement} */ (h("input", { id, type: "number", inputmode: "numeric", step: 1, min, max }));
  field.value = value === undefined ? "" : String(value);
  return field;
}

/** @param {HTMLInputElement} field */
function countIn({ value }) {
  return value === "" ? undefined : Math.max(Math.round(Number(value)) || 0, 0);
}
