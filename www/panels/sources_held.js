/** The engine's stand of the train on the desk: speeds and torques that are set by hand. */

import { leave } from "../state/engine.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").Sources} Sources */
/** @typedef {import("../engine/levertrain_whole.js").Sandbox} Sandbox */
/** @typedef {{ engine: WholeEngine, text: string, applied: string, speed: number, sources: Sources }} Held */

export class HeldSources extends EventTarget {
  #desk;
  /** @type {Held | undefined} */
  #held;
  /** Whether anything has been set by hand; before that it stands as the stage does. */
  touched = false;

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
      const { text, answer, speed, info } = this.#desk;
      const applied = [...(answer?.applied ?? [])].sort().join();
      const before = this.#held;
      const begins = before?.engine !== engine || before.text !== text;
      if (begins || (!this.touched && (before.applied !== applied || before.speed !== speed))) {
        this.free();
        this.#held = { engine, text, applied, speed, sources: new engine.Sources(sandbox, text, speed) };
      }
      const held = /** @type {Held} */ (this.#held);
      if (held.applied !== applied) {
        held.applied = applied;
        held.sources.apply(sandbox);
      }
      if (held.speed !== speed) {
        held.speed = speed;
        held.sources.turn(info?.input ?? "", speed);
      }
      return question(held.sources, sandbox);
    });
  }

  /**
   * Changes something, which is said as `change`.
   * @param {(sources: Sources) => void} change
   */
  change(change) {
    this.ask((sources) => {
      this.touched = true;
      change(sources);
    });
    this.dispatchEvent(new Event("change"));
  }

  /**
   * Turns a shaft at a speed in rev/min. Where others decide it, that is said as `refused`.
   * @param {string} shaft
   * @param {number} speed
   * @param {boolean} [rests] whether nothing is dragged on: then the axis is laid out anew
   */
  turn(shaft, speed, rests = false) {
    const by = this.ask((sources) => {
      const decided = sources.turn(shaft, speed);
      if (rests) sources.rest();
      return decided;
    }) ?? [];
    if (by.length === 0) this.touched = true;
    this.dispatchEvent(new Event("change"));
    if (by.length) this.dispatchEvent(new CustomEvent("refused", { detail: { shaft, by: by.filter(Boolean) } }));
  }

  /** Lays the axis out anew, as nothing is dragged any more. */
  rest() {
    this.ask((sources) => sources.rest());
    this.dispatchEvent(new Event("change"));
  }

  /** Stands as the stage does again. */
  reset() {
    this.free();
    this.dispatchEvent(new Event("change"));
  }

  /** Gives the memory back. */
  free() {
    const held = this.#held;
    this.#held = undefined;
    this.touched = false;
    if (held) leave(held.engine, held.sources);
  }
}
