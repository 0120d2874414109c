/**
 * A search in parts, a worker each, as the page sees it. Each part is told what the others find, so that the finds of the
 * first are those of all.
 */

import { siteFile } from "../kit/site.js";
import { language } from "../state/language.js";
import { keyOf } from "./finds_columns.js";
import { Looking } from "./looking.js";

/** @typedef {import("./looking.js").Order} Order */
/** @typedef {import("./looking.js").News} News */
/** @typedef {import("../engine/levertrain.js").Finding} Finding */
/** @typedef {{ hear(order: Order): void, end(): void }} Part */
/**
 * How far a search is.
 * @typedef {object} State
 * @property {Finding} found
 * @property {boolean} done
 * @property {number} parts how many look at once
 * @property {number} [estimate] about how many boxes all together will look at
 * @property {string[]} [stands] where each stands, once that is known of all
 */

/** Most workers: more find hardly anything sooner. */
const MOST = 8;
/** How long the page looks by itself before it draws again, in milliseconds. */
const ON_PAGE_MS = 6;

export class Parts {
  /** @type {Part[]} */
  #parts = [];
  /** The last news of each part. @type {(Finding | undefined)[]} */
  #known = [];
  /** Which have ended. @type {boolean[]} */
  #done = [];
  /** Where each stood last. @type {(string | undefined)[]} */
  #stands = [];
  /** @type {number | undefined} */
  #estimate;
  /** The finds that all parts know of, or were told. @type {Set<string>} */
  #shared = new Set();
  /** What is asked. @type {{ train: string, ask: string, stood?: string[] } | undefined} */
  #asked;
  /** Counts beginnings and ends: what is told of an earlier search is passed over. */
  #turn = 0;
  #hear;
  #fail;

  /**
   * @param {(state: State) => void} hear called with whatever is news
   * @param {(news: News) => void} fail called when it cannot be, or goes on no more
   */
  constructor(hear, fail) {
    this.#hear = hear;
    this.#fail = fail;
  }

  /**
   * @param {string} train
   * @param {string} ask
   * @param {string[]} [stood] where each part stood, for one that was begun before
   */
  begin(train, ask, stood) {
    const of = stood?.length ?? Math.min(Math.max(navigator.hardwareConcurrency || 1, 1), MOST);
    this.#asked = { train, ask, stood };
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
    this.#stands = parts.map(() => undefined);
    this.#estimate = undefined;
    this.#shared = new Set();
    const { train = "", ask = "", stood } = this.#asked ?? {};
    parts.forEach((part, which) => part.hear({ begin: { train, ask, which, of: parts.length, language: language(), stood: stood?.[which] } }));
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
    const program = siteFile("finder.js");
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
    const looking = new Looking((news) => turn === this.#turn && this.#told(which, news), ON_PAGE_MS);
    return { hear: (order) => void looking.hear(order), end: () => looking.free() };
  }

  /** @param {number} which @param {News} news */
  #told(which, news) {
    if (!this.#parts[which]) return;
    if (news.report === undefined) {
      this.end();
      this.#fail(news);
      return;
    }
    /** @type {Finding} */
    const report = JSON.parse(news.report);
    if (news.same) report.finds = this.#known[which]?.finds ?? [];
    this.#known[which] = report;
    this.#done[which] = Boolean(news.done);
    this.#estimate ??= news.estimate;
    if (news.stands) this.#stands[which] = news.stands;
    const fresh = news.same ? [] : report.finds.filter((find) => !this.#shared.has(keyOf(find)));
    fresh.forEach((find) => this.#shared.add(keyOf(find)));
    // What one finds cuts off boxes of the others.
    if (fresh.length > 0) this.#parts.forEach((part, at) => at !== which && part.hear({ told: JSON.stringify(fresh) }));
    // The first part's answer to what it is told comes in news of its own.
    if (this.#known.every((known) => known !== undefined)) this.#hear(this.#state());
  }

  /** @returns {State} */
  #state() {
    const known = /** @type {Finding[]} */ (this.#known);
    const sum = (/** @type {"outside" | "beaten" | "tried" | "boxes"} */ name) => known.reduce((all, { [name]: part }) => all + part, 0);
    const found = { ...known[0], outside: sum("outside"), beaten: sum("beaten"), tried: sum("tried"), boxes: sum("boxes"), full: known.some(({ full }) => full) };
    const places = this.#stands.filter((place) => place !== undefined);
    const stands = places.length === known.length ? places : undefined;
    return { found, done: this.#done.every(Boolean), parts: known.length, estimate: this.#estimate, stands };
  }
}
