/** The frame loop: runs while something moves, and not at all otherwise. */

/** What the first frame after a rest counts as, in seconds. */
const FIRST_STEP = 1 / 60;

export class Frames {
  #step;
  #id = 0;
  #last = 0;
  #wanted = false;

  /**
   * @param {(seconds: number) => boolean} step draws a frame; whether the next one will differ
   * @param {AbortSignal} signal ends the loop for good
   */
  constructor(step, signal) {
    this.#step = step;
    document.addEventListener("visibilitychange", () => this.#wake(), { signal });
    signal.addEventListener("abort", () => this.#rest());
  }

  /** Asks for a frame; a loop at rest starts again. */
  request() {
    this.#wanted = true;
    this.#wake();
  }

  #wake() {
    if (document.hidden) {
      this.#rest();
    } else if (this.#wanted && this.#id === 0) {
      this.#id = requestAnimationFrame((now) => this.#tick(now));
    }
  }

  #rest() {
    cancelAnimationFrame(this.#id);
    this.#id = 0;
    this.#last = 0;
  }

  /** @param {number} now */
  #tick(now) {
    const seconds = this.#last === 0 ? FIRST_STEP : (now - this.#last) / 1000;
    this.#last = now;
    this.#id = 0;
    this.#wanted = false;
    if (this.#step(seconds)) this.#wanted = true;
    if (this.#wanted) this.#wake();
    else this.#last = 0;
  }
}
