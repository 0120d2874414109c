/**
 * Sheets that are put together, each by the train that it is about. On a page of its own the browser keeps them, over a
 * reload and after the tab is closed. In somebody else's page what the browser stores is theirs: there they last as long
 * as that page.
 */

import { siteFile } from "../kit/site.js";

/** @typedef {import("../engine/levertrain_whole.js").TaskText} TaskText */
/**
 * What somebody has put together.
 * @typedef {object} KeptSheet
 * @property {string} title as it was typed
 * @property {string[]} walk ids of ranges
 * @property {TaskText[]} tasks
 * @property {number} time of its last change
 */

/** Other sites of this host have theirs. */
const start = () => `levertrain sheet ${siteFile("").href} `;

/** Most of them: with one more the oldest goes. */
const MOST = 20;

export class KeptSheets {
  #keeps;
  /** @type {Map<string, KeptSheet>} */
  #sheets = new Map();

  /** @param {boolean} keeps whether the browser is to keep them */
  constructor(keeps) {
    this.#keeps = keeps;
    if (!keeps) return;
    // What this tab had comes before what another has kept since.
    this.#take(() => localStorage);
    this.#take(() => sessionStorage);
  }

  /** @param {() => Storage} storage which a browser may refuse */
  #take(storage) {
    try {
      for (const [key, value] of Object.entries(storage())) {
        const sheet = key.startsWith(start()) ? sheetIn(value) : undefined;
        if (sheet) this.#sheets.set(key.slice(start().length), sheet);
      }
    } catch {
      // Where nothing is kept there is nothing to take.
    }
  }

  /** @param {string} train what the train is known by */
  get(train) {
    return this.#sheets.get(train);
  }

  /** Those of other trains, the latest first. @param {string} train */
  others(train) {
    const others = [...this.#sheets].filter(([key]) => key !== train);
    return others.sort(([, one], [, other]) => other.time - one.time);
  }

  /**
   * @param {string} train
   * @param {KeptSheet | undefined} sheet nothing where it is empty now
   * @returns {boolean} whether it lasts longer than the page
   */
  set(train, sheet) {
    if (sheet) this.#sheets.set(train, sheet);
    else this.#sheets.delete(train);
    const [oldest] = this.others(train).slice(MOST - 1);
    if (oldest) this.#forget(oldest[0]);
    return this.#keeps && this.#keep(train, sheet);
  }

  /** @param {string} train */
  #forget(train) {
    this.#sheets.delete(train);
    if (this.#keeps) this.#keep(train, undefined);
  }

  /** @param {string} train @param {KeptSheet | undefined} sheet */
  #keep(train, sheet) {
    try {
      for (const storage of [sessionStorage, localStorage]) {
        if (sheet) storage.setItem(start() + train, JSON.stringify(sheet));
        else storage.removeItem(start() + train);
      }
      return true;
    } catch {
      return false;
    }
  }
}

/** What was kept as a text; nothing where it is not ours. @param {string} text @returns {KeptSheet | undefined} */
function sheetIn(text) {
  try {
    const { title, walk, tasks, time } = JSON.parse(text);
    const isText = (/** @type {unknown} */ value) => typeof value === "string";
    const whole = isText(title) && Array.isArray(walk) && walk.every(isText) && Array.isArray(tasks);
    return whole ? { title, walk, tasks, time: Number(time) } : undefined;
  } catch {
    return undefined;
  }
}
