/** The engine's shift in time, of the train on the desk and in the engine that it is in. */

import { leave } from "../state/engine.js";
import { timedShift } from "../work/timed.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").TimedShift} TimedShift */
/** @typedef {import("../engine/levertrain_whole.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} TimedPlan */

export class TimedRun {
  #desk;
  /** The train that it is of, as the text of a file. */
  #text = "";
  /** @type {string[]} */
  #from = [];
  /** @type {string[]} */
  #to = [];
  /** @type {{ engine: WholeEngine, text: string, shift: TimedShift } | undefined} */
  #held;
  /** What was commanded last, to go on with in another engine. @type {TimedPlan | undefined} */
  #plan;

  /** @param {Desk} desk */
  constructor(desk) {
    this.#desk = desk;
  }

  /**
   * Begins a shift with the usual commands.
   * @param {string[]} from what is applied before
   * @param {string[]} to what is applied after
   */
  begin(from, to) {
    this.#text = this.#desk.text;
    this.#from = from;
    this.#to = to;
    this.#plan = undefined;
    this.free();
  }

  /** Goes on with the train on the desk, which has the elements that are applied before and after. */
  follow() {
    this.#text = this.#desk.text;
  }

  /**
   * Asks the shift, with the engine's sandbox; nothing before the whole engine is there, or while there is another train.
   * @template T
   * @param {(shift: TimedShift, sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    return this.#desk.askWhole((engine, sandbox) => {
      const { text } = this.#desk;
      if (this.#text !== text) return undefined;
      if (this.#held?.engine !== engine || this.#held.text !== text) {
        this.free();
        this.#held = { engine, text, shift: timedShift(engine, this.commanded) };
      }
      return question(this.#held.shift, sandbox);
    });
  }

  /** What makes it the shift it is. @returns {import("../work/timed.js").Commanded} */
  get commanded() {
    return { text: this.#desk.text, from: this.#from, to: this.#to, plan: this.#plan };
  }

  /**
   * Commands something else; what is refused changes nothing.
   * @param {(shift: TimedShift, sandbox: Sandbox) => void} change
   */
  command(change) {
    this.ask((shift, sandbox) => {
      change(shift, sandbox);
      this.#plan = shift.plan();
    });
  }

  /** A change begins, which is taken back as a whole. */
  mark() {
    this.ask((shift) => shift.mark());
  }

  /** Takes the last change back; whether there was one. */
  undo() {
    let undone = false;
    this.command((shift) => (undone = shift.undo()));
    return undone;
  }

  /** Gives the memory back. */
  free() {
    if (this.#held) leave(this.#held.engine, this.#held.shift);
    this.#held = undefined;
  }
}
