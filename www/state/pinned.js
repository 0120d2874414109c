/** What a desk is compared with, at hand in whatever engine the desk is in. */

import { say } from "../kit/words.js";
import { leave } from "./engine.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("./desk.js").Desk} Desk */

export class Pinned {
  #desk;
  #engine;
  #changed;
  /** @type {import("./pin.js").Pin | undefined} */
  pin;

  /**
   * @param {Desk} desk
   * @param {() => import("./engine.js").Engine} engine that the desk is in now
   * @param {() => void} changed told whenever it is another one, or ready to be compared with
   */
  constructor(desk, engine, changed) {
    this.#desk = desk;
    this.#engine = engine;
    this.#changed = changed;
  }

  /**
   * Pins something to compare with, or lets it go.
   * @param {import("./pin.js").Pin | undefined} pin
   */
  async set(pin) {
    this.free();
    this.pin = pin;
    this.#changed();
    if (!pin) return;
    await this.#desk.becomeWhole();
    await this.ready();
  }

  /** What is drawn behind: while a question is open nothing, as that could be what it asks for. */
  get sandbox() {
    return this.#desk.veiled ? undefined : this.pin?.in(this.#engine());
  }

  /** Has it at hand in the engine there is. */
  async ready() {
    const { pin } = this;
    if (!pin || !this.#desk.isWhole || pin.in(this.#engine())) return;
    try {
      const prepared = await this.#desk.prepare(pin.kept.text);
      if (!prepared) return;
      if (pin !== this.pin || prepared.engine !== this.#engine()) {
        leave(prepared.engine, prepared.sandbox);
        return;
      }
      pin.take(prepared);
      this.#changed();
    } catch (error) {
      // What cannot be opened is not kept either.
      this.pin = undefined;
      this.#changed();
      this.#desk.report(error);
    }
  }

  /**
   * Asks the whole engine about it; nothing where nothing is pinned, or not ready yet.
   * @template T
   * @param {(engine: import("./engine.js").WholeEngine, sandbox: Sandbox, pinned: Sandbox, legend: string) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    const { pin, sandbox: pinned } = this;
    if (!pin || !pinned) return undefined;
    const legend = say("page-compare-legend", { what: pin.kept.name });
    return this.#desk.askWhole((engine, sandbox) => question(engine, sandbox, pinned, legend));
  }

  /** Gives its memory back. */
  free() {
    this.pin?.free();
  }
}
