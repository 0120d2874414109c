/** One part of a search for layouts, in a worker or, where there can be none, on the page: it goes on in pieces and tells news. */

import { pause } from "../kit/pieces.js";
import { siteFile } from "../kit/site.js";

/** @typedef {typeof import("../engine/levertrain_search.js")} SearchEngine */
/** @typedef {{ ask: string, which: number, of: number, language: string }} Begin */
/** @typedef {{ begin?: Begin, rests?: boolean }} Order to begin, to rest and to go on */
/**
 * How far it is and what it has found, as JSON, or why it cannot.
 * @typedef {{ report?: string, done?: boolean, refused?: string, failed?: string }} News
 */

/** How long it goes on without looking whether anything was said. */
const PIECE_MS = 12;
/** How often it tells news. */
const NEWS_MS = 250;
/** How many layouts are told. */
const MOST = 200;

export class LayoutsLooking {
  #send;
  /** @type {import("../engine/levertrain_search.js").LayoutsSearch | undefined} */
  #search;
  #rests = false;
  #goes = false;
  #done = false;

  /** @param {(news: News) => void} send */
  constructor(send) {
    this.#send = send;
  }

  /** @param {Order} order */
  async hear({ begin, rests }) {
    try {
      if (begin) await this.#begin(begin);
      if (rests !== undefined) this.#rests = rests;
      await this.#go();
    } catch (error) {
      // The engine throws what is wrong with what was asked as a text; anything else is a failure.
      this.#send(typeof error === "string" ? { refused: error } : { failed: error instanceof Error ? error.message : String(error) });
    }
  }

  /** @param {Begin} begin */
  async #begin({ ask, which, of, language }) {
    const words = fetch(siteFile(`words/${language}.ftl`)).then((response) => response.text());
    /** @type {SearchEngine} */
    const engine = await import(siteFile("engine/levertrain_search.js").href);
    await engine.default({ module_or_path: siteFile("engine/levertrain_search_bg.wasm") });
    engine.speak(await words);
    this.#search = new engine.LayoutsSearch(ask, which, of);
    this.#tell();
  }

  async #go() {
    if (this.#goes) return;
    this.#goes = true;
    let next = performance.now() + NEWS_MS;
    while (this.#search && !this.#rests && !this.#done) {
      const until = performance.now() + PIECE_MS;
      do this.#done = this.#search.run(1);
      while (!this.#done && performance.now() < until);
      if (this.#done || performance.now() > next) {
        this.#tell();
        next = performance.now() + NEWS_MS;
      }
      // A timer lets what was said in, also where it could go on at once.
      await pause();
    }
    this.#goes = false;
  }

  #tell() {
    if (this.#search) this.#send({ report: this.#search.report(MOST), done: this.#done });
  }

  /** Ends it. */
  free() {
    this.#search?.free();
    this.#search = undefined;
  }
}
