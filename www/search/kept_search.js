/**
 * Where a search stands, kept by the browser so that a closed tab loses little: the last one that has not ended. In somebody
 * else's page what the browser stores is theirs: there nothing is kept.
 */

import { siteFile } from "../kit/site.js";

/**
 * @typedef {object} Kept
 * @property {string} train the text of the train that it is about; empty where it is about none
 * @property {string} ask what is asked, as JSON
 * @property {string[]} stands where each part stands
 * @property {number} part how much of it was looked through, from 0 to 1
 */

export class KeptSearch {
  #keeps;
  #what;

  /**
   * @param {boolean} keeps whether the browser is to keep it
   * @param {string} what of which kind it is: there is one of each
   */
  constructor(keeps, what) {
    this.#keeps = keeps;
    this.#what = what;
  }

  /** Other sites of this host have theirs. */
  get #name() {
    return `levertrain ${this.#what} ${siteFile("").href}`;
  }

  /** The one that is kept for a train, if any. @param {string} train @returns {Kept | undefined} */
  of(train) {
    if (!this.#keeps) return undefined;
    try {
      const kept = JSON.parse(localStorage.getItem(this.#name) ?? "null");
      const isOne = kept?.train === train && Array.isArray(kept.stands) && `${kept.ask}` === kept.ask;
      return isOne ? kept : undefined;
    } catch {
      return undefined;
    }
  }

  /** @param {Kept} kept */
  keep(kept) {
    if (!this.#keeps) return;
    try {
      localStorage.setItem(this.#name, JSON.stringify(kept));
    } catch {
      // Without room for it, or where nothing is kept, a closed tab ends the search.
    }
  }

  /** Once it has ended, or is not wanted any more. */
  forget() {
    if (!this.#keeps) return;
    try {
      localStorage.removeItem(this.#name);
    } catch {
      // What keeps nothing has nothing to forget.
    }
  }
}
