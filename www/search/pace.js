/** How fast a search for teeth goes, which tells how long it will take. */

/** How long it goes on before it is told how long it will take, in milliseconds. */
const PROBE_MS = 300;

export class Pace {
  /** When news came first, and how many boxes were looked at then. @type {{ time: number, boxes: number } | undefined} */
  #first;
  #isTold = false;

  clear() {
    this.#first = undefined;
    this.#isTold = false;
  }

  /**
   * @param {{ boxes: number, estimate?: number, rests: boolean }} state how many boxes were looked at, and about how many
   *   there are
   * @returns {number | undefined} how many seconds are left, once, as soon as it can be told
   */
  hear({ boxes, estimate, rests }) {
    if (this.#isTold || rests || estimate === undefined) return undefined;
    const time = performance.now();
    this.#first ??= { time, boxes };
    const took = time - this.#first.time;
    if (took < PROBE_MS || boxes <= this.#first.boxes) return undefined;
    this.#isTold = true;
    const MS = 1000;
    return ((estimate - boxes) * took) / (boxes - this.#first.boxes) / MS;
  }
}
