/** One part of a search, in a worker or, where there can be none, on the page: it goes on in pieces and tells news. */

import { siteFile } from "../kit/site.js";

/** @typedef {typeof import("../engine/levertrain_search.js")} SearchEngine */
/**
 * Which part of which search it is, and, where it was begun before, where it stood.
 * @typedef {{ train: string, ask: string, which: number, of: number, language: string, stood?: string }} Begin
 */
/**
 * What a part is told to do: to begin, to rest and go on, or what other parts have found.
 * @typedef {object} Order
 * @property {Begin} [begin]
 * @property {boolean} [rests]
 * @property {string} [told] finds of another part
 */
/**
 * What a part tells: how far it is, as JSON, or why it cannot.
 * @template E
 * @typedef {object} News
 * @property {string} [report]
 * @property {string} [finds] what it has found, where that is not in the report, and is other than what it told last
 * @property {string} [fresh] what this part has found itself since it told that last, for other parts
 * @property {boolean} [done]
 * @property {number} [heard] how often it was told something until then: what is on its way to it may have more for it to do
 * @property {E} [estimate] how much all parts together do
 * @property {string} [stands] where it stands, to be gone on with later
 * @property {string} [refused] problems, as JSON
 * @property {string} [failed] what the browser says
 */
/** What the engine goes on with in pieces. @typedef {{ run(steps: number): boolean, resume(stood: string): void, checkpoint(): string, free(): void }} Search */
/**
 * In what looking for teeth and for layouts differ.
 * @template {Search} S, E
 * @typedef {object} Looks
 * @property {(engine: SearchEngine, begin: Begin) => { run(): S | undefined, free(): void }} setUp what makes the search, in pieces
 * @property {(search: S) => Forecast<E>} forecast
 * @property {number} soon what ends sooner is not told how much it is, in milliseconds
 * @property {(search: S, now: boolean) => { report: string, finds?: string, fresh?: string }} report how far it is and what was found,
 *   unless that is what it was before, or can wait
 * @property {(search: S, told: string) => void} [tell] takes in what another part has found
 * @property {number} newsEvery how often it tells news, in milliseconds
 * @property {number} standsEvery how often it tells where it stands: no more is lost when a tab is closed
 */
/**
 * Finds out how much all parts together do.
 * @template E
 * @typedef {{ run(): boolean, estimate(): E, free(): void }} Forecast
 */

/** How many pieces of setting up are too few to rest in. */
const AT_ONCE = 8;
/** How many times as long as telling takes nothing is told. */
const RARELY = 20;

/** @template {Search} S, E */
export class Looking {
  #send;
  #looks;
  /** @type {S | undefined} */
  #search;
  #rests = false;
  #goes = false;
  #done = false;
  /** Whether nobody waits for it any more. */
  #ended = false;
  #piece;
  #pause;
  /** Whether it still is to tell how much all parts do. */
  #foretells = false;
  /** Finds of other parts that came before it was set up. @type {string[]} */
  #early = [];
  /** How often it was told something. */
  #heard = 0;
  /** When it has told last where it stands. */
  #told = 0;
  /** Called once it does not rest any more. @type {(() => void) | undefined} */
  #wake;

  /**
   * @param {(news: News<E>) => void} send
   * @param {Looks<S, E>} looks
   * @param {number} piece how long it goes on without looking whether anything was said, in milliseconds
   * @param {() => Promise<void>} pause what lets in whatever was said meanwhile
   */
  constructor(send, looks, piece, pause) {
    this.#send = send;
    this.#looks = looks;
    this.#piece = piece;
    this.#pause = pause;
  }

  /** @param {Order} order */
  async hear({ begin, rests, told }) {
    try {
      if (rests !== undefined) {
        this.#rests = rests;
        if (!rests) this.#wake?.();
        // What rests may do so until the tab is closed.
        this.#told = -this.#looks.standsEvery;
        this.#tell();
      }
      if (begin) await this.#begin(begin);
      if (told !== undefined) {
        this.#heard += 1;
        if (this.#search) this.#take(told);
        else this.#early.push(told);
      }
      await this.#go();
    } catch (error) {
      // The engine throws what is wrong with what was asked as a text; anything else is a failure.
      this.#send(typeof error === "string" ? { refused: error } : { failed: error instanceof Error ? error.message : String(error) });
    }
  }

  /** @param {Begin} begin */
  async #begin(begin) {
    const words = fetch(siteFile(`words/${begin.language}.ftl`)).then((response) => response.text());
    /** @type {SearchEngine} */
    const engine = await import(siteFile("engine/levertrain_search.js").href);
    await engine.default({ module_or_path: siteFile("engine/levertrain_search_bg.wasm") });
    engine.speak(await words);
    const setUp = this.#looks.setUp(engine, begin);
    /** @type {S | undefined} */
    let search;
    let pieces = 0;
    while (!search && !this.#ended) {
      const until = performance.now() + this.#piece;
      do {
        search = setUp.run();
        pieces += 1;
      } while (!search && (pieces < AT_ONCE || performance.now() < until));
      await this.#pause();
      if (this.#rests && !search) await new Promise((resolve) => (this.#wake = () => resolve(undefined)));
    }
    setUp.free();
    if (!search || this.#ended) return;
    if (begin.stood !== undefined) search.resume(begin.stood);
    this.#search = search;
    this.#early.forEach((told) => this.#take(told));
    this.#foretells = begin.which === 0;
    this.#told = performance.now();
    this.#tell();
  }

  /** @param {string} told */
  #take(told) {
    if (!this.#search) return;
    this.#looks.tell?.(this.#search, told);
    // It is to be measured yet.
    this.#done = false;
  }

  async #go() {
    if (this.#goes) return;
    this.#goes = true;
    const first = performance.now();
    let next = first + this.#looks.newsEvery;
    while (this.#search && !this.#rests && !this.#done) {
      const until = performance.now() + this.#piece;
      do this.#done = this.#search.run(1);
      while (!this.#done && performance.now() < until);
      const begin = performance.now();
      if (this.#done || begin > next) {
        this.#tell();
        // Where it takes long to tell all that was found, it is told more rarely.
        const now = performance.now();
        next = now + this.#looks.newsEvery + (now - begin) * RARELY;
      }
      await this.#pause();
      if (this.#foretells && !this.#done && performance.now() > first + this.#looks.soon) await this.#foretell();
    }
    this.#goes = false;
  }

  /** Finds out how much all parts together do. */
  async #foretell() {
    this.#foretells = false;
    if (!this.#search) return;
    const forecast = this.#looks.forecast(this.#search);
    let goes = true;
    while (goes && this.#search && !this.#rests) {
      const until = performance.now() + this.#piece;
      do goes = forecast.run();
      while (goes && performance.now() < until);
      await this.#pause();
    }
    // What rests meanwhile is told later.
    if (this.#rests) this.#foretells = true;
    else if (this.#search) this.#tell(forecast.estimate());
    forecast.free();
  }

  /** @param {E} [estimate] */
  #tell(estimate) {
    if (!this.#search) return;
    const now = performance.now();
    // A part that has ended must be known, too, for all of them to be gone on with.
    const tellsPlace = this.#done || now > this.#told + this.#looks.standsEvery;
    if (tellsPlace) this.#told = now;
    const found = this.#looks.report(this.#search, this.#done || this.#rests);
    this.#send({ ...found, done: this.#done, heard: this.#heard, estimate, stands: tellsPlace ? this.#search.checkpoint() : undefined });
  }

  /** Ends it. */
  free() {
    this.#ended = true;
    this.#wake?.();
    this.#search?.free();
    this.#search = undefined;
  }
}
