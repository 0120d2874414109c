/** The engine's search for faults, of the train on the desk and in the engine that it is in. */

import { inPieces, pause } from "../kit/pieces.js";
import { leave } from "../state/engine.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").FaultSearch} FaultSearch */

/** What is worked out in one step: in the hardest train one takes as long as a frame. */
const CELLS = 1;
/** Milliseconds between two times that something is told of a search that goes on. */
const TELL_MS = 250;

export class Searching {
  #desk;
  /** @type {{ engine: WholeEngine, text: string, search: FaultSearch } | undefined} */
  #held;
  /** Counts the searches that were begun, so that one goes on at a time. */
  #turn = 0;

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
  }

  /**
   * Asks the search of the train on the desk; nothing where there can be none now.
   * @template T
   * @param {(search: FaultSearch) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    return this.#desk.askWhole((engine) => {
      const { text } = this.#desk;
      if (this.#held?.engine !== engine || this.#held.text !== text) {
        this.free();
        this.#held = { engine, text, search: new engine.FaultSearch(text) };
      }
      return question(this.#held.search);
    });
  }

  /**
   * Works out all that is not known yet, in pieces.
   * @param {(part: number) => void} tell called now and then with which part is known, and at the end with 1
   */
  async complete(tell) {
    const turn = (this.#turn += 1);
    let told = performance.now();
    const done = await inPieces(
      () => {
        if (turn !== this.#turn) return false;
        const more = this.ask((search) => search.advance(CELLS));
        return more ? undefined : more === false;
      },
      () => {
        const now = performance.now();
        if (turn === this.#turn && now - told > TELL_MS) {
          told = now;
          tell(this.ask((search) => search.progress()) ?? 0);
        }
        // The hardest train takes many seconds, in which all else on the page goes on.
        return pause();
      },
    );
    if (done && turn === this.#turn) tell(1);
  }

  /** Ends what goes on. What is known stays known. */
  rest() {
    this.#turn += 1;
  }

  /** Gives the memory back. */
  free() {
    this.rest();
    if (this.#held) leave(this.#held.engine, this.#held.search);
    this.#held = undefined;
  }
}
