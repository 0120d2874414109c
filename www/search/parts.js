/** A search in parts, a worker each, as the page sees it. */

import { siteFile } from "../kit/site.js";
import { language } from "../state/language.js";

/**
 * @template E
 * @typedef {import("./looking.js").News<E>} News
 */
/** What a part is told. @typedef {Record<string, unknown>} Order */
/** @typedef {{ hear(order: Order): void, end(): void }} Part */
/**
 * In what searches differ.
 * @template R, E
 * @typedef {object} Kind
 * @property {string} program what workers load
 * @property {(send: (news: News<E>) => void) => { hear(order: Order): unknown, free(): void }} here a part on the page
 * @property {(reports: R[]) => R} sum what all parts have found together
 * @property {(report: R, before: R | undefined, news: News<E>, others: (order: Order) => void) => void} [told] called when a part has news, to hand
 *   on to the others what they should know
 */
/**
 * How far a search is.
 * @template R, E
 * @typedef {object} State
 * @property {R} found
 * @property {boolean} done
 * @property {number} parts how many look at once
 * @property {E} [estimate]
 * @property {string[]} [stands] where each stands, once that is known of all, and whenever one stands elsewhere
 */

/** Most workers: more find hardly anything sooner. */
const MOST = 8;

/** @template R, E */
export class Parts {
  /** @type {Part[]} */
  #parts = [];
  /** The last news of each part. @type {(R | undefined)[]} */
  #known = [];
  /** Which have ended. @type {boolean[]} */
  #done = [];
  /** How often each was told something. @type {number[]} */
  #toldTo = [];
  /** Where each stood last. @type {(string | undefined)[]} */
  #stands = [];
  /** @type {E | undefined} */
  #estimate;
  /** What is asked. @type {{ what: object, stood?: string[] } | undefined} */
  #asked;
  /** Counts beginnings and ends: what is told of an earlier search is passed over. */
  #turn = 0;
  #kind;
  #hear;
  #fail;

  /**
   * @param {Kind<R, E>} kind
   * @param {(state: State<R, E>) => void} hear called with whatever is news
   * @param {(news: News<E>) => void} fail called when it cannot be, or goes on no more
   */
  constructor(kind, hear, fail) {
    this.#kind = kind;
    this.#hear = hear;
    this.#fail = fail;
  }

  /**
   * @param {object} what what is asked, as a part takes it
   * @param {string[]} [stood] where each part stood, for one that was begun before
   */
  begin(what, stood) {
    const of = stood?.length ?? Math.min(Math.max(navigator.hardwareConcurrency || 1, 1), MOST);
    this.#asked = { what, stood };
    this.end();
    const workers = Array.from({ length: of }, (_, which) => this.#worker(which));
    if (workers.every((worker) => worker !== undefined)) {
      this.#begin(workers);
    } else {
      workers.forEach((worker) => worker?.end());
      this.#alone();
    }
  }

  /** Where a browser lets the page have no worker, the page looks by itself: at all at once, or at each part in turn. */
  #alone() {
    this.end();
    this.#begin(Array.from({ length: this.#asked?.stood?.length ?? 1 }, (_, which) => this.#here(which)));
  }

  /** @param {Part[]} parts */
  #begin(parts) {
    this.#parts = parts;
    this.#known = parts.map(() => undefined);
    this.#done = parts.map(() => false);
    this.#toldTo = parts.map(() => 0);
    this.#stands = parts.map(() => undefined);
    this.#estimate = undefined;
    const { what, stood } = this.#asked ?? {};
    parts.forEach((part, which) => part.hear({ begin: { ...what, which, of: parts.length, language: language(), stood: stood?.[which] } }));
  }

  /** @param {boolean} rests */
  rest(rests) {
    this.#parts.forEach((part) => part.hear({ rests }));
  }

  end() {
    this.#turn += 1;
    this.#parts.forEach((part) => part.end());
    this.#parts = [];
  }

  /** @param {number} which @returns {Part | undefined} */
  #worker(which) {
    const program = siteFile(this.#kind.program);
    if (program.origin !== location.origin) return undefined;
    try {
      const turn = this.#turn;
      const worker = new Worker(program, { type: "module" });
      worker.addEventListener("message", ({ data }) => turn === this.#turn && this.#told(which, data));
      worker.addEventListener("error", (event) => {
        event.preventDefault();
        if (turn !== this.#turn) return;
        // One that never came may not come: the page's policy forbids it.
        if (this.#known[which]) this.#told(which, { failed: event.message });
        else this.#alone();
      });
      return { hear: (order) => worker.postMessage(order), end: () => worker.terminate() };
    } catch {
      return undefined;
    }
  }

  /** @param {number} which @returns {Part} */
  #here(which) {
    const turn = this.#turn;
    const looking = this.#kind.here((news) => turn === this.#turn && this.#told(which, news));
    return { hear: (order) => void looking.hear(order), end: () => looking.free() };
  }

  /** Hands something on to all parts but one, each of which says when it has done with it. @param {number} which @param {Order} order */
  #tellOthers(which, order) {
    this.#parts.forEach((part, at) => {
      if (at === which) return;
      this.#done[at] = false;
      this.#toldTo[at] += 1;
      part.hear(order);
    });
  }

  /** @param {number} which @param {News<E>} news */
  #told(which, news) {
    if (!this.#parts[which]) return;
    if (news.report === undefined) {
      this.end();
      this.#fail(news);
      return;
    }
    /** @type {R} */
    const report = JSON.parse(news.report);
    const before = this.#known[which];
    this.#known[which] = report;
    // One that said so before it was told of something else goes on with that.
    this.#done[which] = Boolean(news.done) && news.heard === this.#toldTo[which];
    this.#estimate ??= news.estimate;
    if (news.stands) this.#stands[which] = news.stands;
    this.#kind.told?.(report, before, news, (order) => this.#tellOthers(which, order));
    const known = this.#known.filter((report) => report !== undefined);
    if (known.length < this.#known.length) return;
    const places = this.#stands.filter((place) => place !== undefined);
    // Whoever keeps them need not write again what is there: with thousands of finds that takes a while.
    const stands = news.stands && places.length === known.length ? places : undefined;
    this.#hear({ found: this.#kind.sum(known), done: this.#done.every(Boolean), parts: known.length, estimate: this.#estimate, stands });
  }
}

/**
 * The sums of some numbers that all reports have.
 * @template {string} N
 * @param {Record<N, number>[]} reports
 * @param {N[]} names
 * @returns {Record<N, number>}
 */
export function sums(reports, names) {
  const of = (/** @type {N} */ name) => reports.reduce((sum, report) => sum + report[name], 0);
  return /** @type {Record<N, number>} */ (Object.fromEntries(names.map((name) => [name, of(name)])));
}
