/**
 * Which wishes keep a search from finding anything: it is gone through again without one of them after the other, in workers as before,
 * and only where that does not take long.
 */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { comesIntoView } from "./ask_form.js";
import { Parts } from "./parts.js";

/** What took longer to end with nothing is not gone through again, in milliseconds. */
const SHORT_MS = 5000;
/** How long all of it may take, in milliseconds. */
const MOST_MS = 20000;

/**
 * What of a search it goes by.
 * @template A, R, E
 * @typedef {object} Searches
 * @property {import("./parts.js").Kind<R, E>} kind
 * @property {(ask: A) => object} what a search for what is left of an ask
 * @property {(found: R) => boolean} some whether something was found
 * @property {(found: R) => boolean} whole whether one that has ended with nothing has missed nothing
 */

/** @template A, R, E */
export class Blocking {
  #searches;
  /** @type {Parts<R, E> | undefined} */
  #parts;
  /** Counts beginnings and ends: what an earlier one finds is passed over. */
  #turn = 0;
  /** When it is to end. */
  #until = 0;

  /**
   * @param {string} part what its words are named
   * @param {Searches<A, R, E>} searches
   */
  constructor(part, searches) {
    this.#searches = searches;
    this.node = h("p", { class: "note", role: "status", "data-part": part });
  }

  end() {
    this.#turn += 1;
    this.#parts?.end();
    this.node.textContent = "";
  }

  /**
   * Tells it of a search that has found nothing, and has missed nothing.
   * @param {A} ask
   * @param {import("./wishes.js").Wish<A>[]} wishes
   * @param {number} took how long that took, in milliseconds
   */
  async begin(ask, wishes, took) {
    this.end();
    if (wishes.length < 2 || took > SHORT_MS) return;
    const turn = this.#turn;
    this.#until = performance.now() + MOST_MS;
    this.node.textContent = say("page-find-blocking");
    comesIntoView(this.node);
    const words = await this.#told(ask, wishes);
    if (turn !== this.#turn) return;
    const { top } = this.node.getBoundingClientRect();
    this.node.textContent = words;
    // It may be longer; whoever has gone elsewhere meanwhile stays there.
    if (top > 0 && top < innerHeight) comesIntoView(this.node);
  }

  /** @param {A} ask @param {import("./wishes.js").Wish<A>[]} wishes */
  async #told(ask, wishes) {
    const turn = this.#turn;
    const without = (/** @type {typeof wishes} */ dropped) => {
      const left = structuredClone(ask);
      dropped.forEach(({ drop }) => drop(left));
      return this.#finds(left, turn);
    };
    const told = (/** @type {string} */ key, /** @type {typeof wishes} */ those) => say(key, { count: those.length, wishes: those.map(({ name }) => name).join(", ") });
    /** @type {(boolean | undefined)[]} */
    const answers = [];
    for (const wish of wishes) answers.push(await without([wish]));
    const single = wishes.filter((_, at) => answers[at]);
    if (single.length > 0) return told("page-find-blocking-single", single);
    if (!answers.every((answer) => answer === false)) return "";
    // Each is left out for good if there is nothing without it either: what stays is too much by itself, and none of it to spare.
    let [left, dropped] = [wishes.slice(1), wishes.slice(0, 1)];
    for (const wish of left) {
      if ((await without([...dropped, wish])) !== false) continue;
      dropped = [...dropped, wish];
      left = left.filter((other) => other !== wish);
    }
    return told("page-find-blocking-together", left);
  }

  /**
   * Whether something is found for an ask; nothing where that is not known.
   * @param {A} ask
   * @param {number} turn
   * @returns {Promise<boolean | undefined>}
   */
  #finds(ask, turn) {
    if (turn !== this.#turn || performance.now() > this.#until) return Promise.resolve(undefined);
    const { kind, what, some, whole } = this.#searches;
    return new Promise((resolve) => {
      const end = (/** @type {boolean | undefined} */ answer) => {
        parts.end();
        resolve(answer);
      };
      const parts = new Parts(
        kind,
        ({ found, done }) => {
          if (some(found)) end(true);
          else if (done) end(whole(found) ? false : undefined);
          else if (performance.now() > this.#until) end(undefined);
        },
        () => end(undefined),
      );
      this.#parts = parts;
      parts.begin(what(ask));
    });
  }
}
