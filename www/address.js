/** Keeps the page's address and what is on screen the same, both ways. */

import { faultsOf } from "./faults.js";
import { fragmentOf, viewOf } from "./link.js";

/** @typedef {import("./desk.js").Desk} Desk */
/** @typedef {{ text: string, name: string }} OwnFile */

const PARTLY = "Part of the link cannot be shown; the usual stands in its place.";

export class Address {
  #desk;
  #show;
  /** Files the user opened on this page: a link cannot hold them, but back and forward can. */
  #files;
  /** While the screen follows the address, the address must not follow the screen. */
  #following = false;

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
    desk.addEventListener("answer", () => this.#write("pushState"));
    for (const event of ["speed", "torque", "units", "road"]) {
      desk.addEventListener(event, () => this.#write("replaceState"));
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
  async #follow(state, otherwise = {}) {
    this.#following = true;
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
      this.#desk.dismiss();
      const faults = view.failures?.flatMap(faultsOf) ?? [];
      if (faults.length > 0) this.#desk.report({ faults }, PARTLY);
    } catch (error) {
      this.#desk.report(error);
    } finally {
      this.#following = false;
      // A link that led nowhere gives way to what is on screen.
      this.#write("replaceState");
    }
  }

  /** @param {"pushState" | "replaceState"} method */
  #write(method) {
    const { source, answer, speed, torque, units, road } = this.#desk;
    if (this.#following || !source || !answer) return;
    const { pathname, search, hash } = location;
    const page = pathname + search;
    if ("stem" in source) {
      const fragment = fragmentOf({ stem: source.stem, applied: answer.applied, speed, torque, units, road });
      if (fragment !== hash) history[method](null, "", page + fragment);
    } else {
      const same = history.state?.file === source.file && `${history.state.applied}` === `${answer.applied}`;
      const state = { file: source.file, applied: answer.applied };
      if (!same) history[method](state, "", page);
    }
  }
}
