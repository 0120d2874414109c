/**
 * A train with what is applied in it, pinned to compare with: a sandbox of its own beside the desk's, and
 * what it takes to make it again, in another engine or after a reload.
 */

import { leave } from "./engine.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("./engine.js").Engine} Engine */
/**
 * @typedef {object} Kept
 * @property {string} text the train as the text of a file
 * @property {string[]} applied
 * @property {string} name what people call it
 */

const KEY = "levertrain pin";

export class Pin {
  /** @type {import("./desk.js").Prepared | undefined} */
  #prepared;

  /** @param {Kept} kept */
  constructor(kept) {
    this.kept = kept;
  }

  /**
   * The sandbox it is open in, where that is one of this engine.
   * @param {Engine} engine
   */
  in(engine) {
    return this.#prepared?.engine === engine ? this.#prepared.sandbox : undefined;
  }

  /** What it is. */
  get info() {
    return this.#prepared?.info;
  }

  /**
   * Takes over a sandbox that its train is open in.
   * @param {import("./desk.js").Prepared} prepared
   */
  take(prepared) {
    this.free();
    prepared.sandbox.apply(this.kept.applied);
    prepared.sandbox.settle();
    this.#prepared = prepared;
  }

  /** Gives its memory back. */
  free() {
    if (this.#prepared) leave(this.#prepared.engine, this.#prepared.sandbox);
    this.#prepared = undefined;
  }
}

/** Has a reload of the page find it again. @param {Pin | undefined} pin */
export function keepPin(pin) {
  try {
    if (pin) sessionStorage.setItem(KEY, JSON.stringify(pin.kept));
    else sessionStorage.removeItem(KEY);
  } catch {
    // Where nothing can be kept it is there until the page closes.
  }
}

/** What was pinned before the page was loaded again. */
export function keptPin() {
  try {
    const text = sessionStorage.getItem(KEY);
    const kept = text === null ? undefined : JSON.parse(text);
    const isOurs = typeof kept?.text === "string" && typeof kept.name === "string" && Array.isArray(kept.applied);
    return isOurs ? new Pin(/** @type {Kept} */ (kept)) : undefined;
  } catch {
    return undefined;
  }
}
