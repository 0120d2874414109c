/** The engine's stand of the train on the desk: speeds and torques that are set by hand. */

import { leave } from "../state/engine.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").Sources} Sources */
/** @typedef {import("../engine/levertrain_whole.js").Sandbox} Sandbox */

export class HeldSources extends EventTarget {
  #desk;
  /** @type {{ engine: WholeEngine, text: string, applied: string, sources: Sources } | undefined} */
  #held;

  /** @param {Desk} desk */
  constructor(desk) {
    super();
    this.#desk = desk;
  }

  /**
   * Asks how the train on the desk stands; nothing while it is not in the whole engine.
   * @template T
   * @param {(sources: Sources, sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    return this.#desk.askWhole((engine, sandbox) => {
      const { text, answer, speed } = this.#desk;
      const applied = [...(answer?.applied ?? [])].sort().join();
      if (this.#held?.engine !== engine || this.#held.text !== text) {
        this.free();
        this.#held = { engine, text, applied, sources: new engine.Sources(sandbox, text, speed) };
      }
      const held = this.#held;
      if (held.applied !== applied) {
        held.applied = applied;
        held.sources.apply(sandbox);
      }
      return question(held.sources, sandbox);
    });
  }

  /**
   * Changes something, which is said as `change`.
   * @param {(sources: Sources) => void} change
   */
  change(change) {
    this.ask(change);
    this.dispatchEvent(new Event("change"));
  }

  /**
   * Turns a shaft at a speed in rev/min. Where others decide it, that is said as `refused`.
   * @param {string} shaft
   * @param {number} speed
   */
  turn(shaft, speed) {
    const by = this.ask((sources) => sources.turn(shaft, speed)) ?? [];
    this.dispatchEvent(new Event("change"));
    if (by.length) this.dispatchEvent(new CustomEvent("refused", { detail: { shaft, by: by.filter(Boolean) } }));
  }

  /** Gives the memory back. */
  free() {
    const held = this.#held;
    this.#held = undefined;
    if (held) leave(held.engine, held.sources);
  }
}
