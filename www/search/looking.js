/** One part of a search, in a worker or, where there can be none, on the page: it goes on in pieces and tells news. */

import { pause } from "../kit/pieces.js";
import { siteFile } from "../kit/site.js";

/** @typedef {typeof import("../engine/levertrain_search.js")} SearchEngine */
/**
 * What a part is told to do: to begin, to rest and go on, or what other parts have found.
 * @typedef {object} Order
 * @property {Begin} [begin]
 * @property {boolean} [rests]
 * @property {string} [told] finds of another part
 */
/**
 * Which part of which search it is, and, where it was begun before, where it stood.
 * @typedef {{ train: string, ask: string, which: number, of: number, language: string, stood?: string }} Begin
 */
/**
 * What a part tells: how far it is and what it has found, as JSON, or why it cannot.
 * @typedef {object} News
 * @property {string} [report]
 * @property {boolean} [same] whether the finds are those that were told before, and left out
 * @property {boolean} [done]
 * @property {number} [estimate] about how many boxes all parts together will look at
 * @property {string} [stands] where it stands, to be gone on with later
 * @property {string} [refused] problems, as JSON
 * @property {string} [failed] what the browser says
 */

/** How often it tells news. */
const NEWS_MS = 150;
/** How often it tells where it stands: no more is lost when a tab is closed. */
const STANDS_MS = 2000;
/** How many times as long as telling takes nothing is told. */
const RARELY = 20;
/** Boxes that are gone through between looks at the clock: each may take milliseconds where much is found. */
const BOXES = 2;

export class Looking {
  #send;
  /** @type {import("../engine/levertrain_search.js").TeethSearch | undefined} */
  #search;
  #rests = false;
  #goes = false;
  #done = false;
  #piece;
  /** Which finds it has told last. @type {number | undefined} */
  #changes;
  /** When it has told last where it stands. */
  #told = 0;

  /**
   * @param {(news: News) => void} send
   * @param {number} piece how long it goes on without looking whether anything was said, in milliseconds
   */
  constructor(send, piece) {
    this.#send = send;
    this.#piece = piece;
  }

  /** @param {Order} order */
  async hear({ begin, rests, told }) {
    try {
      if (begin) await this.#begin(begin);
      if (rests !== undefined) {
        this.#rests = rests;
        // What rests may do so until the tab is closed.
        this.#told = -STANDS_MS;
        this.#tell();
      }
      if (told !== undefined && this.#search) {
        this.#search.tell(told);
        if (this.#done) this.#tell();
      }
      await this.#go();
    } catch (error) {
      // The engine throws what is wrong with what was asked as a text; anything else is a failure.
      this.#send(typeof error === "string" ? { refused: error } : { failed: error instanceof Error ? error.message : String(error) });
    }
  }

  /** @param {Begin} begin */
  async #begin({ train, ask, which, of, language, stood }) {
    const words = fetch(siteFile(`words/${language}.ftl`)).then((response) => response.text());
    /** @type {SearchEngine} */
    const engine = await import(siteFile("engine/levertrain_search.js").href);
    await engine.default({ module_or_path: siteFile("engine/levertrain_search_bg.wasm") });
    engine.speak(await words);
    const search = new engine.TeethSearch(train, ask, which, of);
    if (stood !== undefined) search.resume(stood);
    this.#search = search;
    this.#told = performance.now();
    this.#tell(which === 0 ? search.estimate() : undefined);
  }

  async #go() {
    if (this.#goes) return;
    this.#goes = true;
    let next = performance.now() + NEWS_MS;
    while (this.#search && !this.#rests && !this.#done) {
      const until = performance.now() + this.#piece;
      do this.#done = this.#search.run(BOXES);
      while (!this.#done && performance.now() < until);
      const begin = performance.now();
      if (this.#done || begin > next) {
        this.#tell();
        // Where it takes long to tell all finds, it is told more rarely.
        const now = performance.now();
        next = now + NEWS_MS + (now - begin) * RARELY;
      }
      // A timer lets what was said in, also where it could go on at once.
      await pause();
    }
    this.#goes = false;
  }

  /** @param {number} [estimate] */
  #tell(estimate) {
    if (!this.#search) return;
    const now = performance.now();
    const tellsPlace = !this.#done && now > this.#told + STANDS_MS;
    if (tellsPlace) this.#told = now;
    const changes = this.#search.changes();
    const same = changes === this.#changes;
    this.#changes = changes;
    const report = same ? this.#search.progress() : this.#search.report();
    this.#send({ report, same, done: this.#done, estimate, stands: tellsPlace ? this.#search.checkpoint() : undefined });
  }

  /** Ends it. */
  free() {
    this.#search?.free();
    this.#search = undefined;
  }
}
