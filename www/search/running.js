/** A search that goes on or rests: what it is begun, rested, ended and gone on with by, and what is said of it; of teeth and of layouts alike. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { beginsByEnter, comesIntoView, foldAway } from "./ask_form.js";
import { Pace } from "./pace.js";
import { Parts } from "./parts.js";
import { refusals } from "./refusals.js";

/**
 * What is a search's own.
 * @template A, R, E
 * @typedef {object} Own
 * @property {string} id how its parts are named
 * @property {string} begins what the button says that begins it
 * @property {(part: number) => string} stood what is said of one that a closed tab left, by how much of it was gone through
 * @property {import("./parts.js").Kind<R, E>} kind
 * @property {import("./kept_search.js").KeptSearch} kept
 * @property {() => string} about the train that it is about, as a kept one names it
 * @property {() => boolean} mayGoOn whether one that was left may be gone on with now
 * @property {{ node: HTMLElement, wrong(): string | undefined, ask(): A, put(ask: A): void }} form
 * @property {import("./ahead.js").Ahead} ahead
 * @property {import("./blocking.js").Blocking<A, R, E>} blocking
 * @property {(ask: A, words: string) => Record<string, unknown>} begin called as it begins: what its parts are told, with what is asked as JSON
 * @property {() => void} forget called to take away what was found
 * @property {() => void} offer called when something else can be done
 * @property {(state: import("./parts.js").State<R, E>) => void} hear
 */

/** @template A, R, E */
export class Running {
  goes = false;
  rests = false;
  #own;
  #panel;
  #parts;
  #pace = new Pace();
  #rest;
  #stop;
  #resumes;
  #unfolds;
  /** Whether it goes on with what a closed tab left. */
  #resumed = false;
  /** What is asked, as JSON. */
  #words = "";
  /** When it was begun. */
  #begun = 0;

  /** @param {HTMLElement} panel @param {Own<A, R, E>} own */
  constructor(panel, own) {
    const { id, form, ahead } = own;
    this.#own = own;
    this.#panel = panel;
    this.#parts = new Parts(own.kind, own.hear, (news) => this.#failed(news));
    this.begin = button(`${id}-begin`, own.begins, () => this.start());
    this.#rest = button(`${id}-rest`, "", () => this.rest());
    this.#stop = button(`${id}-stop`, say("page-find-stop"), () => this.#end());
    this.#resumes = button(`${id}-resume`, say("page-find-resume"), () => this.#goOn());
    this.stood = h("p", { class: "row", "data-part": `${id}-stood`, hidden: true });
    this.progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-find-progress"), hidden: true }));
    this.status = h("p", { class: "note", role: "status", "data-part": `${id}-status` });
    this.problems = h("ul", { class: "find-problems", role: "alert", "data-part": `${id}-problems` });
    // Folded once there is something to look at, which then comes up beside the stage.
    this.#unfolds = /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (h("details", { class: "find-asked", open: true }, h("summary", {}, say("page-find-asked")), form.node)));
    this.asks = [this.#unfolds, h("p", { class: "row" }, this.begin, this.#rest, this.#stop, ahead.save)];
    // What was refused is said until something else is asked.
    form.node.addEventListener("input", () => this.problems.replaceChildren());
    beginsByEnter(form.node, this.begin);
  }

  /** What is asked. @returns {A} */
  get ask() {
    return JSON.parse(this.#words);
  }

  /** @param {import("./kept_search.js").Kept} [before] a search that was begun before */
  start(before) {
    const { form } = this.#own;
    this.forget();
    const wrong = form.wrong();
    if (wrong) {
      this.#refuse(h("li", {}, wrong));
      return;
    }
    this.goes = true;
    this.#resumed = Boolean(before);
    this.status.textContent = say("page-find-begins");
    const ask = form.ask();
    this.#words = before?.ask ?? JSON.stringify(ask);
    this.#begun = performance.now();
    this.#parts.begin(this.#own.begin(ask, this.#words), before?.stands);
    this.offer();
    comesIntoView(this.status);
  }

  /** Goes on with what a closed tab left. */
  #goOn() {
    const { kept, form, about } = this.#own;
    const before = kept.of(about());
    if (!before) return;
    try {
      form.put(JSON.parse(before.ask));
    } catch {
      kept.forget();
      this.offer();
      return;
    }
    this.start(before);
  }

  /** Has it rest, or go on. */
  rest() {
    this.rests = !this.rests;
    this.#parts.rest(this.rests);
    if (!this.rests) this.#own.ahead.goesOn();
    this.status.textContent = say(this.rests ? "page-find-rests" : "page-find-begins");
    this.offer();
  }

  /** Has it rest until somebody says that it may take so long; why is said already. */
  waits() {
    this.rest();
    this.status.textContent = "";
  }

  #end() {
    this.#parts.end();
    this.#own.kept.forget();
    this.#over();
    this.progress.hidden = true;
    this.status.textContent = say("page-find-stopped");
    this.offer();
    this.begin.focus();
  }

  /** Nothing goes on any more. */
  #over() {
    this.goes = this.rests = false;
    this.#own.ahead.clear();
  }

  /** What was asked and found is of no interest any more. */
  forget() {
    this.leave();
    this.#over();
    this.#pace.clear();
    this.progress.hidden = true;
    this.status.textContent = "";
    this.problems.replaceChildren();
    this.#own.forget();
  }

  /** The page is left, or something else is looked for. */
  leave() {
    this.#parts.end();
    this.#own.blocking.end();
  }

  /** Shows what can be done now. */
  offer() {
    const { kept, about, mayGoOn, stood, offer } = this.#own;
    this.#rest.hidden = this.#stop.hidden = !this.goes;
    this.#rest.textContent = say(this.rests ? "page-find-go-on" : "page-find-rest");
    const before = !this.goes && mayGoOn() ? kept.of(about()) : undefined;
    this.stood.hidden = !before;
    if (before) this.stood.replaceChildren(h("span", {}, stood(before.part)), this.#resumes);
    offer();
  }

  /**
   * How fast it is.
   * @param {number} steps @param {number} covered @param {number} [estimate]
   */
  speed(steps, covered, estimate) {
    return this.#pace.hear({ steps, covered, estimate, rests: this.rests || !this.goes });
  }

  /**
   * Says how far it is, and keeps where it stands.
   * @param {{ done: boolean, stands?: string[] }} state
   * @param {number} part how much of it is gone through
   * @param {string} said
   */
  tell({ done, stands }, part, said) {
    const { kept, about } = this.#own;
    this.progress.hidden = done;
    this.progress.value = part;
    if (!this.rests) this.status.textContent = said;
    if (done) kept.forget();
    else if (this.goes && stands) kept.keep({ train: about(), ask: this.#words, stands, part });
  }

  /** All of it was gone through. @param {boolean} some whether something was found */
  ended(some) {
    this.#parts.end();
    if (this.goes && some) foldAway(this.#panel, this.#unfolds, this.#own.form.node, this.begin);
    this.#over();
    this.offer();
  }

  /** Looks for what is in the way, where nothing was found. @param {import("./wishes.js").Wish<A>[]} wishes */
  blocked(wishes) {
    void this.#own.blocking.begin(this.ask, wishes, performance.now() - this.#begun);
  }

  /** @param {import("./looking.js").News<E>} news */
  #failed(news) {
    // A place that is none, as one of another version, is of no use: it begins anew. What was asked wrongly leaves one be.
    if (this.#resumed && news.refused !== undefined) {
      this.#own.kept.forget();
      this.start();
      return;
    }
    this.forget();
    this.#refuse(...refusals(news));
  }

  /** @param {...HTMLElement} why */
  #refuse(...why) {
    this.problems.replaceChildren(...why);
    this.offer();
    comesIntoView(this.problems);
  }
}

/** @param {string} part @param {string} words @param {() => void} click */
export function button(part, words, click) {
  return h("button", { class: "plain", type: "button", "data-part": part, click }, words);
}
