/** The engine's graph of shifts, of the train on the desk and in the engine that it is in. */

import { inPieces, pause } from "../kit/pieces.js";
import { leave } from "../state/engine.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").SwapGraph} SwapGraph */

/** As many combinations are looked at in one step: with one-way clutches each takes its time. */
const STEP = 16;

export class ShiftSearch {
  #desk;
  /** @type {{ engine: WholeEngine, text: string, graph: SwapGraph, done: boolean } | undefined} */
  #held;
  /** Counts the searches that were begun, so that one goes on at a time. */
  #turn = 0;

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
  }

  /**
   * Asks the graph of the train on the desk, with the engine's sandbox; nothing while it is not known.
   * @template T
   * @param {(graph: SwapGraph, sandbox: import("../engine/levertrain_whole.js").Sandbox) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    return this.#desk.askWhole((engine, sandbox) => {
      const held = this.#held;
      const holds = held?.done && held.engine === engine && held.text === this.#desk.text;
      return holds ? question(held.graph, sandbox) : undefined;
    });
  }

  /**
   * Looks at all combinations, in pieces.
   * @param {(part: number) => void} tell called between pieces with which part is known
   * @returns {Promise<boolean>} whether all are known, and nothing else was begun meanwhile
   */
  async complete(tell) {
    const turn = (this.#turn += 1);
    return inPieces(
      () => (turn === this.#turn ? this.#step() : false),
      () => {
        if (turn === this.#turn) tell(this.#held?.graph.progress() ?? 0);
        return pause();
      },
    );
  }

  /** @returns {boolean | undefined} nothing while there is more to look at */
  #step() {
    const found = this.#desk.askWhole((engine) => {
      const { text } = this.#desk;
      if (this.#held?.engine !== engine || this.#held.text !== text) {
        this.#drop();
        this.#held = { engine, text, graph: new engine.SwapGraph(text), done: false };
      }
      const held = this.#held;
      held.done ||= !held.graph.advance(STEP);
      return { done: held.done };
    });
    return found ? found.done || undefined : false;
  }

  /** Ends what goes on. What is known stays known. */
  rest() {
    this.#turn += 1;
  }

  /** Gives the memory back. */
  free() {
    this.rest();
    this.#drop();
  }

  #drop() {
    if (this.#held) leave(this.#held.engine, this.#held.graph);
    this.#held = undefined;
  }
}
