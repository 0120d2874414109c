/** Putting questions together: each from what is on screen, kept as a sheet to hand on. */

import { h, write } from "../kit/dom.js";
import { save, slug } from "../kit/save.js";
import { say } from "../kit/words.js";
import { listScenarios } from "../state/catalogue.js";
import { KeptSheets } from "./kept_sheets.js";
import { SheetList } from "./sheet_list.js";
import { FORMAT, fileOf } from "./sheet_text.js";
import { asideRows, keyOf } from "./sheets_aside.js";
import { CHOSEN, PARTS, choice, lineWords, rangeOptions } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").ExerciseSheet} Sheet */
/** @typedef {import("../engine/levertrain_whole.js").TaskText} TaskText */
/** @typedef {import("../engine/levertrain_whole.js").TaskKind} TaskKind */
/** @typedef {import("../state/desk.js").Desk} Desk */
/** A task, and what it asks of the train on stage; nothing where that has not what it is about. @typedef {{ task: TaskText, question?: Question }} Asked */
/** @typedef {{ walk: string[], asked: Asked[] }} Content */

/** Most tasks of a sheet. */
const MOST = 40;
/** Most ranges to walk through first. */
const MOST_WALKED = 12;
/** So often dice are thrown for a question that is not there yet. */
const THROWS = 12;

export class Setting {
  #desk;
  #files;
  #start;
  #changed;
  #kept;
  /** @type {Content} */
  #content = { walk: [], asked: [] };
  /** What was there before all of it was dropped. @type {(Content & { title: string }) | undefined} */
  #before;
  /** The train whose sheet it is. @type {import("../state/desk.js").TrainInfo | undefined} */
  #info;
  /** Whether another train is on stage, and not the same after a change of it. */
  #isOther = true;
  /** The range that was on stage last. @type {string | null | undefined} */
  #staged;
  #kind = choice("exercise-set-kind", say("page-exercise-kind"), () => this.#offer());
  #range = choice("exercise-set-range", say("page-chart-range"));
  #set = choice("exercise-set-set", say("page-exercise-set"));
  #shaft = choice("exercise-set-shaft", say("page-exercise-shaft"));
  #part = choice("exercise-set-part", say("page-exercise-part-of"));
  #note = h("p", { class: "note" });
  /** What is to be done before something can be added. */
  #first = h("p", { class: "note", "data-part": "exercise-first" });
  #title = /** @type {HTMLInputElement} */ (h("input", { type: "text", maxlength: 80, "aria-label": say("page-exercise-title"), "data-part": "exercise-title", input: () => this.#renew() }));
  #list = new SheetList((at, to) => this.#shift(at, to), (at) => this.#remove(at));
  /** Why something was not added. */
  #refused = h("p", { class: "note", role: "status", "data-part": "exercise-refused" });
  #lasts = h("p", { class: "note", role: "status", "data-part": "exercise-lasts" });
  /** The sheets of other trains. */
  aside = h("div", { class: "exercise-aside", role: "status", "data-part": "exercise-aside" });
  /** What the scenarios are called, by their stems. @type {Map<string, string>} */
  #names = new Map();
  #add;
  #walkThis;
  #use;
  #save;
  #drop;
  #back;
  /** Counts what was asked for by dice. */
  #seed = 0;

  /**
   * @param {Desk} desk
   * @param {{ files: import("../state/kept_files.js").Files, keeps: boolean }} page the user's own trains, and whether the browser keeps
   *   sheets
   * @param {(sheet: Sheet) => void} start
   * @param {() => void} changed calls back with every change of the sheet
   */
  constructor(desk, { files, keeps }, start, changed) {
    this.#desk = desk;
    this.#files = files;
    this.#kept = new KeptSheets(keeps);
    this.#start = start;
    this.#changed = changed;
    const button = (/** @type {string} */ words, /** @type {string} */ part, /** @type {() => void} */ click) =>
      /** @type {HTMLButtonElement} */ (/** @type {unknown} */ (h("button", { class: "plain", type: "button", "data-part": part, click }, words)));
    this.#add = button(say("page-exercise-add"), "exercise-add", () => this.#ask());
    this.#walkThis = button(say("page-exercise-walk-add"), "exercise-walk-add", () => this.#addWalk());
    this.#use = button(say("page-exercise-try"), "exercise-try", () => this.lesson && this.#start(this.lesson));
    this.#save = button(say("page-exercise-save"), "exercise-save", () => this.#saveFile());
    this.#drop = button(say("page-exercise-drop"), "exercise-drop", () => this.#empty());
    this.#back = button(say("page-exercise-back"), "exercise-back", () => this.#bringBack());
    const fields = [this.#kind, this.#range, this.#set, this.#shaft, this.#part];
    this.node = h(
      "details",
      { class: "exercise-setting", "data-part": "exercise-setting" },
      h("summary", {}, say("page-exercise-setting")),
      h("p", { class: "note" }, say("page-exercise-setting-note")),
      h("div", { class: "exercise-lines" }, ...fields.map(({ node }) => node)),
      this.#note,
      h("p", { class: "row" }, this.#add, this.#walkThis),
      this.#first,
      this.#refused,
      this.#list.node,
      h("label", { class: "exercise-line" }, h("span", {}, say("page-exercise-title")), this.#title),
      h("p", { class: "row" }, this.#use, this.#save, this.#drop, this.#back),
      this.#lasts,
    );
    this.#show();
    listScenarios().then((entries) => {
      this.#names = new Map(entries.map(({ stem, name }) => [stem, name]));
      this.#showAside();
    });
  }

  /** Another train is there, or the same after a change. */
  trainCame() {
    if (!this.#desk.editing) this.#isOther = true;
  }

  /** Brings it up to date with the train. @param {TaskKind[]} kinds */
  update(kinds) {
    const { info } = this.#desk;
    if (!info) return;
    if (info !== this.#info) this.#takeTrain(info);
    const { answer } = this.#desk;
    this.#kind.offer(kinds.map((kind) => [kind, say("page-exercise-kind-of", { kind })]));
    this.#range.offer(rangeOptions(this.#desk));
    // A range that comes on stage is what is to be asked about next.
    if (answer?.range && answer.range !== this.#staged) this.#range.pick(answer.range);
    this.#staged = answer?.range;
    this.#set.offer(answer?.couplings.map(({ id, label }) => [id, label]) ?? []);
    this.#shaft.offer(info.shafts.filter(({ id }) => id !== info.input).map(({ id, label }) => [id, label]));
    this.#part.offer(PARTS.map((part) => [part, say("page-exercise-part-name", { part })]));
    this.#walkThis.disabled = !answer?.range;
    this.#offer();
  }

  /** Takes up the sheet of another train; of one that was only changed, what can still be asked. @param {import("../state/desk.js").TrainInfo} info */
  #takeTrain(info) {
    this.#info = info;
    this.#staged = undefined;
    this.#refused.textContent = "";
    if (this.#isOther) {
      const kept = this.#kept.get(keyOf(this.#desk));
      this.#content = { walk: kept?.walk ?? [], asked: (kept?.tasks ?? []).map((task) => ({ task })) };
      this.#title.value = kept?.title ?? "";
      this.#before = undefined;
    }
    this.#isOther = false;
    this.#read();
    // A changed train is another file, which has its sheet from now on.
    if (this.#isEmpty) this.#show();
    else this.#renew();
    this.#changed();
  }

  /** Looks up what the tasks ask of this train. */
  #read() {
    const { asked } = this.#content;
    const together = JSON.stringify({ format: FORMAT, title: "", tasks: asked.map(({ task }) => task) });
    try {
      const sheet = this.#desk.askWhole((engine, sandbox) => engine.readExercises(sandbox, together));
      asked.forEach((one, at) => (one.question = sheet?.questions[at]));
    } catch {
      for (const one of asked) one.question = this.#questionOf(one.task);
    }
  }

  /** @param {TaskText} task @returns {Question | undefined} */
  #questionOf(task) {
    try {
      return this.#desk.askWhole((engine, sandbox) => engine.question(sandbox, JSON.stringify(task)));
    } catch {
      // The train has not what it is about, which the list says.
      return undefined;
    }
  }

  #offer() {
    const kind = /** @type {TaskKind} */ (this.#kind.value);
    const chosen = CHOSEN[kind] ?? [];
    const fields = /** @type {const} */ ([["range", this.#range], ["set", this.#set], ["shaft", this.#shaft], ["part", this.#part]]);
    for (const [name, field] of fields) field.node.hidden = !chosen.includes(name);
    this.#note.textContent = say("page-exercise-from", { kind });
    // In neutral there is no ratio to ask for.
    this.#add.disabled = kind === "reach" && !this.#desk.answer?.ratio;
    const missing = this.#add.disabled ? "ratio" : this.#walkThis.disabled ? "range" : undefined;
    this.#first.hidden = !missing;
    if (missing) write(this.#first, say("page-exercise-first", { missing }));
  }

  #ask() {
    const { asked } = this.#content;
    this.#refused.textContent = "";
    try {
      const question = this.#made();
      this.#desk.dismiss();
      if (!question) return;
      if (this.#has(question)) this.#refuse("twice", lineWords(question));
      else if (asked.length >= MOST) this.#refuse("full", String(MOST));
      else asked.push({ task: question.task, question });
      this.#before = undefined;
    } catch (error) {
      this.#desk.report(error, say("page-exercise-refused"));
    }
    this.#renew();
  }

  /** The question that is chosen; by dice one that is not there yet, where there is one. */
  #made() {
    const desk = this.#desk;
    const task = this.#task();
    if (task) return desk.askWhole((engine, sandbox) => engine.question(sandbox, JSON.stringify(task)));
    /** @type {Question | undefined} */
    let made;
    for (let count = 0; count < THROWS && (!made || this.#has(made)); count += 1) {
      made = desk.askWhole((engine, sandbox) => engine.ask(sandbox, this.#kind.value, (this.#seed += 1)));
    }
    return made;
  }

  /** Whether a question asks what another one does. @param {Question} question */
  #has({ task }) {
    const text = JSON.stringify(task);
    return this.#content.asked.some((one) => JSON.stringify(one.question?.task ?? one.task) === text);
  }

  #addWalk() {
    const { range } = this.#desk.answer ?? {};
    if (!range) return;
    const { walk } = this.#content;
    this.#refused.textContent = "";
    if (walk.includes(range)) this.#refuse("twice", this.#walkWords(range));
    else if (walk.length >= MOST_WALKED) this.#refuse("full-walk", String(MOST_WALKED));
    else walk.push(range);
    this.#before = undefined;
    this.#renew();
  }

  /** @param {"twice" | "full" | "full-walk"} why @param {string} what */
  #refuse(why, what) {
    this.#refused.textContent = say("page-exercise-not-added", { why, what });
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

  /** Moves a line of the list among its like. @param {number} from @param {number} to */
  #shift(from, to) {
    const { walk, asked } = this.#content;
    const first = from < walk.length ? 0 : walk.length;
    /** @type {unknown[]} */
    const like = first === 0 ? walk : asked;
    like.splice(to - first, 0, ...like.splice(from - first, 1));
    this.#before = undefined;
    this.#renew();
  }

  /** @param {number} at of the list */
  #remove(at) {
    const { walk, asked } = this.#content;
    if (at < walk.length) walk.splice(at, 1);
    else asked.splice(at - walk.length, 1);
    this.#before = undefined;
    this.#renew();
    if (this.#isEmpty) this.#add.focus();
  }

  /** Drops all of it; it can be brought back until something else is put together. */
  #empty() {
    const { walk, asked } = this.#content;
    this.#before = { walk, asked, title: this.#title.value };
    this.#content = { walk: [], asked: [] };
    this.#title.value = "";
    this.#renew();
    this.#back.focus();
  }

  #bringBack() {
    if (!this.#before) return;
    const { walk, asked, title } = this.#before;
    this.#content = { walk, asked };
    this.#title.value = title;
    this.#before = undefined;
    this.#renew();
    this.#add.focus();
  }

  /** Takes a sheet that was opened, to be changed. @param {Sheet} sheet */
  take({ title, walk, questions }) {
    if (!this.#isEmpty) this.#empty();
    this.#content = { walk: [...walk], asked: questions.map((question) => ({ task: question.task, question })) };
    this.#title.value = title;
    /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (this.node)).open = true;
    this.#renew();
    this.#add.focus();
  }

  get #isEmpty() {
    const { walk, asked } = this.#content;
    return walk.length + asked.length === 0;
  }

  /** Keeps it as it is now, and shows it. */
  #renew() {
    const { walk, asked } = this.#content;
    const tasks = asked.map(({ task }) => task);
    const sheet = { title: this.#title.value, walk, tasks, time: Date.now() };
    const lasts = this.#kept.set(keyOf(this.#desk), this.#isEmpty ? undefined : sheet);
    if (!this.#isEmpty) this.#lasts.textContent = say("page-exercise-lasts", { lasts: lasts ? "yes" : "no" });
    this.#show();
    this.#changed();
  }

  /** @param {string} id of a range */
  #walkWords(id) {
    const range = new Map(rangeOptions(this.#desk)).get(id) ?? id;
    return say("page-exercise-walk-of", { range });
  }

  #show() {
    const { walk, asked } = this.#content;
    const known = new Map(rangeOptions(this.#desk));
    const last = walk.length + asked.length - 1;
    const walked = walk.map((id) => ({ words: this.#walkWords(id), asked: known.has(id), least: 0, most: walk.length - 1 }));
    const questions = asked.map(({ task, question }) => {
      const words = question ? lineWords(question) : say("page-exercise-kind-of", { kind: task.task });
      return { words, asked: question !== undefined, least: walk.length, most: last };
    });
    this.#list.show([...walked, ...questions]);
    this.#use.disabled = !this.lesson;
    this.#save.disabled = !this.sheet;
    this.#drop.hidden = this.#isEmpty;
    this.#back.hidden = !this.#before;
    this.#lasts.hidden = this.#isEmpty;
    this.#showAside();
  }

  #showAside() {
    const details = /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (this.node));
    const rows = this.#desk.isLocked("train") ? [] : asideRows(this.#kept, keyOf(this.#desk), this.#files, this.#names, () => (details.open = true));
    this.aside.replaceChildren(...rows);
    this.aside.hidden = rows.length === 0;
  }

  #name() {
    return this.#title.value.trim() || say("page-exercise-untitled", { train: this.#desk.info?.name ?? "" });
  }

  /** Of what is put together that which this train has. @returns {Sheet} */
  get #now() {
    const known = new Map(rangeOptions(this.#desk));
    const { walk, asked } = this.#content;
    return { title: this.#name(), walk: walk.filter((id) => known.has(id)), questions: asked.flatMap(({ question }) => question ?? []) };
  }

  /** The same as a file has it; nothing where that is nothing. */
  get sheet() {
    const { lesson } = this;
    if (!lesson) return undefined;
    const { source } = this.#desk;
    return fileOf(lesson, source && "stem" in source ? source.stem : undefined);
  }

  /** The same as it is walked through and asked; nothing where that is nothing. @returns {Sheet | undefined} */
  get lesson() {
    const now = this.#now;
    return now.walk.length + now.questions.length > 0 ? now : undefined;
  }

  #saveFile() {
    const { sheet } = this;
    if (sheet) save(new Blob([`${JSON.stringify(sheet, null, 2)}\n`], { type: "application/json" }), `${slug(sheet.title)}.json`);
  }
}
