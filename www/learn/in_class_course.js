/** What comes next in class: the ranges one after the other, or the steps of the walkthrough through each. */

/** @typedef {import("../engine/levertrain_whole.js").WalkStep} WalkStep */
/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {{ at: number, of: number, text: string }} Step from 1 */

export class Course {
  #desk;
  #tell;
  /** @type {WalkStep[]} */
  #steps = [];
  /** Which step is current; none before the first. */
  #at = -1;
  /** Whether it is this that applies another range. */
  #goes = false;
  /** @type {"ranges" | "steps"} */
  way = "ranges";

  /**
   * @param {Desk} desk
   * @param {(step: Step | undefined) => void} tell
   * @param {AbortSignal} signal
   */
  constructor(desk, tell, signal) {
    this.#desk = desk;
    this.#tell = tell;
    for (const name of ["answer", "train"]) desk.addEventListener(name, () => this.#goes || this.#begin(), { signal });
  }

  /** @param {"ranges" | "steps"} way */
  follow(way) {
    this.way = way;
    this.#begin();
  }

  /** @param {number} by 1 or −1 */
  go(by) {
    if (this.way === "steps" && this.#steps[this.#at + by]) this.#show(this.#at + by);
    else if (this.way === "steps" && by < 0 && this.#at === 0) this.#show(-1);
    else this.#range(by);
  }

  /** Applies the next range, or the one before; after the last comes the first. @param {number} by */
  #range(by) {
    const { info, answer } = this.#desk;
    const ranges = info?.ranges ?? [];
    if (ranges.length === 0) return;
    const now = ranges.findIndex(({ id }) => id === answer?.range);
    const next = now < 0 ? (by > 0 ? 0 : ranges.length - 1) : (now + by + ranges.length) % ranges.length;
    this.#goes = true;
    try {
      this.#desk.apply(ranges[next].applied);
    } finally {
      this.#goes = false;
    }
    this.#begin();
  }

  #begin() {
    const walks = this.way === "steps";
    this.#steps = (walks && this.#desk.askWhole((engine, sandbox) => engine.walk(sandbox))?.steps) || [];
    this.#show(-1);
  }

  /** @param {number} at */
  #show(at) {
    this.#at = at;
    const step = this.#steps[at];
    this.#desk.tell(step);
    this.#tell(step && { at: at + 1, of: this.#steps.length, text: step.sentences.join(" ") });
  }
}
