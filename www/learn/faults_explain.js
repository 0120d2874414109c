/** Which faults explain what was observed, and what to try next. */

import { h } from "../kit/dom.js";
import { Folds } from "../kit/folds.js";
import { number, ratio } from "../kit/format.js";
import { tellRows } from "../kit/known.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { exactly, faultWords, healthyWords, rowToTake, trialLabel } from "./faults_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Faults} Faults */
/** @typedef {import("../engine/levertrain_whole.js").Fault} Fault */
/** @typedef {import("../engine/levertrain_whole.js").Trial} Trial */
/** @typedef {import("../engine/levertrain_whole.js").Explanations} Explanations */
/** @typedef {import("../engine/levertrain_whole.js").FaultGroup} Group */

/** As many explanations are shown before the rest is folded. */
const SHOWN = 8;
/** More than these are counted only. */
const MOST = 200;

/** What can be observed of a range, by what it does while nothing is broken, in words of the engine. @type {Record<Trial["does"], string[]>} */
const SEEN = {
  drives: ["right", "lost", "slips", "ties-up", "drives", "backward"],
  neutral: ["right", "forward", "backward", "slips", "ties-up"],
  "output-held": ["right", "lost", "forward", "backward", "slips", "ties-up"],
  "tied-up": ["right", "lost", "forward", "backward", "slips"],
  undecided: [],
};

/**
 * What the explaining part asks for.
 * @typedef {object} Wishes
 * @property {(observed: string[]) => void} observe other observations were made: a word a trial, empty where none was
 * @property {(trial: Trial) => void} apply a range is to be on stage
 * @property {(faults: Fault[]) => void} pick it is to be shown what faults do
 */

export class Explaining {
  #wishes;
  /** @type {Faults} */
  #list = { faults: [], trials: [] };
  /** What was observed, by the range: it outlives an edit. @type {Map<string, string>} */
  #observed = new Map();
  /** @type {HTMLSelectElement[]} */
  #selects = [];
  #oneWays = false;
  #table;
  #status = h("p", { role: "status", "data-part": "faults-found" });
  #progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-faults-progress"), hidden: true, max: 1 }));
  #next = h("div", { class: "faults-next", "data-part": "faults-next" });
  #groups = h("div", { class: "faults-groups", "data-part": "faults-groups" });
  /** Lists that are made when they are unfolded. */
  folds = new Folds();
  #clear = h("button", { class: "plain", type: "button", "data-part": "faults-clear", click: () => this.#forget() }, say("page-faults-clear"));

  /** @param {Wishes} wishes */
  constructor(wishes) {
    this.#wishes = wishes;
    const heads = [say("page-chart-range"), say("page-faults-healthy-head"), say("page-faults-seen-head")];
    this.#table = table(say("page-faults-explains"), heads, []);
    tellRows(this.#table.node, () =>
      this.#list.trials.map((trial, at) => rowToTake(trial, this.#selects[at].selectedOptions[0]?.textContent ?? "")),
    );
    this.node = h(
      "section",
      { "data-part": "faults-explains", "aria-labelledby": "faults-explains" },
      h("h3", { id: "faults-explains" }, say("page-faults-explains")),
      this.#table.node,
      h("p", { class: "row" }, this.#clear),
      this.#status,
      this.#progress,
      this.#next,
      this.#groups,
    );
  }

  /** Forgets what was observed. */
  clear() {
    this.#observed.clear();
  }

  /** What was observed, by the range. @returns {[string, string][]} */
  get kept() {
    return [...this.#observed];
  }

  set kept(observed) {
    this.#observed = new Map(observed);
  }

  /** A word a trial, empty where nothing was observed. */
  get observed() {
    return this.#list.trials.map((trial) => this.#observed.get(placeOf(trial)) ?? "");
  }

  /**
   * Shows another train, or the same after an edit.
   * @param {Faults} list
   * @param {boolean} oneWays
   */
  show(list, oneWays) {
    this.#list = list;
    this.#oneWays = oneWays;
    this.#selects = list.trials.map((trial) => {
      const label = say("page-faults-seen-in", { range: trialLabel(trial) });
      const change = () => this.#observe(trial);
      return /** @type {HTMLSelectElement} */ (h("select", { "aria-label": label, "data-seen": placeOf(trial), change }));
    });
    this.#table.body.replaceChildren(
      ...list.trials.map((trial, at) =>
        h(
          "tr",
          { "data-trial": placeOf(trial) },
          h("th", { scope: "row" }, trialLabel(trial)),
          h("td", { title: exactly(trial) }, healthyWords(trial, oneWays)),
          h("td", {}, ...(SEEN[trial.does].length > 0 ? [h("span", { class: "select" }, this.#selects[at])] : [])),
        ),
      ),
    );
    this.#offer([]);
    this.#tellNothing();
  }

  /**
   * Says what is known of what explains it.
   * @param {Explanations | undefined} found
   * @param {number} part how much is known
   */
  tell(found, part) {
    const complete = part >= 1;
    this.#progress.hidden = complete;
    this.#progress.value = part;
    if (!found) return;
    // What is being chosen from stays as it is meanwhile.
    this.#offer(found.ratios, !complete);
    if (complete) this.#status.textContent = foundWords(found);
    this.#tellNext(complete ? found : undefined);
    this.#groups.replaceChildren(...this.#ranked(found));
  }

  /** @param {Trial} trial */
  #observe(trial) {
    const select = this.#selects[this.#list.trials.indexOf(trial)];
    this.#observed.set(placeOf(trial), select.value);
    this.#ask();
  }

  #forget() {
    this.clear();
    this.#offer([]);
    this.#ask();
  }

  #ask() {
    this.#tellNothing();
    this.#wishes.observe(this.observed);
  }

  /** What is shown before it is known what explains it. */
  #tellNothing() {
    const { observed } = this;
    const wrong = observed.some((word) => word !== "" && word !== "right");
    this.#clear.toggleAttribute("disabled", observed.every((word) => word === ""));
    this.#progress.hidden = true;
    if (wrong) return;
    this.#status.textContent = say(observed.some((word) => word !== "") ? "page-faults-nothing-wrong" : "page-faults-begin");
    this.#tellNext();
    this.#groups.replaceChildren();
  }

  /**
   * Offers what can be observed of each range, with the ratios that some explanation gives.
   * @param {Explanations["ratios"]} ratios
   * @param {boolean} [spare] whether the list that somebody is at is left alone
   */
  #offer(ratios, spare = false) {
    this.#list.trials.forEach((trial, at) => {
      const select = this.#selects[at];
      if (spare && select.matches(":focus")) return;
      const chosen = this.#observed.get(placeOf(trial)) ?? "";
      const options = [["", say("page-faults-untried")], ...this.#seen(trial).map((seen) => [seen, say("page-faults-seen", { seen })])];
      const exact = (ratios[at] ?? []).map((value) => [value.fraction, say("page-faults-seen-ratio", { ratio: ratio(value) })]);
      // What was chosen stays there, also where nothing else agrees with it.
      const all = [...options, ...exact];
      if (!all.some(([value]) => value === chosen)) all.push([chosen, select.selectedOptions[0]?.textContent ?? chosen]);
      const shape = all.map(([value]) => value).join();
      if (select.dataset.shape !== shape) {
        select.dataset.shape = shape;
        select.replaceChildren(...all.map(([value, words]) => h("option", { value }, words)));
      }
      select.value = chosen;
    });
  }

  /** @param {Trial} trial */
  #seen({ does, ratio, brakes }) {
    const seen = SEEN[does].map((word) => (word === "backward" && ratio && ratio.decimal < 0 ? "forward" : word));
    if (this.#oneWays && does === "drives") seen.push(brakes ? "no-engine-braking" : "engine-braking");
    return seen;
  }

  /** @param {Explanations} [found] */
  #tellNext(found) {
    for (const row of this.#table.body.children) row.toggleAttribute("data-next", false);
    const next = found?.next;
    if (!next) {
      const words = found && found.groups.length > 1 ? say("page-faults-no-next") : "";
      this.#next.replaceChildren(words);
      return;
    }
    const trial = this.#list.trials[next.trial];
    this.#table.body.children[next.trial].toggleAttribute("data-next", true);
    const values = { range: trialLabel(trial), of: next.of, left: number(next.left, 2), most: next.most };
    const press = () => {
      this.#wishes.apply(trial);
      this.#selects[next.trial].focus();
    };
    this.#next.replaceChildren(
      h("p", {}, say("page-faults-next", values)),
      h("button", { class: "plain", type: "button", "data-part": "faults-try", click: press }, trial.id === null ? say("page-release-all") : say("page-faults-try", values)),
    );
  }

  /** @param {Explanations} found */
  #ranked({ groups }) {
    const of = (/** @type {Group["rank"]} */ rank) => groups.filter((group) => group.rank === rank);
    const [single, both, beside] = [of("single"), of("both"), of("beside")];
    return [
      ...this.#listOf("single", say("page-faults-single"), single),
      ...this.#listOf("both", say("page-faults-both"), both),
      ...this.#folded("beside", "page-faults-beside", beside),
    ];
  }

  /**
   * @param {Group["rank"]} rank
   * @param {string} name
   * @param {Group[]} groups
   */
  #listOf(rank, name, groups) {
    if (groups.length === 0) return [];
    const [shown, rest] = [groups.slice(0, SHOWN), groups.slice(SHOWN)];
    return [h("h4", {}, name), this.#items(shown), ...this.#folded(rank, "page-faults-more", rest)];
  }

  /**
   * Groups that are made when somebody wants to see them.
   * @param {string} name
   * @param {string} message
   * @param {Group[]} groups
   */
  #folded(name, message, groups) {
    if (groups.length === 0) return [];
    const count = groups.reduce((sum, { sets }) => sum + sets.length, 0);
    const node = /** @type {HTMLDetailsElement} */ (this.folds.keep(name, h("details", {}, h("summary", {}, say(message, { count })))));
    node.addEventListener("toggle", () => {
      if (!node.open || node.children.length > 1) return;
      node.append(this.#items(groups.slice(0, MOST)));
      if (groups.length > MOST) node.append(h("p", { class: "note" }, say("page-faults-most", { count: groups.length - MOST })));
    });
    return [node];
  }

  /** @param {Group[]} groups */
  #items(groups) {
    return h("ul", {}, ...groups.map((group) => this.#item(group)));
  }

  /** @param {Group} group */
  #item({ sets }) {
    const buttons = sets.map((set) => {
      const faults = set.map((at) => this.#list.faults[at]);
      const press = () => this.#wishes.pick(faults);
      return h("button", { class: "bare", type: "button", "data-faults": set.join(), click: press }, faultWords(faults));
    });
    if (buttons.length === 1) return h("li", {}, buttons[0]);
    const items = h("ul", {}, ...buttons.map((button) => h("li", {}, button)));
    return h("li", { class: "alike" }, h("span", { class: "note" }, say("page-faults-alike", { count: sets.length })), items);
  }
}

/** What a range is known by while the train is changed. @param {Trial} trial */
function placeOf({ id }) {
  return id ?? "";
}

/** @param {Explanations} found */
function foundWords({ groups }) {
  const of = (/** @type {Group["rank"]} */ rank) =>
    groups.filter((group) => group.rank === rank).reduce((sum, { sets }) => sum + sets.length, 0);
  if (groups.length === 0) return say("page-faults-found-none");
  return [say("page-faults-found-single", { count: of("single") }), say("page-faults-found-both", { count: of("both") })].join(" ");
}
