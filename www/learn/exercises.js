/** Exercises: questions about the train on stage, made by dice, or of a sheet that somebody has put together. */

import { h } from "../kit/dom.js";
import { Folds } from "../kit/folds.js";
import { problemsOf } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { carried, carries } from "../state/carried.js";
import { listScenarios } from "../state/catalogue.js";
import { follow } from "../state/follow.js";
import { handout } from "./handout.js";
import { Package } from "./package.js";
import { resumed, written } from "./progress.js";
import { resultList, resultWords } from "./results.js";
import { Round } from "./round.js";
import { Setting } from "./setting.js";
import { FORMAT, fileOf, sheetAt } from "./sheet_text.js";
import { choice } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").TaskKind} TaskKind */
/** @typedef {import("../engine/levertrain_whole.js").ExerciseSheet} Sheet */

/** Questions of a round that dice make. */
const ROUND = 5;
/** Largest seed. */
const SEEDS = 2 ** 32;
/** What stands for questions of all kinds. */
const MIXED = "mixed";
/** What stands for the sheet of the scenario in an attribute. */
const SCENARIO = "scenario";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {object} surroundings
 * @param {import("../state/desk.js").Desk} surroundings.desk
 * @param {import("../state/kept_files.js").Files} surroundings.files
 * @param {HTMLElement} surroundings.section
 * @param {boolean} surroundings.keeps
 * @param {import("../state/open_sheet.js").OpenSheet} surroundings.openSheet
 * @param {string} [surroundings.exercise]
 * @param {import("./progress.js").Progress} surroundings.progress
 * @param {AbortSignal} surroundings.signal
 */
export function fill(panel, { desk, files, section, keeps, openSheet, exercise, progress, signal }) {
  /** The sheet that was asked last, and what became of it. @type {() => string | undefined} */
  let kept = () => undefined;
  /** The sheet that was opened last. @type {Sheet | undefined} */
  let opened;
  /** Asks that sheet from where somebody was in it. @type {() => void} */
  let resume = () => undefined;
  /** @type {TaskKind[]} */
  let kinds = [];
  /** The sheet that is to be asked first. */
  let wanted = exercise;

  const kind = choice("exercise-kind", say("page-exercise-kind"));
  const button = (/** @type {string} */ words, /** @type {string} */ part, /** @type {() => void} */ click) =>
    h("button", { class: "plain", type: "button", "data-part": part, click }, words);
  const begin = button(say("page-exercise-begin", { count: ROUND }), "exercise-begin", () => {
    start({ title: say("page-exercise-fresh"), walk: [], questions: fresh() });
    isFresh = true;
  });
  const sheet = button(say("page-exercise-sheet"), "exercise-sheet", () => openAt(ours()));
  const file = /** @type {HTMLInputElement} */ (h("input", { type: "file", accept: ".json,application/json", hidden: true, change: () => openFile() }));
  const pick = button(say("page-exercise-open"), "exercise-open", () => file.click());
  const change = button(say("page-exercise-take"), "exercise-take", () => opened && setting.take(opened));
  const setting = new Setting(desk, { files, keeps }, (lesson) => start(lesson), offerSheets);
  const parcel = new Package(desk, sheets);
  const offer = h("div", { class: "exercise-offer" }, kind.node, h("p", { class: "row" }, begin, sheet, pick, change, file), setting.aside, setting.node);
  // Who is to answer a sheet makes none, and prints no answers.
  const paper = handout(desk, { sheets, signal });
  if (exercise === undefined) offer.append(paper.node, parcel.node);
  for (const node of [pick, setting.node]) node.hidden = exercise !== undefined;
  if (exercise !== undefined) setting.aside.remove();

  const result = h("p", { class: "exercise-score", role: "status", "data-part": "exercise-score" });
  const round = new Round(desk, { panel, section, signal }, ended);
  offer.prepend(h("p", { class: "note" }, say("page-exercise-note")));
  const results = h("div", { class: "exercise-came" });
  panel.fill(h("div", { class: "exercises" }, result, results, offer, round.node));

  /** What was in hand in another language: a round or what came of one, the sheet that was opened last, and what was unfolded. */
  let inHand = exercise === undefined ? carried("exercises") : undefined;
  /** Whether the round was made by dice, so that its title is ours. */
  let isFresh = false;
  /** What came of the last round. @type {import("./results.js").Came | undefined} */
  let came;
  const folds = new Folds(inHand?.folds);
  for (const node of [setting.node, paper.node, parcel.node]) folds.keep(node.dataset.part ?? "", node);
  const hand = () => ({
    round: round.inHand && { ...round.inHand, isFresh },
    came: came && { tasks: tasksOf(came.questions), progress: written(came.questions, came.given), whole: came.whole },
    file: opened && fileOf(opened),
    folds: folds.open,
  });
  if (exercise === undefined) carries("exercises", () => inHand ?? hand(), signal);

  /** What was applied before the first question. @type {string[]} */
  let before = [];

  /**
   * @param {Sheet} asked
   * @param {Parameters<Round["begin"]>[1]} [how]
   */
  function start(asked, how) {
    if (asked.walk.length + asked.questions.length === 0) return;
    before = desk.answer?.applied ?? [];
    isFresh = false;
    result.textContent = "";
    tellResults();
    offer.hidden = true;
    round.begin(asked, how);
  }

  /**
   * @param {string} score
   * @param {boolean} asks whether the focus is to stay in the panel
   * @param {import("./results.js").Came} [which] the questions that it is told of
   */
  function ended(score, asks, which) {
    result.textContent = score;
    tellResults(which);
    offer.hidden = false;
    if (!asks) return;
    // Whoever puts a sheet together goes on with what was on stage.
    desk.byPage(() => desk.apply(before));
    begin.focus({ preventScroll: true });
    panel.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** Lists what came of each question, or nothing. @param {import("./results.js").Came} [which] */
  function tellResults(which) {
    came = which;
    results.replaceChildren(...(which ? [resultList(desk, which)] : []));
  }

  /** Questions made by dice. */
  function fresh() {
    const wanted = /** @type {TaskKind | typeof MIXED} */ (kind.value);
    const texts = new Set();
    /** @type {Question[]} */
    const made = [];
    const first = Math.floor(Math.random() * SEEDS);
    for (let tries = 0; made.length < ROUND && tries < 6 * ROUND; tries += 1) {
      const asked = wanted === MIXED ? kinds[(first + tries) % kinds.length] : wanted;
      const question = desk.askWhole((engine, sandbox) => engine.ask(sandbox, asked, (first + tries * 7919) % SEEDS));
      const text = JSON.stringify(question?.task);
      if (!question || texts.has(text)) continue;
      texts.add(text);
      made.push(question);
    }
    return made;
  }

  /** The address of the sheet that comes with the scenario, where that is one of ours. */
  function ours() {
    const { source } = desk;
    return source && "stem" in source ? siteFile(`scenarios/exercises/${source.stem}.json`) : undefined;
  }

  /** @param {URL | undefined} address @param {boolean} [isNamed] */
  async function openAt(address, isNamed = false) {
    if (!address) return;
    try {
      ask(await sheetAt(address), isNamed);
    } catch (error) {
      desk.report(error, say("page-exercise-refused"));
    }
  }

  async function openFile() {
    const chosen = file.files?.[0];
    file.value = "";
    if (chosen) opened = ask(await chosen.text());
    offerSheets();
  }

  /** Throws what keeps a text from being a sheet. @param {string} text */
  function read(text) {
    return desk.askWhole((engine, sandbox) => engine.readExercises(sandbox, text));
  }

  /** @param {string} text @param {boolean} [isNamed] @returns what was read */
  function ask(text, isNamed = false) {
    try {
      const found = read(text);
      desk.dismiss();
      if (found) startSheet(found, isNamed);
      return found;
    } catch (error) {
      desk.report({ problems: problemsOf(error) }, say("page-exercise-refused"));
      return undefined;
    }
  }

  /**
   * The sheets that can be printed and packaged: what was put together, the one that was opened last, and the one of the scenario.
   * @returns {import("./sheet_text.js").Offered[]}
   */
  function sheets() {
    /** @type {ReturnType<typeof sheets>} */
    const found = [];
    for (const [key, made] of /** @type {const} */ ([["made", setting.lesson], ["opened", opened]])) {
      if (!made || made.walk.length + made.questions.length === 0) continue;
      found.push({ key, name: made.title, lesson: async () => made, text: async () => JSON.stringify(fileOf(made)) });
    }
    const address = sheet.hidden ? undefined : ours();
    if (address) found.push({ key: "scenario", name: say("page-exercise-sheet"), lesson: async () => read(await sheetAt(address)), text: () => sheetAt(address) });
    return found;
  }

  /** @param {Sheet} asked @param {boolean} isNamed */
  function startSheet(asked, isNamed) {
    const { questions } = asked;
    const text = progress.take();
    /** @type {import("./progress.js").Given[]} */
    let before = [];
    try {
      if (text !== undefined) before = resumed(text, questions);
    } catch (error) {
      desk.report(error, say("page-exercise-unresumed"));
    }
    kept = () => {
      round.tick();
      return written(questions, before);
    };
    resume = () => startSheet(asked, isNamed);
    start(asked, { asks: !isNamed, isNamed, before });
  }

  /** Another train, or one that was changed. */
  function renew() {
    kept = () => undefined;
    resume = () => undefined;
    opened = undefined;
    result.textContent = "";
    tellResults();
    if (round.isOpen) round.end(true, false);
    setting.trainCame();
    update();
  }

  function update() {
    if (!desk.info || !panel.open || !desk.isWhole) return;
    kinds = desk.askWhole((engine, sandbox) => engine.questionKinds(sandbox)) ?? [];
    /** @type {[string, string][]} */
    const options = kinds.map((name) => [name, say("page-exercise-kind-of", { kind: name })]);
    kind.offer([[MIXED, say("page-exercise-kind-of", { kind: MIXED })], ...options]);
    begin.toggleAttribute("disabled", kinds.length === 0);
    setting.update(kinds);
    offerOurs();
    if (inHand) goOn();
    if (wanted === undefined) return;
    const address = wanted === SCENARIO ? ours() : new URL(wanted, document.baseURI);
    wanted = undefined;
    openAt(address, true);
  }

  /** Offers our own sheet of the scenario, where there is one. */
  async function offerOurs() {
    const { source } = desk;
    const entries = await listScenarios();
    if (source !== desk.source) return;
    sheet.hidden = !(source && "stem" in source && entries.some(({ stem, exercises }) => stem === source.stem && exercises));
    offerSheets();
  }

  /** What can be printed and packaged has changed. */
  function offerSheets() {
    change.hidden = !opened || exercise !== undefined;
    openSheet.file = setting.sheet ?? (opened && fileOf(opened));
    parcel.update();
    paper.update();
  }

  /** Goes on with what was in hand. */
  function goOn() {
    const { round: going, came: before, file } = inHand;
    inHand = undefined;
    try {
      opened = file && read(JSON.stringify(file));
      if (going) goOnWith(going);
      const asked = before && read(JSON.stringify({ format: FORMAT, title: say("page-exercise-fresh"), tasks: before.tasks }));
      if (!asked) return;
      const { questions } = asked;
      const which = { questions, given: resumed(before.progress, questions), whole: before.whole };
      result.textContent = resultWords(which);
      tellResults(which);
    } catch (error) {
      desk.report(error, say("page-exercise-unresumed"));
    }
  }

  /** @param {any} going a round */
  function goOnWith({ title, walk, tasks, progress: text, draft, isFresh: wasFresh }) {
    const asked = read(JSON.stringify({ format: FORMAT, title, ...(walk.length > 0 ? { walk } : {}), tasks }));
    if (!asked) return;
    if (wasFresh) asked.title = say("page-exercise-fresh");
    start(asked, { before: resumed(text, asked.questions) });
    isFresh = wasFresh;
    round.draft = draft;
  }

  progress.follow(() => kept(), () => resume());
  panel.toggled(() => {
    if (panel.open) update();
    else if (round.isOpen && !round.isNamed) round.end();
  });
  follow(desk, ["train"], renew);
  follow(desk, ["whole"], update);
  follow(desk, ["answer"], () => {
    if (panel.open && !round.isOpen) setting.update(kinds);
    round.follow();
  });
}

/** @param {import("../engine/levertrain_whole.js").Question[]} questions */
function tasksOf(questions) {
  return questions.map(({ task }) => task);
}
