/** One question: what is known, what is asked, the fields, and what came of the answer. */

import { h } from "../kit/dom.js";
import { table } from "../kit/table.js";
import { capital, say } from "../kit/words.js";
import { answerFields } from "./answer_fields.js";
import { hundredths } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../engine/levertrain_whole.js").Mark} Mark */
/** @typedef {import("../state/desk.js").Desk} Desk */

/** What a better answer is worth once there were hints. */
const LATER = 1 / 2;

export class QuestionCard {
  #desk;
  #question;
  #fields;
  #done;
  #told = h("div", { class: "exercise-told", role: "status" });
  #check;
  #reveal;
  /** That the drawing waits, until there is nothing left to answer. */
  #still = h("p", { class: "note" }, say("page-exercise-still"));
  /** What became of it so far: done once it is answered rightly, or the answer was shown. */
  #given;
  /** When it was asked, less what it took before. */
  #since;

  /**
   * @param {Desk} desk
   * @param {Question} question
   * @param {import("./progress.js").Given} given
   * @param {() => void} done calls back once nothing is left to answer
   */
  constructor(desk, question, given, done) {
    this.#given = given;
    this.#since = performance.now() - given.seconds * 1000;
    this.#desk = desk;
    this.#question = question;
    this.#done = done;
    this.#fields = answerFields(question, desk);
    this.#check = h("button", { class: "plain", type: "submit", "data-part": "exercise-check" }, say("page-exercise-check"));
    this.#reveal = h("button", { class: "plain", type: "button", "data-part": "exercise-reveal", click: () => this.#show() }, say("page-exercise-reveal"));
    this.#still.hidden = question.by === "stage";
    this.node = h(
      "form",
      { class: "exercise-card", submit: (/** @type {Event} */ event) => this.#submit(event) },
      ...(question.given ? [h("p", { class: "exercise-given" }, question.given)] : []),
      h("p", { class: "exercise-asked" }, question.text),
      ...(question.rows.length > 0 ? [becomes(question)] : []),
      ...this.#fields.nodes,
      this.#still,
      h("p", { class: "row" }, this.#check, this.#reveal),
      this.#told,
    );
  }

  /** @param {Event} event */
  #submit(event) {
    event.preventDefault();
    const given = this.#given;
    if (given.done) return;
    const answer = this.#fields.answer();
    const mark = this.#ask((engine, sandbox, task) => engine.mark(sandbox, task, answer));
    if (!mark) return;
    // Nobody is wrong who has said nothing yet.
    const unsaid = mark.right ? undefined : this.#unsaid(answer, mark.hints);
    if (unsaid) {
      delete this.#told.dataset.mark;
      this.#told.replaceChildren(...unsaid.map((hint) => h("p", {}, capital(hint))));
      return;
    }
    const credit = mark.credit.decimal;
    given.credit = Math.max(given.credit, given.tries === 0 ? credit : credit * LATER);
    given.tries += 1;
    given.answer = answer;
    this.tick();
    this.#tell(mark);
    if (mark.right) this.#end();
  }

  /**
   * What to say to who has picked, written or changed nothing.
   * @param {string[]} answer
   * @param {string[]} hints
   * @returns {string[] | undefined}
   */
  #unsaid(answer, hints) {
    const { by, choices } = this.#question;
    const untouched = () => [say("page-exercise-untouched", { by })];
    if (by === "stage") return answer.length === 0 ? untouched() : undefined;
    if (by === "counts" && choices.every(({ now }, at) => String(now ?? "") === answer[at].trim())) return untouched();
    return answer.every((part) => part.trim() === "") ? hints : undefined;
  }

  /** Shows what is right, for no more credit than there is. */
  #show() {
    const right = this.#ask((engine, sandbox, task) => engine.rightAnswer(sandbox, task));
    if (!right) return;
    this.#given.shown = true;
    this.#fields.show(right);
    this.#told.replaceChildren(h("p", {}, say("page-exercise-shown", { stage: this.#question.range ? "yes" : "no" })));
    this.#end();
  }

  /** @param {Mark} mark */
  #tell({ right, credit, hints }) {
    const share = hundredths(Math.round(credit.decimal * 100));
    // What was told before takes something off.
    const counts = hundredths(Math.round(this.#given.credit * 100));
    const rightly = this.#given.credit < 1 ? say("page-exercise-right-later", { share: counts }) : say("page-exercise-right");
    const result = right ? rightly : credit.decimal > 0 ? say("page-exercise-part", { share }) : say("page-exercise-wrong");
    const sign = right ? "✓" : credit.decimal > 0 ? "◐" : "✗";
    this.#told.dataset.mark = right ? "right" : credit.decimal > 0 ? "part" : "wrong";
    this.#told.replaceChildren(
      h("p", { class: "exercise-result" }, h("span", { "aria-hidden": "true" }, sign), h("b", {}, result)),
      ...hints.map((hint) => h("p", {}, capital(hint))),
    );
    // On a phone it comes under what is in sight.
    this.#told.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** What is picked or written, and not checked yet. @returns {string[] | undefined} */
  get draft() {
    return this.#given.done ? undefined : this.#fields.answer();
  }

  set draft(answer) {
    if (answer) this.#fields.show(answer);
  }

  /** Counts the time that it takes. */
  tick() {
    if (!this.#given.done) this.#given.seconds = (performance.now() - this.#since) / 1000;
  }

  #end() {
    this.tick();
    this.#given.done = true;
    for (const node of [this.#check, this.#reveal, this.#still]) node.hidden = true;
    const inputs = /** @type {NodeListOf<HTMLInputElement>} */ (this.node.querySelectorAll("input, .exercise-order button"));
    for (const input of inputs) input.disabled = true;
    this.#done();
  }

  /**
   * Asks the engine about the task.
   * @template T
   * @param {(engine: import("../state/engine.js").WholeEngine, sandbox: import("../engine/levertrain.js").Sandbox, task: string) => T} ask
   */
  #ask(ask) {
    return this.#desk.askWhole((engine, sandbox) => ask(engine, sandbox, JSON.stringify(this.#question.task)));
  }
}

/** What the ranges have become. @param {Question} question */
function becomes({ rows }) {
  const { node, body } = table(say("page-exercise-becomes"), [say("page-chart-range"), say("page-exercise-becomes")], []);
  body.append(...rows.map(({ label, does, words }) => h("tr", { "data-outcome": does }, h("th", { scope: "row" }, label), h("td", {}, words))));
  return node;
}
