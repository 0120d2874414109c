/** One round: the ranges of a sheet that are walked through first, and then questions, one after the other, marked as they are answered. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { earned, untouched, written } from "./progress.js";
import { QuestionCard } from "./question_card.js";
import { resultWords } from "./results.js";
import { taskWords, hundredths } from "./task_words.js";
import { WalkFirst } from "./walk_first.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").ExerciseSheet} Sheet */
/** @typedef {import("./progress.js").Given} Given */
/** @typedef {import("./results.js").Came} Came */
/** @typedef {import("../state/desk.js").Desk} Desk */

export class Round {
  #desk;
  #panel;
  #ended;
  #walk;
  /** @type {Question[]} */
  #questions = [];
  /** Ranges that are walked through first. @type {string[]} */
  #ranges = [];
  #at = 0;
  /** @type {QuestionCard | undefined} */
  #card;
  /** What became of the questions so far. @type {Given[]} */
  #given = [];
  /** Whether it is the sheet that the element is to ask: it is gone through, and nothing is looked up meanwhile. */
  #isNamed = false;
  /** Whether the page does what a question asks for. */
  #isOwn = false;
  #title = h("h3");
  #place = h("p", { class: "quiet", "data-part": "exercise-place" });
  #holder = h("div");
  #next = h("button", { class: "plain", type: "button", "data-part": "exercise-next", click: () => this.#goOn() });
  #stop = h("button", { class: "plain", type: "button", "data-part": "exercise-stop", click: () => this.end() }, say("page-exercise-stop"));

  /**
   * @param {Desk} desk
   * @param {{ panel: import("../kit/panel.js").Panel, section: HTMLElement, signal: AbortSignal }} page
   * @param {(score: string, asks: boolean, came?: Came) => void} ended told what came of it, whether the focus is to stay in
   *   the panel, and of which questions that is told
   */
  constructor(desk, { panel, section, signal }, ended) {
    this.#desk = desk;
    this.#panel = panel;
    this.#ended = ended;
    this.#walk = new WalkFirst(desk, { section, signal }, (action) => this.#act(action), (passed) => this.#walked(passed));
    this.node = h(
      "div",
      { class: "exercise-round", "data-part": "exercise-round", hidden: true },
      this.#title,
      this.#walk.node,
      this.#place,
      this.#holder,
      h("p", { class: "row" }, this.#next, this.#stop),
    );
  }

  /** Whether there is one. */
  get isOpen() {
    return !this.node.hidden;
  }

  /** Whether it can be left. */
  get isNamed() {
    return this.#isNamed;
  }

  /**
   * @param {Sheet} sheet
   * @param {{ asks?: boolean, isNamed?: boolean, before?: Given[] }} [how] whether somebody asked for it just now, whether it is the
   *   sheet that the element is to ask, and what became of it before
   */
  begin({ title, walk, questions }, { asks = true, isNamed = false, before = [] } = {}) {
    this.#walk.end();
    this.#questions = questions;
    this.#ranges = walk;
    this.#given = before;
    this.#isNamed = isNamed;
    this.#at = before.filter(({ done }) => done).length;
    this.#title.textContent = title;
    this.node.hidden = false;
    this.#stop.hidden = isNamed;
    // Who goes on with its questions has been through that.
    if (walk.length > 0 && before.length === 0) this.#walkThrough(walk, asks);
    else if (this.#at < questions.length) this.#show(asks);
    else this.end(asks);
  }

  /** @param {string[]} ranges @param {boolean} asks */
  #walkThrough(ranges, asks) {
    this.#card = undefined;
    this.#holder.replaceChildren();
    this.#place.textContent = "";
    this.#next.hidden = true;
    this.#desk.veil("walk");
    this.#walk.begin(ranges, this.#questions.length > 0);
    if (!asks) return;
    this.#walk.focus();
    this.#panel.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** @param {{ at: number, of: number, range: string }} passed */
  #walked({ at, of, range }) {
    const done = at === of;
    const detail = { title: this.#title.textContent ?? "", range, at, of, done, sheet: this.#isNamed, questions: this.#questions.length };
    this.#desk.dispatchEvent(new CustomEvent("walked", { detail }));
    if (!done) return;
    this.#walk.end();
    if (this.#questions.length > 0) this.#show();
    else this.end();
  }

  /** @param {boolean} [asks] whether it is to have the focus */
  #show(asks = true) {
    const [desk, questions, at] = [this.#desk, this.#questions, this.#at];
    const question = questions[at];
    this.#given[at] ??= untouched();
    this.#card = new QuestionCard(desk, question, this.#given[at], () => this.#answered());
    this.#holder.replaceChildren(this.#card.node);
    this.#tellPlace();
    this.#next.textContent = at + 1 < questions.length ? say("page-exercise-next") : say("page-exercise-finish");
    this.#next.hidden = true;
    // What stands applied could be the answer.
    this.#act(() => desk.apply([]));
    desk.veil(question.by === "stage" ? "stage" : "closed");
    if (!asks) return;
    const first = /** @type {HTMLElement | null} */ (this.#card.node.querySelector("input, button:enabled"));
    first?.focus({ preventScroll: true });
    this.#panel.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  #tellPlace() {
    const [points, of] = [this.#points(), this.#questions.length];
    this.#place.textContent = say("page-exercise-place", { at: this.#at + 1, of, points, much: points === "1" ? "one" : "other" });
  }

  /** Nothing is left to answer: the stage shows what was asked about. All else would answer the next ones. */
  #answered() {
    const desk = this.#desk;
    desk.veil("stage");
    const { range } = this.#questions[this.#at];
    const known = desk.info?.ranges.find(({ id }) => id === range);
    if (known) this.#act(() => desk.apply(known.applied));
    this.#tellPlace();
    this.#tellScore();
    this.#next.hidden = false;
    this.#next.focus({ preventScroll: true });
    this.#next.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  #goOn() {
    this.#at += 1;
    if (this.#at < this.#questions.length) this.#show();
    else this.end();
  }

  /**
   * @param {boolean} [asks] whether the focus is to stay in the panel
   * @param {boolean} [isThere] whether the train is there that was asked about
   */
  end(asks = true, isThere = true) {
    const [questions, given] = [this.#questions, this.#given];
    const came = { questions, given, whole: this.#at >= questions.length };
    // Before the first question nothing has come of any.
    const asked = questions.length > 0 && !this.#walk.isOpen;
    const result = asked ? resultWords(came) : this.#walk.isOpen ? "" : say("page-walk-through");
    this.#walk.end();
    this.#desk.veil(undefined);
    this.#questions = [];
    this.#card = undefined;
    this.#holder.replaceChildren();
    this.node.hidden = true;
    this.#ended(result, asks, isThere && asked ? came : undefined);
  }

  /** What is asked, how far somebody has come, and what is in the fields; nothing where no round is open. */
  get inHand() {
    if (!this.isOpen) return undefined;
    this.tick();
    const questions = this.#questions;
    return {
      title: this.#title.textContent ?? "",
      walk: this.#walk.isOpen ? this.#ranges : [],
      tasks: questions.map(({ task }) => task),
      progress: written(questions, this.#given),
      draft: this.#card?.draft,
    };
  }

  /** Puts into the fields what was in them. @param {string[] | undefined} answer */
  set draft(answer) {
    const card = this.#card;
    if (card) this.#act(() => (card.draft = answer));
  }

  /** Tells the page around, which may keep it. */
  #tellScore() {
    const [questions, given, at] = [this.#questions, this.#given, this.#at];
    const { credit, tries, seconds, answer } = given[at];
    const { task } = questions[at].task;
    const question = { number: at + 1, id: `q${at + 1}-${task}`, task, text: taskWords(questions[at]), credit, tries, seconds, answer };
    const detail = { title: this.#title.textContent ?? "", points: earned(given), of: questions.length, done: at + 1 === questions.length, sheet: this.#isNamed, question };
    this.#desk.dispatchEvent(new CustomEvent("score", { detail }));
  }

  #points() {
    return hundredths(earned(this.#given));
  }

  /** @param {() => void} action */
  #act(action) {
    this.#isOwn = true;
    try {
      this.#desk.byPage(action);
    } finally {
      this.#isOwn = false;
    }
  }

  /** Counts the time that the question takes. */
  tick() {
    this.#card?.tick();
  }

  /** What is applied has changed. */
  follow() {
    this.#walk.follow();
    const desk = this.#desk;
    // Somebody looks it up, by the way back of the browser for one: that question is over, or nothing comes of it.
    const looked = !this.#isOwn && this.#card && !this.#given[this.#at].done && this.#questions[this.#at].by !== "stage" && (desk.answer?.applied.length ?? 0) > 0;
    if (looked && this.#isNamed) this.#act(() => desk.apply([]));
    else if (looked) this.end();
  }
}
