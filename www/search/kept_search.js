/**
 * Where a search stands, kept by the browser so that a closed tab loses little: the last one that has not ended. In somebody
 * else's page what the browser stores is theirs: there nothing is kept.
 */

import { siteFile } from "../kit/site.js";

/**
 * @typedef {object} Kept
 * @property {string} train the text of the train that it is about
 * @property {string} ask what is asked, as JSON
 * @property {string[]} stands where each part stands
 * @property {number} part how much of it was looked through, from 0 to 1
 */

/** Other sites of this host have theirs. */
const name = () => `levertrain search ${siteFile("").href}`;

export class KeptSearch {
  #keeps;

  /** @param {boolean} keeps whether the browser is to keep it */
  constructor(keeps) {
    this.#keeps = keeps;
  }

  /** The one that is kept for a train, if any. @param {string} train @returns {Kept | undefined} */
  of(train) {
    if (!this.#keeps) return undefined;
    try {
      const kept = JSON.parse(localStorage.getItem(name()) ?? "null");
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
      localStorage.setItem(name(), JSON.stringify(kept));
    } catch {
      // Without room for it, or where nothing is kept, a closed tab ends the search.
    }
  }

  /** Once it has ended, or is not wanted any more. */
  forget() {
    if (!this.#keeps) return;
    try {
      localStorage.removeItem(name());
    } catch {
      // What keeps nothing has nothing to forget.
    }
  }
}
