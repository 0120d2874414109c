/** A worker as the page sees it: a question at a time, each answered with a message. */

import { siteFile } from "../kit/site.js";

/**
 * What comes back, by the count of the question; without a piece, the worker cannot do it.
 * @template P
 * @typedef {{ asked: number, piece?: P }} Reply
 */

/**
 * @template {object} Q what is asked
 * @template P what is answered
 */
export class Helper {
  #worker;
  #asked = 0;
  /** Who waits for an answer, by the count of the question. @type {Map<number, (piece: P | undefined) => void>} */
  #waiting = new Map();

  /** @param {string} program at the root of the site, where it finds the engine */
  constructor(program) {
    this.#worker = this.#start(siteFile(program));
  }

  /**
   * Has the worker answer a question.
   * @param {Q} question
   * @returns {Promise<P | undefined>} nothing where there is no worker, or it cannot do it
   */
  ask(question) {
    const worker = this.#worker;
    if (!worker) return Promise.resolve(undefined);
    this.#asked += 1;
    const asked = this.#asked;
    return new Promise((resolve) => {
      this.#waiting.set(asked, resolve);
      worker.postMessage({ asked, ...question });
    });
  }

  /** Ends the worker, and whatever it has under way. */
  end() {
    this.#worker?.terminate();
    this.#worker = undefined;
    for (const resolve of this.#waiting.values()) resolve(undefined);
    this.#waiting.clear();
  }

  /**
   * Browsers let a page have workers only of its own host, and only where its policy does.
   * @param {URL} program
   */
  #start(program) {
    if (program.origin !== location.origin) return undefined;
    try {
      const worker = new Worker(program, { type: "module" });
      worker.addEventListener("message", ({ data }) => this.#hear(data));
      worker.addEventListener("error", (event) => {
        event.preventDefault();
        this.end();
      });
      return worker;
    } catch {
      return undefined;
    }
  }

  /** @param {Reply<P>} reply */
  #hear({ asked, piece }) {
    const resolve = this.#waiting.get(asked);
    this.#waiting.delete(asked);
    resolve?.(piece);
    if (!piece) this.end();
  }
}
