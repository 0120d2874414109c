/** An answer that stays what it is for as long as what it is of does. */

/** @template T */
export class Remembered {
  /** @type {{ of: object, answer: T } | undefined} */
  #last;

  /**
   * The answer about this, asked for once; nothing where it cannot be had yet.
   * @param {object | undefined} of
   * @param {() => T | undefined} ask
   * @returns {T | undefined}
   */
  of(of, ask) {
    if (of && this.#last?.of === of) return this.#last.answer;
    const answer = of && ask();
    this.#last = of && answer && { of, answer };
    return answer;
  }
}
