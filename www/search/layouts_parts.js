/** A search for layouts in parts, a worker each, as the page sees it. Each part has layouts of its own. */

import { siteFile } from "../kit/site.js";
import { language } from "../state/language.js";
import { LayoutsLooking } from "./layouts_looking.js";

/** @typedef {import("./layouts_looking.js").Order} Order */
/** @typedef {import("./layouts_looking.js").News} News */
/** @typedef {import("../engine/levertrain.js").LayoutsReport} LayoutsReport */
/** @typedef {{ hear(order: Order): void, end(): void }} Part */
/** @typedef {{ found: LayoutsReport, done: boolean, parts: number }} State how far it is, and how many look at once */

/** Most workers: more find hardly anything sooner. */
const MOST = 8;

export class LayoutsParts {
  /** @type {Part[]} */
  #parts = [];
  /** The last news of each part. @type {(LayoutsReport | undefined)[]} */
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

  /** @param {string} ask */
  begin(ask) {
    this.end();
    const of = Math.min(Math.max(navigator.hardwareConcurrency || 1, 1), MOST);
    const workers = Array.from({ length: of }, (_, which) => this.#worker(which));
    const parts = workers.filter((part) => part !== undefined);
    // Where a browser lets the page have none, the page looks by itself.
    this.#parts = parts.length === of ? parts : [this.#here()];
    if (parts.length !== of) parts.forEach((part) => part.end());
    this.#known = this.#parts.map(() => undefined);
    this.#done = this.#parts.map(() => false);
    this.#parts.forEach((part, which) => part.hear({ begin: { ask, which, of: this.#parts.length, language: language() } }));
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
    const program = siteFile("layouter.js");
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
    const looking = new LayoutsLooking((news) => this.#told(0, news));
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
    const known = this.#known.filter((report) => report !== undefined);
    if (known.length === this.#known.length) this.#hear({ found: sum(known), done: this.#done.every(Boolean), parts: known.length });
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
    full: parts.some(({ full }) => full),
    found: parts.flatMap(({ found }) => found),
  };
}
