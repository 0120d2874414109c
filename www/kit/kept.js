/** Things that are kept while they are made of the same, so that what a change leaves alone is not laid out anew. */

/** @template T */
export class Kept {
  /** What was taken in the last round, with what it was made of. @type {Map<string, { shape: string, thing: T }>} */
  #known = new Map();
  /** @type {Map<string, { shape: string, thing: T }>} */
  #next = new Map();

  /**
   * The thing of a key: the one there is, or another where it would be made of something else.
   * @param {string} key
   * @param {unknown} shape what decides how it comes out
   * @param {() => T} make
   */
  take(key, shape, make) {
    const text = JSON.stringify(shape);
    const known = this.#known.get(key);
    const entry = known?.shape === text ? known : { shape: text, thing: make() };
    this.#next.set(key, entry);
    return entry.thing;
  }

  /** Ends a round: what was not taken in it is let go. */
  end() {
    this.#known = this.#next;
    this.#next = new Map();
  }
}
