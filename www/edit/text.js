/** The train as the text of its file, each of which follows the other. */

import { h } from "../kit/dom.js";
import { problemsOf } from "../kit/problems.js";
import { capital, say, sayParts } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { doing } from "./fields.js";
import { LinedField } from "./lined_field.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").TextProblem} TextProblem */

/** Milliseconds after the last letter until the train follows. */
const REST = 300;
/** More problems than these are mended one after the other. */
const SHOWN = 12;
/** The id of what says how many problems there are. */
const STATE = "file-state";

export class TrainText {
  #desk;
  #isOpen;
  #lined;
  #state = h("p", { class: "file-state", id: STATE, role: "status" });
  #list = h("ul", { class: "file-problems" });
  #told = h("div", { class: "file-told" }, this.#state, this.#list);
  /** Gives up what is typed. */
  back = doing(say("page-file-back"), "back", () => {
    this.#write();
    // The button goes.
    this.#lined.focus();
  });
  /** The text of the train on stage. */
  #train = "";
  /** The text of the desk, to tell another train from one that is changed. */
  #source = "";
  /** Whether another train has come than the text was written of. */
  #isOther = false;
  /** Whether the train was changed elsewhere while somebody was at the text. */
  #isLate = false;
  /** Whether the text is of no train. */
  #isWrong = false;
  /** Whether the train follows the text just now. */
  #takes = false;
  /** Whether what is typed is one step with what was typed before it. */
  #goesOn = false;
  /** Runs while letters are typed. @type {number | undefined} */
  #typing;

  /**
   * @param {Desk} desk
   * @param {() => boolean} isOpen whether anybody sees it
   * @param {AbortSignal} signal ends it
   */
  constructor(desk, isOpen, signal) {
    this.#desk = desk;
    this.#isOpen = isOpen;
    const heard = {
      typed: () => this.#type(),
      parts: () => this.#part(),
      left: () => this.#leave(),
      entered: () => this.#take(),
      back: () => this.#step(() => desk.undo(), say("page-file-step-back")),
      again: () => this.#step(() => desk.redo(), say("page-file-step-again")),
    };
    this.#lined = new LinedField({ name: say("page-file-text"), described: STATE }, heard, signal);
    this.#lined.readOnly = true;
    this.#tell([]);
    // Over the field: under so much text it would be out of sight.
    this.nodes = [this.#told, this.#lined.node];
    follow(desk, ["train", "whole", "lock"], () => this.update());
  }

  /** Brings it up to date with the train, but for what somebody is typing. */
  update() {
    const { text, editing } = this.#desk;
    if (!editing && text !== this.#source) this.#isOther = true;
    this.#source = text;
    if (!this.#isOpen() || !this.#desk.info) return;
    const train = this.#desk.askWhole((engine, sandbox) => engine.scenarioText(sandbox));
    if (train === undefined) return;
    this.#lined.readOnly = this.#desk.isLocked("train");
    this.#lined.better();
    if (train === this.#train && !this.#isOther) return;
    this.#train = train;
    if (this.#takes) return;
    this.#goesOn = false;
    const kept = this.#isWrong || this.#typing !== undefined || this.#lined.hasFocus;
    if (kept && !this.#isOther) this.#isLate = true;
    else this.#write();
  }

  #type() {
    clearTimeout(this.#typing);
    this.#typing = setTimeout(() => this.#take(), REST);
  }

  #leave() {
    this.#part();
    if (this.#isLate && !this.#isWrong) this.#write();
  }

  /** Ends the step that is being typed, unless there is something wrong in it. */
  #part() {
    if (this.#typing !== undefined) this.#take();
    if (this.#isWrong) return;
    this.#goesOn = false;
    this.#lined.settle();
  }

  /**
   * Has the train go a step back, or again: where nothing is typed any more, its way is that of the text.
   * @param {() => void} go
   * @param {string} words what is said of it: it may have been made in the drawing, long ago
   * @returns {boolean} whether there was such a step
   */
  #step(go, words) {
    if (this.#typing !== undefined) this.#take();
    if (this.#isWrong) return false;
    const before = this.#train;
    go();
    if (this.#train === before) return false;
    this.#lined.select(this.#write());
    this.#state.textContent = words;
    return true;
  }

  /** Has the train follow the text. */
  #take() {
    clearTimeout(this.#typing);
    this.#typing = undefined;
    const { text } = this.#lined;
    this.#takes = true;
    try {
      this.#desk.rewrite(text, this.#goesOn);
      this.#goesOn = true;
      this.#isLate = false;
      this.#tell([]);
    } catch (error) {
      const found = this.#desk.askWhole((engine) => engine.problemsIn(text)) ?? [];
      const somewhere = problemsOf(error).map((problem) => ({ ...problem, line: 1, column: 1 }));
      this.#tell(found.length > 0 ? found : somewhere);
    } finally {
      this.#takes = false;
    }
  }

  /** Writes the text of the train on stage. @returns {number} where it first differs from what was there */
  #write() {
    clearTimeout(this.#typing);
    this.#typing = undefined;
    this.#isOther = false;
    this.#isLate = false;
    this.#goesOn = false;
    const at = this.#lined.write(this.#train);
    this.#tell([]);
    return at;
  }

  /** Says what keeps the text from being a train. @param {TextProblem[]} problems */
  #tell(problems) {
    const { length: count } = problems;
    this.#isWrong = count > 0;
    this.#lined.mark(problems.map((problem) => ({ ...problem, words: say("page-problem", partsOf(problem)) })));
    // The same is not said twice.
    const state = this.#isWrong ? say("page-file-keeps", { count }) : "";
    if (this.#state.textContent !== state) this.#state.textContent = state;
    const items = problems.slice(0, SHOWN).map((problem) => h("li", {}, this.#button(problem)));
    if (count > SHOWN) items.push(h("li", {}, say("page-more-problems", { count: count - SHOWN })));
    this.#list.replaceChildren(...items);
    this.#list.hidden = !this.#isWrong;
    this.back.hidden = !this.#isWrong;
  }

  /** A problem, which leads to its line. @param {TextProblem} problem */
  #button(problem) {
    const { place, fix, ...parts } = partsOf(problem);
    const nodes = { place: h("b", {}, place), fix: h("span", { class: "fix" }, fix) };
    const words = sayParts("page-problem", { ...parts, ...nodes });
    return h("button", { class: "file-problem", type: "button", click: () => this.#lined.goTo(problem) }, ...words);
  }
}

/** @param {TextProblem} problem */
function partsOf({ line, problem, fix }) {
  return { place: say("page-file-line", { line }), problem, fix: say("page-fix", { fix: capital(fix) }) };
}
