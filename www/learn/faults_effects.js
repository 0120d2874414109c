/** What one or two faults make of every range. */

import { h } from "../kit/dom.js";
import { Folds } from "../kit/folds.js";
import { tellRows } from "../kit/known.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { becomesWords, exactly, faultWords, healthyWords, keyOf, rowToTake, trialLabel } from "./faults_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Faults} Faults */
/** @typedef {import("../engine/levertrain_whole.js").Fault} Fault */
/** @typedef {import("../engine/levertrain_whole.js").Becomes} Becomes */

/** An element has one fault at most. @param {Fault} one @param {Fault} other */
function together(one, other) {
  return keyOf(one) !== keyOf(other) && (one.id !== other.id || (one.member !== null && other.member !== null));
}

export class Effects {
  #ask;
  /** @type {Faults} */
  #list = { faults: [], trials: [] };
  #oneWays = false;
  #selects = ["first", "second"].map((place) =>
    /** @type {HTMLSelectElement} */ (h("select", { id: `faults-${place}`, change: () => this.#choose() })),
  );
  #told = h("p", { class: "note", role: "status", "data-part": "faults-changed" });
  #stage = h("p", { class: "note" }, say("page-faults-stage"));
  #table;
  /** What they make of the ranges. @type {Becomes[] | undefined} */
  #becomes;
  /** The faults that are picked, by their keys: they outlive an edit. @type {string[]} */
  #picked = [];

  /** The reasons, by the range. */
  folds = new Folds();

  /** @param {(places: number[]) => Becomes[] | undefined} ask what faults make of the ranges */
  constructor(ask) {
    this.#ask = ask;
    const heads = [say("page-chart-range"), say("page-faults-healthy-head"), say("page-faults-becomes-head")];
    this.#table = table(say("page-faults-does"), heads, []);
    tellRows(this.#table.node, () =>
      this.#list.trials.map((trial, at) => rowToTake(trial, this.#becomes ? becomesWords(this.#becomes[at]) : "")),
    );
    const [first, second] = this.#selects;
    this.node = h(
      "section",
      { "data-part": "faults-does", "aria-labelledby": "faults-does" },
      h("h3", { id: "faults-does" }, say("page-faults-does")),
      labelled(say("page-faults-first"), first),
      labelled(say("page-faults-second"), second),
      this.#told,
      this.#table.node,
      this.#stage,
    );
  }

  /** What is picked, by names that are the same in every language. */
  get picked() {
    return this.#picked;
  }

  set picked(keys) {
    this.#picked = keys;
  }

  /** Lets go of what is picked. */
  clear() {
    this.#picked = [];
  }

  /**
   * Shows another train, or the same after an edit.
   * @param {Faults} list
   * @param {boolean} oneWays
   */
  show(list, oneWays) {
    this.#list = list;
    this.#oneWays = oneWays;
    const known = new Set(list.faults.map(keyOf));
    this.#picked = this.#picked.filter((key) => known.has(key));
    this.#offer();
    this.#fill();
  }

  /**
   * Picks faults.
   * @param {Fault[]} faults
   */
  pick(faults) {
    this.#picked = faults.map(keyOf);
    this.#offer();
    this.#fill();
  }

  #choose() {
    this.#picked = this.#selects.map(({ value }) => value).filter((key) => key !== "");
    this.#offer();
    this.#fill();
  }

  #offer() {
    const picked = this.#picked.map((key) => this.#list.faults.find((fault) => keyOf(fault) === key));
    this.#selects.forEach((select, at) => {
      const other = picked[1 - at];
      const groups = new Map();
      for (const fault of this.#list.faults) {
        const group = groups.get(fault.label) ?? h("optgroup", { label: fault.label });
        groups.set(fault.label, group);
        const disabled = other !== undefined && !together(fault, other);
        group.append(h("option", { value: keyOf(fault), disabled }, faultWords([fault])));
      }
      select.replaceChildren(h("option", { value: "" }, say("page-faults-none")), ...groups.values());
      select.value = this.#picked[at] ?? "";
    });
    // A second one takes a first one.
    this.#selects[1].disabled = this.#picked.length === 0;
  }

  #fill() {
    const { faults, trials } = this.#list;
    const chosen = this.#picked.flatMap((key) => {
      const at = faults.findIndex((fault) => keyOf(fault) === key);
      return at < 0 ? [] : at;
    });
    const becomes = chosen.length > 0 ? this.#ask(chosen) : undefined;
    this.#becomes = becomes;
    const changed = becomes?.filter(({ outcome }) => outcome !== "right").length ?? 0;
    this.#told.textContent = becomes
      ? say("page-faults-changed", { faults: faultWords(chosen.map((at) => faults[at])), count: changed })
      : say("page-faults-pick");
    this.#stage.hidden = !becomes;
    this.#table.body.replaceChildren(
      ...trials.map((trial, at) => {
        const becoming = becomes?.[at];
        return h(
          "tr",
          { "data-trial": trial.id ?? "", "data-outcome": becoming?.outcome },
          h("th", { scope: "row" }, trialLabel(trial)),
          h("td", { title: exactly(trial) }, healthyWords(trial, this.#oneWays)),
          h("td", {}, ...(becoming ? this.#outcome(trial.id ?? "", becoming) : [])),
        );
      }),
    );
  }

  /** What a range becomes, with the reasons folded under it. @param {string} range @param {Becomes} becomes */
  #outcome(range, becomes) {
    const words = h("span", { class: "outcome" }, becomesWords(becomes));
    if (becomes.why.length === 0) return [words];
    return [this.folds.keep(range, h("details", {}, h("summary", {}, words), ...becomes.why.map((reason) => h("p", {}, reason))))];
  }
}

/**
 * @param {string} name
 * @param {HTMLElement} select
 */
function labelled(name, select) {
  return h("p", { class: "faults-field" }, h("label", { for: select.id }, name), h("span", { class: "select" }, select));
}
