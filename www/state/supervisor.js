/**
 * Keeps a desk's sandbox going: in the engine there is, in the whole one once that is wanted, and in a fresh
 * instance where one broke.
 */

import { isTrap, isWhole, leave, loadWholeEngine, replaceEngine, useEngine } from "./engine.js";
import { prepareIn } from "./preparing.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain.js").TrainInfo} TrainInfo */
/** @typedef {import("../engine/levertrain.js").Answer} Answer */
/** @typedef {import("./engine.js").Engine} Engine */
/** @typedef {import("./engine.js").WholeEngine} WholeEngine */
/** @typedef {import("./preparing.js").Prepared} Prepared */
/**
 * Whose sandbox it is.
 * @typedef {object} Owner
 * @property {() => { text: string, applied: string[] } | undefined} standing what is open and applied, if anything is
 * @property {(sandbox: Sandbox) => void} resume tells a sandbox that all this is open in again what else it knew
 * @property {() => void} moved told that it has gone on in another engine
 * @property {() => void} becameWhole told that this was the whole one, which was asked for
 * @property {(error: Error, traps: number) => void} restart opens something in the fresh instance, after so many breaks
 * since the last change that went well
 * @property {(error: unknown) => void} report
 */

export class Supervisor {
  #owner;
  #engine;
  #leaveEngine;
  /** @type {Sandbox | undefined} */
  #sandbox;
  /** Whether nobody looks at it any more. */
  #gone = false;
  /** Traps since the last change that went well. */
  #traps = 0;
  /** While it is on its way to the whole engine. @type {Promise<void> | undefined} */
  #becoming;

  /** @param {Engine} engine @param {Owner} owner */
  constructor(engine, owner) {
    this.#engine = engine;
    this.#owner = owner;
    this.#leaveEngine = useEngine((broken, fresh) => {
      if (this.#engine === broken) this.#move(fresh);
    });
  }

  get engine() {
    return this.#engine;
  }

  /** Whether nobody looks at it any more. */
  get isGone() {
    return this.#gone;
  }

  /** Whether it has gone on in the whole engine. */
  get isWhole() {
    return isWhole(this.#engine);
  }

  /**
   * Makes ready to open a scenario, in pieces.
   * @param {string} text
   * @returns {Promise<Prepared | undefined>} nothing where nobody looks any more, or another engine took its place meanwhile
   */
  prepare(text) {
    const engine = this.#engine;
    return prepareIn(engine, text, () => engine === this.#engine && !this.#gone);
  }

  /**
   * Opens a scenario in a sandbox that takes the place of the one there is; on a problem that stays.
   * @param {string} text
   * @param {string[] | undefined} applied what is applied in it, if not what it says itself
   * @param {Prepared} [prepared] what `prepare` made of the text
   */
  open(text, applied, prepared) {
    const ready = prepared?.engine === this.#engine ? prepared : undefined;
    if (prepared && !ready) leave(prepared.engine, prepared.sandbox);
    const sandbox = ready?.sandbox ?? new this.#engine.Sandbox();
    /** @type {TrainInfo} */
    let info;
    /** @type {Answer} */
    let answer;
    try {
      info = ready?.info ?? /** @type {TrainInfo} */ (sandbox.open(text));
      answer = applied ? sandbox.apply(applied) : sandbox.answer();
      sandbox.settle();
    } catch (error) {
      // What is on screen goes on in another instance.
      if (isTrap(error)) replaceEngine(this.#engine, sandbox).catch(() => undefined);
      else sandbox.free();
      throw error;
    }
    this.#sandbox?.free();
    this.#sandbox = sandbox;
    return { sandbox, info, answer };
  }

  /** Told that a change went well. */
  wentWell() {
    this.#traps = 0;
  }

  /**
   * Asks the sandbox; when the engine breaks, starts it afresh.
   * @template T
   * @param {(sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    if (!this.#sandbox) return undefined;
    try {
      return question(this.#sandbox);
    } catch (error) {
      if (!isTrap(error)) throw error;
      this.#recover(/** @type {Error} */ (error));
      return undefined;
    }
  }

  /**
   * Asks the whole engine; nothing before it is there: see `becomeWhole`.
   * @template T
   * @param {(engine: WholeEngine, sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  askWhole(question) {
    const engine = this.#engine;
    return isWhole(engine) ? this.ask((sandbox) => question(engine, sandbox)) : undefined;
  }

  /** Goes on in the whole engine. */
  becomeWhole() {
    this.#becoming ??= this.#become().finally(() => (this.#becoming = undefined));
    return this.#becoming;
  }

  async #become() {
    while (!this.#gone && !isWhole(this.#engine)) {
      const engine = await loadWholeEngine();
      const text = this.#owner.standing()?.text;
      const still = () => !this.#gone && text === this.#owner.standing()?.text && !isWhole(this.#engine);
      const prepared = text ? await prepareIn(engine, text, still) : undefined;
      if (!still()) leave(engine, prepared?.sandbox);
      else {
        this.#take(engine, prepared?.sandbox);
        this.#owner.becameWhole();
      }
    }
  }

  /**
   * Starts afresh in another instance of the engine, once that is there.
   * @param {Error} error
   */
  #recover(error) {
    const wreck = this.#sandbox;
    this.#sandbox = undefined;
    this.#traps += 1;
    replaceEngine(this.#engine, wreck).then(
      (engine) => {
        this.#engine = engine;
        if (!this.#gone) this.#owner.restart(error, this.#traps);
      },
      (second) => this.#owner.report(second),
    );
  }

  /**
   * Goes on as before in another instance of the engine: a neighbour broke the one we shared.
   * @param {Engine} engine
   */
  #move(engine) {
    if (!this.#sandbox) this.#engine = engine;
    else this.#take(engine);
  }

  /**
   * Goes on as before in another engine.
   * @param {Engine} engine
   * @param {Sandbox} [opened] that the scenario is open in already
   */
  #take(engine, opened) {
    const standing = this.#owner.standing();
    leave(this.#engine, this.#sandbox);
    this.#engine = engine;
    this.#sandbox = undefined;
    if (standing) {
      this.#sandbox = opened ?? new engine.Sandbox();
      this.ask((sandbox) => {
        if (!opened) sandbox.open(standing.text);
        sandbox.apply(standing.applied);
        sandbox.settle();
        this.#owner.resume(sandbox);
      });
    }
    this.#owner.moved();
  }

  /** Gives the sandbox's memory back. */
  free() {
    this.#gone = true;
    this.#leaveEngine();
    this.#sandbox?.free();
    this.#sandbox = undefined;
  }
}
