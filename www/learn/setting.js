/** Putting questions together: each from what is on screen, kept as a sheet to hand on. */

import { h } from "../kit/dom.js";
import { save, slug } from "../kit/save.js";
import { say } from "../kit/words.js";
import { PARTS, choice, rangeOptions, taskWords } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").TaskText} TaskText */
/** @typedef {import("../engine/levertrain_whole.js").TaskKind} TaskKind */
/** @typedef {import("../state/desk.js").Desk} Desk */

/** The format of sheets. */
const FORMAT = 1;
/** Most tasks of a sheet. */
const MOST = 40;
/** Most ranges to walk through first. */
const MOST_WALKED = 12;

/** What each kind lets one choose. @type {Record<TaskKind, ("range" | "set" | "shaft" | "part")[]>} */
const CHOSEN = {
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

export class Setting {
  #desk;
  #start;
  #changed;
  /** @type {Question[]} */
  #questions = [];
  /** Ids of the ranges to walk through first. @type {string[]} */
  #walk = [];
  #kind = choice("exercise-set-kind", say("page-exercise-kind"), () => this.#offer());
  #range = choice("exercise-set-range", say("page-chart-range"));
  #set = choice("exercise-set-set", say("page-exercise-set"));
  #shaft = choice("exercise-set-shaft", say("page-exercise-shaft"));
  #part = choice("exercise-set-part", say("page-exercise-part-of"));
  #note = h("p", { class: "note" });
  #title = /** @type {HTMLInputElement} */ (h("input", { type: "text", maxlength: 80, "aria-label": say("page-exercise-title") }));
  #list = h("ol", { class: "exercise-set" });
  #add;
  #walkThis;
  #use;
  #save;
  /** Counts what was asked for by dice. */
  #seed = 0;

  /**
   * @param {Desk} desk
   * @param {(title: string, questions: Question[]) => void} start
   * @param {() => void} changed calls back with every change of the sheet
   */
  constructor(desk, start, changed) {
    this.#desk = desk;
    this.#start = start;
    this.#changed = changed;
    const button = (/** @type {string} */ words, /** @type {string} */ part, /** @type {() => void} */ click) =>
      /** @type {HTMLButtonElement} */ (/** @type {unknown} */ (h("button", { class: "plain", type: "button", "data-part": part, click }, words)));
    this.#add = button(say("page-exercise-add"), "exercise-add", () => this.#ask());
    this.#walkThis = button(say("page-exercise-walk-add"), "exercise-walk-add", () => this.#addWalk());
    this.#use = button(say("page-exercise-try"), "exercise-try", () => this.#start(this.#name(), this.#questions));
    this.#save = button(say("page-exercise-save"), "exercise-save", () => this.#keep());
    const fields = [this.#kind, this.#range, this.#set, this.#shaft, this.#part];
    this.node = h(
      "details",
      { class: "exercise-setting", "data-part": "exercise-setting" },
      h("summary", {}, say("page-exercise-setting")),
      h("p", { class: "note" }, say("page-exercise-setting-note")),
      h("div", { class: "exercise-lines" }, ...fields.map(({ node }) => node)),
      this.#note,
      h("p", { class: "row" }, this.#add, this.#walkThis),
      this.#list,
      h("label", { class: "exercise-line", change: () => this.#changed() }, h("span", {}, say("page-exercise-title")), this.#title),
      h("p", { class: "row" }, this.#use, this.#save),
    );
    this.#show();
  }

  /** Brings it up to date with the train. @param {TaskKind[]} kinds */
  update(kinds) {
    const { info } = this.#desk;
    if (!info) return;
    const { answer } = this.#desk;
    this.#kind.offer(kinds.map((kind) => [kind, say("page-exercise-kind-of", { kind })]));
    this.#range.offer(rangeOptions(this.#desk), answer?.range ?? undefined);
    this.#set.offer(answer?.couplings.map(({ id, label }) => [id, label]) ?? []);
    this.#shaft.offer(info.shafts.filter(({ id }) => id !== info.input).map(({ id, label }) => [id, label]));
    this.#part.offer(PARTS.map((part) => [part, say("page-exercise-part-name", { part })]));
    this.#walkThis.disabled = !answer?.range;
    this.#offer();
  }

  /** Forgets what was put together: it was about another train. */
  clear() {
    this.#questions = [];
    this.#walk = [];
    this.#renew();
  }

  #offer() {
    const kind = /** @type {TaskKind} */ (this.#kind.value);
    const chosen = CHOSEN[kind] ?? [];
    const fields = /** @type {const} */ ([["range", this.#range], ["set", this.#set], ["shaft", this.#shaft], ["part", this.#part]]);
    for (const [name, field] of fields) field.node.hidden = !chosen.includes(name);
    this.#note.textContent = say("page-exercise-from", { kind });
    // In neutral there is no ratio to ask for.
    this.#add.disabled = kind === "reach" && !this.#desk.answer?.ratio;
  }

  #ask() {
    const desk = this.#desk;
    try {
      const question = desk.askWhole((engine, sandbox) => {
        const task = this.#task();
        if (task) return engine.question(sandbox, JSON.stringify(task));
        return engine.ask(sandbox, this.#kind.value, (this.#seed += 1));
      });
      if (question && this.#questions.length < MOST) this.#questions = [...this.#questions, question];
      desk.dismiss();
    } catch (error) {
      desk.report(error, say("page-exercise-refused"));
    }
    this.#renew();
  }

  #addWalk() {
    const { range } = this.#desk.answer ?? {};
    if (range && this.#walk.length < MOST_WALKED) this.#walk = [...this.#walk, range];
    this.#renew();
  }

  /** The task that is chosen; nothing where dice choose it. @returns {Partial<TaskText> | undefined} */
  #task() {
    const task = /** @type {TaskKind} */ (this.#kind.value);
    const { answer } = this.#desk;
    const range = this.#range.value;
    switch (task) {
      case "reach":
        return answer?.ratio ? { task, ratio: answer.ratio.fraction } : undefined;
      case "members":
        return { task, range, set: this.#set.value, part: /** @type {TaskText["part"]} */ (this.#part.value) };
      case "direction":
      case "speed":
        return { task, range, shaft: this.#shaft.value };
      case "neutral":
        return answer?.applied.length ? { task, applied: answer.applied.length } : undefined;
      default:
        return undefined;
    }
  }

  #renew() {
    this.#show();
    this.#changed();
  }

  #show() {
    const names = new Map(rangeOptions(this.#desk));
    const walked = this.#walk.map((id, at) => ({
      words: say("page-exercise-walk-of", { range: names.get(id) ?? id }),
      gone: () => (this.#walk = this.#walk.filter((_, other) => other !== at)),
    }));
    const asked = this.#questions.map((question) => ({
      words: taskWords(question),
      gone: () => (this.#questions = this.#questions.filter((other) => other !== question)),
    }));
    const items = [...walked, ...asked].map(({ words, gone }, at) => {
      const remove = say("page-exercise-remove", { what: words });
      const click = () => {
        gone();
        this.#renew();
      };
      return h("li", {}, h("span", {}, words), h("button", { class: "plain", type: "button", "aria-label": remove, title: remove, "data-remove": at, click }, "×"));
    });
    this.#list.replaceChildren(...items);
    this.#use.disabled = asked.length === 0;
    this.#save.disabled = items.length === 0;
  }

  #name() {
    return this.#title.value.trim() || say("page-exercise-untitled", { train: this.#desk.info?.name ?? "" });
  }

  /** What is put together, as a file has it; nothing where that is nothing. */
  get sheet() {
    if (this.#walk.length + this.#questions.length === 0) return undefined;
    const { source } = this.#desk;
    const scenario = source && "stem" in source ? { scenario: source.stem } : {};
    const walk = this.#walk.length > 0 ? { walk: this.#walk } : {};
    return { format: FORMAT, title: this.#name(), ...scenario, ...walk, tasks: this.#questions.map(({ task }) => task) };
  }

  /** The same as it is asked; nothing where there is no question yet. @returns {import("../engine/levertrain_whole.js").ExerciseSheet | undefined} */
  get lesson() {
    return this.#questions.length > 0 ? { title: this.#name(), walk: this.#walk, questions: this.#questions } : undefined;
  }

  #keep() {
    const { sheet } = this;
    if (sheet) save(new Blob([`${JSON.stringify(sheet, null, 2)}\n`], { type: "application/json" }), `${slug(sheet.title)}.json`);
  }
}
