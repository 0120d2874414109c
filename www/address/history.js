/** Keeps the page's address and what is on screen the same, both ways. */

import { problemsOf } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { fragmentOf, viewOf } from "./link.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/kept_files.js").OwnFile} OwnFile */
/** @typedef {{ state: unknown, address: string }} Entry of the browser's history */
/** @typedef {(open: () => void) => void} Put how what is asked for comes on screen, once it is there */
/**
 * Opens what an entry of the history says. Files the user opened on this page are at hand by number:
 * a link cannot hold them, but back and forward can.
 * @typedef {{
 *   files: OwnFile[],
 *   open(view: import("./link.js").View, put: Put): Promise<boolean>,
 *   reopen(key: number, applied: string[], put: Put): void,
 *   overtake(): void,
 * }} Opener
 */

/** Browsers refuse to rewrite the address more than about three times a second for long. */
const REWRITE_MS = 400;

export class History {
  #desk;
  #opening;
  /** Counts what the address asked for: only the newest may still change anything. */
  #turn = 0;
  /** Settles once the newest has been answered. */
  #answered = Promise.resolve();
  /** While what the address asks for is on its way, the address must not say what is on screen. */
  #waiting = false;
  /** While the screen follows the address, the address must not follow the screen. */
  #following = false;
  /** How to rewrite the address once it may be again: a slider changes it at every step. */
  #due = /** @type {Entry | undefined} */ (undefined);
  /** Runs until then. */
  #pause = 0;

  /**
   * @param {Desk} desk
   * @param {Opener} opening
   * @param {AbortSignal} signal
   */
  constructor(desk, opening, signal) {
    this.#desk = desk;
    this.#opening = opening;
    addEventListener("popstate", (event) => this.#follow(event.state), { signal });
    addEventListener("pagehide", () => this.#rewrite(), { signal });
    signal.addEventListener("abort", () => {
      this.#turn += 1;
      this.#forget();
    });
    desk.addEventListener("answer", () => this.#enter());
    for (const event of ["speed", "torque", "units", "road", "assumptions", "look"]) {
      desk.addEventListener(event, () => this.#plan());
    }
  }

  /**
   * Shows what the address asks for when the page opens, or else what the page does.
   * @param {import("./link.js").View} wishes
   */
  async start(wishes) {
    this.#follow(history.state, wishes);
    // The reader may have stepped on meanwhile.
    for (let seen; seen !== this.#answered; await seen) seen = this.#answered;
  }

  /**
   * @param {{ file: number, applied: string[] } | null} state
   * @param {import("./link.js").View} [otherwise] what to show when the address says nothing
   */
  #follow(state, otherwise = {}) {
    this.#turn += 1;
    this.#waiting = true;
    this.#forget();
    this.#answered = this.#show(this.#turn, state, otherwise);
  }

  /**
   * @param {number} turn
   * @param {{ file: number, applied: string[] } | null} state
   * @param {import("./link.js").View} otherwise
   */
  async #show(turn, state, otherwise) {
    const put = (/** @type {() => void} */ open) => this.#put(open);
    /** Whether it came on screen; another wish may have overtaken it. */
    let shown = false;
    /** @type {unknown} */
    let failed;
    /** @type {import("./link.js").View} */
    let view = {};
    try {
      if (state && this.#opening.files[state.file] && !this.#opening.files[state.file].gone) {
        this.#opening.reopen(state.file, state.applied, put);
        shown = true;
      } else {
        view = location.hash === "" ? otherwise : viewOf(location.hash);
        shown = await this.#opening.open(view, put);
      }
    } catch (error) {
      failed = error;
    }
    if (turn !== this.#turn) return;
    this.#waiting = false;
    if (failed !== undefined) {
      this.#desk.report(failed);
    } else if (shown) {
      this.#desk.dismiss();
      const problems = view.failures?.flatMap(problemsOf) ?? [];
      if (problems.length > 0) this.#desk.report({ problems }, say("page-heading-partly"));
    } else {
      return;
    }
    // A link that led nowhere gives way to what is on screen.
    this.#due = this.#entry();
    this.#rewrite();
  }

  /**
   * Puts on screen what the address asks for.
   * @param {() => void} open
   */
  #put(open) {
    this.#following = true;
    try {
      open();
    } finally {
      this.#following = false;
    }
  }

  /** A new entry of the history for what is on screen. */
  #enter() {
    if (this.#following) return;
    if (this.#waiting) {
      // Whoever presses something while a step is on its way wants that instead.
      this.#turn += 1;
      this.#waiting = false;
      this.#opening.overtake();
    }
    if (this.#desk.editing) {
      // Edits have a way back of their own.
      this.#plan();
      return;
    }
    const entry = this.#entry();
    if (!entry) return;
    this.#rewrite();
    history.pushState(entry.state, "", entry.address);
  }

  /** Rewrites this entry of the history, at once or soon. */
  #plan() {
    if (this.#following || this.#waiting) return;
    this.#due = this.#entry();
    if (this.#pause === 0) this.#rewrite();
  }

  #rewrite() {
    const entry = this.#due;
    this.#forget();
    if (!entry) return;
    history.replaceState(entry.state, "", entry.address);
    this.#pause = setTimeout(() => this.#rewrite(), REWRITE_MS);
  }

  #forget() {
    clearTimeout(this.#pause);
    this.#pause = 0;
    this.#due = undefined;
  }

  /**
   * What the history should say of what is on screen, unless it says so already.
   * @returns {Entry | undefined}
   */
  #entry() {
    const { source, answer } = this.#desk;
    if (!source || !answer) return undefined;
    const { pathname, search, hash } = location;
    const page = pathname + search;
    const { applied } = answer;
    if ("stem" in source) {
      const fragment = fragmentOf(source, applied, this.#desk);
      return fragment === hash ? undefined : { state: null, address: page + fragment };
    }
    const same = history.state?.file === source.file && `${history.state.applied}` === `${applied}`;
    return same ? undefined : { state: { file: source.file, applied }, address: page };
  }
}
