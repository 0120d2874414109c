/**
 * A search in parts, a worker each, as the page sees it. The first part is told what the others find, so that its
 * finds are those of all.
 */

import { siteFile } from "../kit/site.js";
import { language } from "../state/language.js";
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
 */

/** Most workers: more find hardly anything sooner. */
const MOST = 8;

export class Parts {
  /** @type {Part[]} */
  #parts = [];
  /** The last news of each part. @type {(Finding | undefined)[]} */
  #known = [];
  /** Which have ended. @type {boolean[]} */
  #done = [];
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
   */
  begin(train, ask) {
    this.end();
    const of = Math.min(Math.max(navigator.hardwareConcurrency || 1, 1), MOST);
    const workers = Array.from({ length: of }, (_, which) => this.#worker(which));
    const parts = workers.filter((part) => part !== undefined);
    // Where a browser lets the page have none, the page looks by itself.
    this.#parts = parts.length === of ? parts : [this.#here()];
    if (parts.length !== of) parts.forEach((part) => part.end());
    this.#known = this.#parts.map(() => undefined);
    this.#done = this.#parts.map(() => false);
    this.#parts.forEach((part, which) => part.hear({ begin: { train, ask, which, of: this.#parts.length, language: language() } }));
  }

  /** @param {boolean} rests */
  rest(rests) {
    this.#parts.forEach((part) => part.hear({ rests }));
  }

  end() {
    this.#parts.forEach((part) => part.end());
    this.#parts = [];
  }

  /** @param {number} which @returns {Part | undefined} */
  #worker(which) {
    const program = siteFile("finder.js");
    if (program.origin !== location.origin) return undefined;
    try {
      const worker = new Worker(program, { type: "module" });
      worker.addEventListener("message", ({ data }) => this.#told(which, data));
      worker.addEventListener("error", (event) => {
        event.preventDefault();
        this.#told(which, { failed: event.message });
      });
      return { hear: (order) => worker.postMessage(order), end: () => worker.terminate() };
    } catch {
      return undefined;
    }
  }

  /** @returns {Part} */
  #here() {
    const looking = new Looking((news) => this.#told(0, news));
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
    const finds = report.finds.length;
    const before = this.#known[which];
    this.#known[which] = report;
    this.#done[which] = Boolean(news.done);
    const fresh = finds > 0 && JSON.stringify(before?.finds) !== JSON.stringify(report.finds);
    if (which > 0 && fresh) this.#parts[0].hear({ told: JSON.stringify(report.finds) });
    // The first part's answer to that comes in news of its own.
    if (this.#known.every((known) => known !== undefined)) this.#hear(this.#state());
  }

  /** @returns {State} */
  #state() {
    const known = /** @type {Finding[]} */ (this.#known);
    const sum = (/** @type {"outside" | "beaten" | "tried"} */ name) => known.reduce((all, { [name]: part }) => all + part, 0);
    const found = { ...known[0], outside: sum("outside"), beaten: sum("beaten"), tried: sum("tried") };
    return { found, done: this.#done.every(Boolean), parts: known.length };
  }
}
