/** The worker that walks, as the page sees it: a question at a time, each answered with a message. */

import { siteFile } from "../kit/site.js";

/** @typedef {{ text: string, from: number, count: number }} Question some combinations of a train */
/** @typedef {{ states: Uint8Array, ratios: Float64Array }} Piece what they do */
/** @typedef {{ asked: number, piece?: Piece }} Reply without a piece, the worker cannot do it */

export class Helper {
  #worker;
  #asked = 0;
  /** Who waits for an answer, by the count of the question. @type {Map<number, (piece: Piece | undefined) => void>} */
  #waiting = new Map();

  constructor() {
    // At the root of the site, where it finds the engine.
    this.#worker = this.#start(siteFile("walker.js"));
  }

  /**
   * Has the worker look at some combinations.
   * @param {Question} question
   * @returns {Promise<Piece | undefined>} nothing where there is no worker, or it cannot do it
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

  /** @param {Reply} reply */
  #hear({ asked, piece }) {
    const resolve = this.#waiting.get(asked);
    this.#waiting.delete(asked);
    resolve?.(piece);
    if (!piece) this.end();
  }
}
