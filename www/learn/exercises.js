/** Exercises: questions about the train on stage, one after the other, marked as they are answered. */

import { h } from "../kit/dom.js";
import { hostAnswered } from "../kit/before.js";
import { Failure, problemsOf } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { listScenarios, sheetInWords } from "../state/catalogue.js";
import { follow } from "../state/follow.js";
import { handout } from "./handout.js";
import { Package } from "./package.js";
import { earned, resumed, untouched, written } from "./progress.js";
import { QuestionCard } from "./question_card.js";
import { Setting } from "./setting.js";
import { choice, taskWords, tenths } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").TaskKind} TaskKind */

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
 * @param {{ desk: import("../state/desk.js").Desk, exercise?: string, progress: import("./progress.js").Progress, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, exercise, progress, signal }) {
  /** @type {Question[]} */
  let questions = [];
  let at = 0;
  /** @type {QuestionCard | undefined} */
  let card;
  /** What became of the questions so far. @type {import("./progress.js").Given[]} */
  let given = [];
  /** Whether it is the sheet that the element is to ask: it is gone through, and nothing is looked up meanwhile. */
  let named = false;
  /** The sheet that was asked last, and what became of it. @type {() => string | undefined} */
  let kept = () => undefined;
  /** The sheet that was opened last. @type {import("../engine/levertrain_whole.js").ExerciseSheet | undefined} */
  let opened;
  /** Asks that sheet from where somebody was in it. @type {() => void} */
  let resume = () => undefined;
  /** Whether the page does what a question asks for. */
  let own = false;
  /** @type {TaskKind[]} */
  let kinds = [];
  /** The sheet that is to be asked first. */
  let wanted = exercise;

  const kind = choice("exercise-kind", say("page-exercise-kind"));
  const button = (/** @type {string} */ words, /** @type {string} */ part, /** @type {() => void} */ click) =>
    h("button", { class: "plain", type: "button", "data-part": part, click }, words);
  const begin = button(say("page-exercise-begin", { count: ROUND }), "exercise-begin", () => start(say("page-exercise-fresh"), fresh()));
  const sheet = button(say("page-exercise-sheet"), "exercise-sheet", () => openAt(ours()));
  const file = /** @type {HTMLInputElement} */ (h("input", { type: "file", accept: ".json,application/json", hidden: true, change: () => openFile() }));
  const pick = button(say("page-exercise-open"), "exercise-open", () => file.click());
  const setting = new Setting(desk, start, offerSheets);
  const parcel = new Package(desk, sheets);
  const offer = h("div", { class: "exercise-offer" }, kind.node, h("p", { class: "row" }, begin, sheet, pick, file), setting.node);
  // Who is to answer a sheet makes none, and prints no answers.
  const paper = handout(desk, { ours: () => (sheet.hidden ? undefined : ours()), made: () => setting.sheet, signal });
  if (exercise === undefined) offer.append(paper.node, parcel.node);
  for (const node of [pick, setting.node]) node.hidden = exercise !== undefined;

  const title = h("h3");
  const place = h("p", { class: "quiet", "data-part": "exercise-place" });
  const holder = h("div");
  const next = button("", "exercise-next", () => goOn());
  const stop = button(say("page-exercise-stop"), "exercise-stop", () => end());
  const round = h("div", { class: "exercise-round", "data-part": "exercise-round", hidden: true }, title, place, holder, h("p", { class: "row" }, next, stop));
  const result = h("p", { class: "exercise-score", role: "status", "data-part": "exercise-score" });
  offer.prepend(h("p", { class: "note" }, say("page-exercise-note")));
  panel.fill(h("div", { class: "exercises" }, result, offer, round));

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

  /**
   * @param {string} name
   * @param {Question[]} asked
   * @param {{ asks?: boolean, isNamed?: boolean, before?: import("./progress.js").Given[] }} [how] whether somebody asked for it just
   *   now, whether it is the sheet that the element is to ask, and what became of it before
   */
  function start(name, asked, { asks = true, isNamed = false, before = [] } = {}) {
    if (asked.length === 0) return;
    questions = asked;
    given = before;
    named = isNamed;
    at = given.filter(({ done }) => done).length;
    title.textContent = name;
    result.textContent = "";
    offer.hidden = true;
    round.hidden = false;
    stop.hidden = named;
    if (at < questions.length) show(asks);
    else end(asks);
  }

  /** @param {boolean} [asks] whether it is to have the focus */
  function show(asks = true) {
    const question = questions[at];
    given[at] ??= untouched();
    card = new QuestionCard(desk, question, given[at], answered);
    holder.replaceChildren(card.node);
    place.textContent = say("page-exercise-place", { at: at + 1, of: questions.length, points: points(), much: points() === "1" ? "one" : "other" });
    next.textContent = at + 1 < questions.length ? say("page-exercise-next") : say("page-exercise-finish");
    next.hidden = true;
    // What stands applied could be the answer.
    act(() => desk.apply([]));
    desk.veil(question.by === "stage" ? "stage" : "closed");
    if (!asks) return;
    const first = /** @type {HTMLElement | null} */ (card.node.querySelector("input, button"));
    first?.focus({ preventScroll: true });
    panel.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** Nothing is left to answer: the stage shows what was asked about. All else would answer the next ones. */
  function answered() {
    desk.veil("stage");
    const { range } = questions[at];
    const known = desk.info?.ranges.find(({ id }) => id === range);
    if (known) act(() => desk.apply(known.applied));
    tellScore();
    next.hidden = false;
    next.focus({ preventScroll: true });
  }

  function goOn() {
    at += 1;
    if (at < questions.length) show();
    else end();
  }

  /** @param {boolean} [asks] whether the focus is to stay in the panel */
  function end(asks = true) {
    const whole = at >= questions.length;
    desk.veil(undefined);
    if (questions.length > 0) result.textContent = say("page-exercise-score", { points: points(), of: questions.length, share: tenths(Math.round((100 * earned(given)) / questions.length)), whole: whole ? "yes" : "no" });
    questions = [];
    card = undefined;
    holder.replaceChildren();
    round.hidden = true;
    offer.hidden = false;
    if (!asks) return;
    begin.focus({ preventScroll: true });
    panel.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** Tells the page around, which may keep it. */
  function tellScore() {
    const { credit, tries, seconds, answer } = given[at];
    const { task } = questions[at].task;
    const question = { number: at + 1, id: `q${at + 1}-${task}`, task, text: taskWords(questions[at]), credit, tries, seconds, answer };
    const detail = { title: title.textContent ?? "", points: earned(given), of: questions.length, done: at + 1 === questions.length, sheet: named, question };
    desk.dispatchEvent(new CustomEvent("score", { detail }));
  }

  function points() {
    return tenths(earned(given));
  }

  /** @param {() => void} action */
  function act(action) {
    own = true;
    try {
      desk.byPage(action);
    } finally {
      own = false;
    }
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
      ask(await textAt(address), isNamed);
    } catch (error) {
      desk.report(error, say("page-exercise-refused"));
    }
  }

  /** The text of a sheet. @param {URL} address */
  async function textAt(address) {
    const response = await fetch(address);
    if (!response.ok) throw new Failure(address.pathname, hostAnswered(response.status), say("page-exercise-find"));
    return sheetInWords(await response.text());
  }

  async function openFile() {
    const chosen = file.files?.[0];
    file.value = "";
    if (chosen) opened = ask(await chosen.text());
    parcel.update();
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
      if (found) startSheet(found.title, found.questions, isNamed);
      return found;
    } catch (error) {
      desk.report({ problems: problemsOf(error) }, say("page-exercise-refused"));
      return undefined;
    }
  }

  /**
   * The sheets that a package can be made of: what was put together, the one of the scenario, and the one opened last.
   * @returns {[string, () => Promise<import("../engine/levertrain_whole.js").ExerciseSheet | undefined> | import("../engine/levertrain_whole.js").ExerciseSheet][]}
   */
  function sheets() {
    /** @type {ReturnType<typeof sheets>} */
    const found = [];
    for (const made of [setting.lesson, opened]) if (made && made.questions.length > 0) found.push([made.title, () => made]);
    const address = sheet.hidden ? undefined : ours();
    if (address) found.push([say("page-exercise-sheet"), async () => read(await textAt(address))]);
    return found;
  }

  /** @param {string} name @param {Question[]} asked @param {boolean} isNamed */
  function startSheet(name, asked, isNamed) {
    const text = progress.take();
    /** @type {import("./progress.js").Given[]} */
    let before = [];
    try {
      if (text !== undefined) before = resumed(text, asked);
    } catch (error) {
      desk.report(error, say("page-exercise-unresumed"));
    }
    kept = () => {
      card?.tick();
      return written(asked, before);
    };
    resume = () => startSheet(name, asked, isNamed);
    start(name, asked, { asks: !isNamed, isNamed, before });
  }

  /** Another train, or one that was changed. */
  function renew() {
    kept = () => undefined;
    resume = () => undefined;
    opened = undefined;
    if (questions.length > 0) end();
    setting.clear();
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
    parcel.update();
    paper.update();
  }

  progress.follow(() => kept(), () => resume());
  panel.toggled(() => {
    if (panel.open) update();
    else if (questions.length > 0 && !named) end();
  });
  follow(desk, ["train"], renew);
  follow(desk, ["whole"], update);
  follow(desk, ["answer"], () => {
    if (panel.open && questions.length === 0) setting.update(kinds);
    // Somebody looks it up, by the way back of the browser for one: that question is over, or nothing comes of it.
    const looked = !own && card && !given[at].done && questions[at].by !== "stage" && (desk.answer?.applied.length ?? 0) > 0;
    if (looked && named) act(() => desk.apply([]));
    else if (looked) end();
  });
}
