/** One part of a search for layouts, in a worker or, where there can be none, on the page: it goes on in pieces and tells news. */

import { pause } from "../kit/pieces.js";
import { siteFile } from "../kit/site.js";

/** @typedef {typeof import("../engine/levertrain_search.js")} SearchEngine */
/**
 * Which part it is, and, where it was begun before, where it stood.
 * @typedef {{ ask: string, which: number, of: number, language: string, stood?: string }} Begin
 */
/** @typedef {{ begin?: Begin, rests?: boolean }} Order to begin, to rest and to go on */
/** @typedef {{ frames: number, seconds: number }} Estimate about how much all parts together do, and how long that takes one */
/**
 * How far it is and what it has found, as JSON, or why it cannot.
 * @typedef {object} News
 * @property {string} [report]
 * @property {boolean} [done]
 * @property {Estimate} [estimate]
 * @property {string} [stands] where it stands, to be gone on with later
 * @property {string} [refused]
 * @property {string} [failed]
 */

/** How long it goes on without looking whether anything was said. */
const PIECE_MS = 12;
/** How often it tells news. */
const NEWS_MS = 250;
/** How often it tells where it stands: no more is lost when a tab is closed, but for the piece that it is at. */
const STANDS_MS = 5000;
/** What ends sooner is not told how long it takes. */
const SOON_MS = 400;
/** How long some of it is gone through to tell how long all of it takes. */
const SAMPLE_MS = 1500;
/** How many layouts are told. */
const MOST = 200;

export class LayoutsLooking {
  #send;
  /** @type {import("../engine/levertrain_search.js").LayoutsSearch | undefined} */
  #search;
  #rests = false;
  #goes = false;
  #done = false;
  /** Whether it still is to tell how long all parts take. */
  #foretells = false;
  /** When it has told last where it stands. */
  #told = 0;

  /** @param {(news: News) => void} send */
  constructor(send) {
    this.#send = send;
  }

  /** @param {Order} order */
  async hear({ begin, rests }) {
    try {
      if (begin) await this.#begin(begin);
      if (rests !== undefined) {
        this.#rests = rests;
        // What rests may do so until the tab is closed.
        this.#told = -STANDS_MS;
        this.#tell();
      }
      await this.#go();
    } catch (error) {
      // The engine throws what is wrong with what was asked as a text; anything else is a failure.
      this.#send(typeof error === "string" ? { refused: error } : { failed: error instanceof Error ? error.message : String(error) });
    }
  }

  /** @param {Begin} begin */
  async #begin({ ask, which, of, language, stood }) {
    const words = fetch(siteFile(`words/${language}.ftl`)).then((response) => response.text());
    /** @type {SearchEngine} */
    const engine = await import(siteFile("engine/levertrain_search.js").href);
    await engine.default({ module_or_path: siteFile("engine/levertrain_search_bg.wasm") });
    engine.speak(await words);
    const search = new engine.LayoutsSearch(ask, which, of);
    if (stood !== undefined) search.resume(stood);
    this.#search = search;
    this.#foretells = which === 0;
    this.#told = performance.now();
    this.#tell();
  }

  async #go() {
    if (this.#goes) return;
    this.#goes = true;
    const begin = performance.now();
    let next = begin + NEWS_MS;
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
      if (this.#foretells && performance.now() > begin + SOON_MS) await this.#foretell();
    }
    this.#goes = false;
  }

  /** Finds out how long all parts together take. */
  async #foretell() {
    this.#foretells = false;
    const forecast = this.#search?.forecast();
    const MS = 1000;
    const end = performance.now() + SAMPLE_MS;
    let goes = true;
    while (forecast && this.#search && !this.#rests && goes && performance.now() < end) {
      const until = performance.now() + PIECE_MS;
      let begin = performance.now();
      do {
        goes = forecast.run();
        const now = performance.now();
        forecast.took((now - begin) / MS);
        begin = now;
      } while (goes && begin < until);
      await pause();
    }
    // What rests meanwhile is told later.
    if (this.#rests) this.#foretells = true;
    else if (forecast && this.#search) this.#tell({ frames: forecast.frames(), seconds: forecast.seconds() });
    forecast?.free();
  }

  /** @param {Estimate} [estimate] */
  #tell(estimate) {
    if (!this.#search) return;
    const now = performance.now();
    const tellsPlace = this.#done || now > this.#told + STANDS_MS;
    if (tellsPlace) this.#told = now;
    this.#send({ report: this.#search.report(MOST), done: this.#done, estimate, stands: tellsPlace ? this.#search.checkpoint() : undefined });
  }

  /** Ends it. */
  free() {
    this.#search?.free();
    this.#search = undefined;
  }
}
