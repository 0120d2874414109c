/** Bettering a drawing in pieces after an edit, where shafts cross in it, or that need not. */

import { inPieces, pause } from "../kit/pieces.js";

/**
 * Tells `change` whenever it begins or ends.
 * @template T what a better drawing comes with
 */
export class Mending extends EventTarget {
  /** Counts the times that it began or was given up. */
  #turn = 0;
  #step;
  #done;
  /** Whether it goes on. */
  active = false;
  /** Whether somebody has hold of a part: nothing moves away under a hand. */
  held = false;

  /**
   * @param {() => T | boolean} step the next piece: true while there is more, false where nothing is better
   * @param {(found: T) => void} done takes over what is better
   */
  constructor(step, done) {
    super();
    this.#step = step;
    this.#done = done;
  }

  /** Begins, or begins anew. */
  async begin() {
    const turn = (this.#turn += 1);
    this.#tell(true);
    await this.#rest();
    const found = await inPieces(
      () => {
        if (turn !== this.#turn) return false;
        const next = this.#step();
        return next === true ? undefined : next;
      },
      () => this.#rest(),
    );
    if (turn !== this.#turn) return;
    this.#tell(false);
    if (typeof found !== "boolean") this.#done(found);
  }

  /** Gives up what goes on. */
  stop() {
    this.#turn += 1;
    this.#tell(false);
  }

  async #rest() {
    do await pause();
    while (this.held);
  }

  /** @param {boolean} active */
  #tell(active) {
    if (active === this.active) return;
    this.active = active;
    this.dispatchEvent(new Event("change"));
  }
}
