/**
 * What comes next in class: the ranges one after the other, or the steps of the walkthrough through each. A step of many
 * sentences comes in parts that have room in the line of words, so that the drawings stay as large as they are.
 */

/** @typedef {import("../engine/levertrain_whole.js").WalkStep} WalkStep */
/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {{ at: number, of: number, text: string }} Step from 1 */

/** Says that a step goes on. */
const GOES_ON = " …";

export class Course {
  #desk;
  #tell;
  #fits;
  /** What each part of a step lights and says. @type {{ step: WalkStep, told: Step }[]} */
  #parts = [];
  /** Which part is current; none before the first. */
  #at = -1;
  /** Whether it is this that applies another range. */
  #goes = false;
  /** @type {"ranges" | "steps"} */
  way = "ranges";

  /**
   * @param {Desk} desk
   * @param {(step: Step | undefined) => void} tell
   * @param {(step: Step) => boolean} fits whether there is room for all of its words
   * @param {AbortSignal} signal
   */
  constructor(desk, tell, fits, signal) {
    this.#desk = desk;
    this.#tell = tell;
    this.#fits = fits;
    for (const name of ["answer", "train"]) desk.addEventListener(name, () => this.#goes || this.#begin(), { signal });
  }

  /** @param {"ranges" | "steps"} way */
  follow(way) {
    this.way = way;
    this.#begin();
  }

  /** @param {number} by 1 or −1 */
  go(by) {
    if (this.way === "steps" && this.#parts[this.#at + by]) this.#show(this.#at + by);
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
    const steps = (walks && this.#desk.askWhole((engine, sandbox) => engine.walk(sandbox))?.steps) || [];
    this.#parts = steps.flatMap((step, at) => {
      const told = (/** @type {string} */ text) => ({ at: at + 1, of: steps.length, text });
      const texts = grouped(step.sentences, (text) => this.#fits(told(text + GOES_ON)));
      return texts.map((text, part) => ({ step, told: told(part + 1 < texts.length ? text + GOES_ON : text) }));
    });
    this.#show(-1);
  }

  /** @param {number} at */
  #show(at) {
    this.#at = at;
    const part = this.#parts[at];
    this.#desk.tell(part?.step);
    this.#tell(part?.told);
  }
}

/**
 * As many sentences at once as there is room for, and at least one.
 * @param {string[]} sentences
 * @param {(text: string) => boolean} fits
 */
function grouped(sentences, fits) {
  /** @type {string[]} */
  const texts = [];
  for (const sentence of sentences) {
    const longer = [...texts.slice(-1), sentence].join(" ");
    if (texts.length > 0 && fits(longer)) texts[texts.length - 1] = longer;
    else texts.push(sentence);
  }
  return texts;
}
