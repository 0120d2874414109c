/** Keeps the page's address and what is on screen the same, both ways. */

import { faultsOf } from "../kit/faults.js";
import { fragmentOf, viewOf } from "./link.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {{ text: string, name: string }} OwnFile */
/** @typedef {{ state: unknown, address: string }} Entry of the browser's history */

/** Browsers refuse to rewrite the address more than about three times a second for long. */
const REWRITE_MS = 400;

const PARTLY = "Part of the link cannot be shown; the usual stands in its place.";

export class History {
  #desk;
  #show;
  /** Files the user opened on this page: a link cannot hold them, but back and forward can. */
  #files;
  /** While the screen follows the address, the address must not follow the screen. */
  #following = false;
  /** Counts turns to an entry: only the newest has a say in what the address becomes. */
  #turn = 0;
  /** The turns so far, one after the other: a slow one must not finish over a newer one. */
  #opening = Promise.resolve();
  /** How to rewrite the address once it may be again: a slider changes it at every step. */
  #due = /** @type {Entry | undefined} */ (undefined);
  /** Runs until then. */
  #pause = 0;

  /**
   * @param {Desk} desk
   * @param {OwnFile[]} files
   * @param {(view: import("./link.js").View) => Promise<void>} show opens what a link asks for
   * @param {AbortSignal} signal
   */
  constructor(desk, files, show, signal) {
    this.#desk = desk;
    this.#files = files;
    this.#show = show;
    addEventListener("popstate", (event) => this.#follow(event.state), { signal });
    addEventListener("pagehide", () => this.#rewrite(), { signal });
    signal.addEventListener("abort", () => this.#forget());
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
    await this.#follow(history.state, wishes);
  }

  /**
   * @param {{ file: number, applied: string[] } | null} state
   * @param {import("./link.js").View} [otherwise] what to show when the address says nothing
   */
  #follow(state, otherwise = {}) {
    this.#turn += 1;
    const turn = this.#turn;
    this.#following = true;
    this.#forget();
    this.#opening = this.#opening.then(() => this.#open(turn, state, otherwise));
    return this.#opening;
  }

  /**
   * @param {number} turn
   * @param {{ file: number, applied: string[] } | null} state
   * @param {import("./link.js").View} otherwise
   */
  async #open(turn, state, otherwise) {
    // The user is further on already; what that entry asks for is nobody's wish any more.
    if (turn !== this.#turn) return;
    /** @type {import("./link.js").View} */
    let view = {};
    try {
      const file = state ? this.#files[state.file] : undefined;
      if (state && file) {
        this.#desk.open(file.text, { file: state.file, name: file.name }, { applied: state.applied });
      } else {
        view = location.hash === "" ? otherwise : viewOf(location.hash);
        await this.#show(view);
      }
      if (turn !== this.#turn) return;
      this.#desk.dismiss();
      const faults = view.failures?.flatMap(faultsOf) ?? [];
      if (faults.length > 0) this.#desk.report({ faults }, PARTLY);
    } catch (error) {
      if (turn === this.#turn) this.#desk.report(error);
    } finally {
      if (turn === this.#turn) {
        this.#following = false;
        // A link that led nowhere gives way to what is on screen.
        this.#due = this.#entry();
        this.#rewrite();
      }
    }
  }

  /** A new entry of the history for what is on screen. */
  #enter() {
    const entry = this.#entry();
    if (!entry) return;
    this.#rewrite();
    history.pushState(entry.state, "", entry.address);
  }

  /** Rewrites this entry of the history, at once or soon. */
  #plan() {
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
    if (this.#following || !source || !answer) return undefined;
    const { pathname, search, hash } = location;
    const page = pathname + search;
    const { applied } = answer;
    if ("stem" in source) {
      const fragment = fragmentOf(source.stem, applied, this.#desk);
      return fragment === hash ? undefined : { state: null, address: page + fragment };
    }
    const same = history.state?.file === source.file && `${history.state.applied}` === `${applied}`;
    return same ? undefined : { state: { file: source.file, applied }, address: page };
  }
}
