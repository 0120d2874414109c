/** The walk over all combinations of a train, piece by piece. */

import { inPieces, pause } from "../kit/pieces.js";
import { Helper } from "./helper.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./outcomes.js").Outcomes} Outcomes */
/** @typedef {{ text: string, from: number, count: number }} Question some combinations of a train */
/** @typedef {{ states: Uint8Array, ratios: Float64Array }} Piece what they do */

/** As many are there at once: they take less time than to ask a worker. */
const AT_ONCE = 512;
/** What the worker is asked for at a time. */
const PIECE = 4096;

export class Walker {
  #desk;
  /** @type {Helper<Question, Piece> | undefined} */
  #helper;
  /** Whether a worker could not do it; the next one could not either. */
  #alone = false;

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
  }

  /**
   * Few combinations, at once.
   * @param {Outcomes} outcomes
   * @returns {boolean} whether all are known then
   */
  atOnce(outcomes) {
    if (outcomes.count <= AT_ONCE) this.#step(outcomes);
    return outcomes.complete;
  }

  /**
   * Goes on from what is known, in a worker, or where there can be none in pieces on the page.
   * @param {Outcomes} outcomes
   * @param {() => void} progress told after each piece
   * @param {AbortSignal} signal ends it
   */
  async goOn(outcomes, progress, signal) {
    while (!this.#alone && !outcomes.complete) {
      this.#helper ??= new Helper("walker.js");
      const piece = await this.#helper.ask({
        text: outcomes.text,
        from: outcomes.known,
        count: Math.min(PIECE, outcomes.count - outcomes.known),
      });
      if (signal.aborted) return;
      if (piece) {
        outcomes.take(piece.states, piece.ratios);
        progress();
      } else {
        this.#alone = true;
      }
    }
    await pause();
    await inPieces(() => {
      if (signal.aborted || outcomes.complete) return true;
      const goesOn = this.#step(outcomes);
      progress();
      return goesOn ? undefined : true;
    }, pause);
  }

  /** Gives the worker up until it is wanted again. */
  rest() {
    this.#helper?.end();
    this.#helper = undefined;
  }

  /**
   * @param {Outcomes} outcomes
   * @returns {boolean} whether the engine could do it
   */
  #step(outcomes) {
    const count = Math.min(AT_ONCE, outcomes.count - outcomes.known);
    const states = new Uint8Array(count);
    const ratios = new Float64Array(count);
    const filled = this.#desk.askWhole((engine) => {
      engine.outcomes(outcomes.text, outcomes.known, states, ratios);
      return true;
    });
    if (filled) outcomes.take(states, ratios);
    return filled ?? false;
  }
}
