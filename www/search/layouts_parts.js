/** A search for layouts in parts, a worker each, as the page sees it. Each part has layouts of its own. */

import { siteFile } from "../kit/site.js";
import { language } from "../state/language.js";
import { LayoutsLooking } from "./layouts_looking.js";

/** @typedef {import("./layouts_looking.js").Order} Order */
/** @typedef {import("./layouts_looking.js").News} News */
/** @typedef {import("../engine/levertrain.js").LayoutsReport} LayoutsReport */
/** @typedef {{ hear(order: Order): void, end(): void }} Part */
/**
 * How far it is.
 * @typedef {object} State
 * @property {LayoutsReport} found
 * @property {boolean} done
 * @property {number} parts how many look at once
 * @property {import("./layouts_looking.js").Estimate} [estimate]
 * @property {string[]} [stands] where each stands, once that is known of all
 */

/** Most workers: more find hardly anything sooner. */
const MOST = 8;

export class LayoutsParts {
  /** @type {Part[]} */
  #parts = [];
  /** The last news of each part. @type {(LayoutsReport | undefined)[]} */
  #known = [];
  /** Which have ended. @type {boolean[]} */
  #done = [];
  /** Where each stood last. @type {(string | undefined)[]} */
  #stands = [];
  /** @type {import("./layouts_looking.js").Estimate | undefined} */
  #estimate;
  /** What is asked. @type {{ ask: string, stood?: string[] } | undefined} */
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
   * @param {string} ask
   * @param {string[]} [stood] where each part stood, for one that was begun before
   */
  begin(ask, stood) {
    const of = stood?.length ?? Math.min(Math.max(navigator.hardwareConcurrency || 1, 1), MOST);
    this.#asked = { ask, stood };
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
    const { ask = "", stood } = this.#asked ?? {};
    parts.forEach((part, which) => part.hear({ begin: { ask, which, of: parts.length, language: language(), stood: stood?.[which] } }));
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
    const program = siteFile("layouter.js");
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
    const looking = new LayoutsLooking((news) => turn === this.#turn && this.#told(which, news));
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
    this.#known[which] = JSON.parse(news.report);
    this.#done[which] = Boolean(news.done);
    this.#estimate ??= news.estimate;
    if (news.stands) this.#stands[which] = news.stands;
    const known = this.#known.filter((report) => report !== undefined);
    if (known.length < this.#known.length) return;
    const places = this.#stands.filter((place) => place !== undefined);
    const stands = places.length === known.length ? places : undefined;
    this.#hear({ found: sum(known), done: this.#done.every(Boolean), parts: known.length, estimate: this.#estimate, stands });
  }
}

/** What all parts have found together. @param {LayoutsReport[]} parts @returns {LayoutsReport} */
function sum(parts) {
  const all = (/** @type {"progress" | "frames" | "crossing" | "given_up" | "layouts" | "useless" | "toothless" | "unended" | "count"} */ name) => parts.reduce((sum, { [name]: value }) => sum + value, 0);
  return {
    progress: all("progress") / parts.length,
    frames: all("frames"),
    crossing: all("crossing"),
    given_up: all("given_up"),
    layouts: all("layouts"),
    useless: all("useless"),
    toothless: all("toothless"),
    unended: all("unended"),
    count: all("count"),
    unreached: parts[0].unreached.filter((range) => parts.every(({ unreached }) => unreached.includes(range))),
    full: parts.some(({ full }) => full),
    found: parts.flatMap(({ found }) => found),
  };
}
