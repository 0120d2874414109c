/** What the combinations of a train do, packed in columns: few bytes each, however many there are. */

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain.js").StateKey} StateKey */

/** The states as the columns number them, from 1, with their messages. @type {[StateKey, string][]} */
export const STATES = [
  ["driving", "state-driving"],
  ["over-applied", "state-over-applied"],
  ["neutral", "state-neutral"],
  ["output-held", "state-output-held"],
  ["tied-up", "state-tied-up"],
];

/** Those of one train. The number of a combination says bit by bit which elements are applied. */
export class Outcomes {
  /** The train as the text of a file. */
  text;
  /** The ids of its elements, in the order of the bits. @type {string[]} */
  elements;
  /** Of each combination the number of its state; 0 is none that can be applied. */
  states;
  /** Of each its ratio, or NaN. */
  ratios;
  /** Up to which number they are known. */
  known = 0;

  /** @param {Desk} desk */
  constructor(desk) {
    this.text = desk.text;
    this.elements = desk.info?.elements.map(({ id }) => id) ?? [];
    this.states = new Uint8Array(this.count);
    this.ratios = new Float64Array(this.count);
  }

  /** How many numbers there are. */
  get count() {
    return 2 ** this.elements.length;
  }

  get complete() {
    return this.known === this.count;
  }

  /**
   * Takes what follows on what is known.
   * @param {Uint8Array} states
   * @param {Float64Array} ratios
   */
  take(states, ratios) {
    this.states.set(states, this.known);
    this.ratios.set(ratios, this.known);
    this.known += states.length;
  }

  /**
   * The number of a combination.
   * @param {string[]} applied
   */
  numberOf(applied) {
    return applied.reduce((bits, id) => bits | (1 << this.elements.indexOf(id)), 0);
  }

  /**
   * The elements of a combination.
   * @param {number} number
   */
  appliedIn(number) {
    return this.elements.filter((_, at) => (number >> at) & 1);
  }

  /** How many of those known are in each state, by its number. */
  get tally() {
    const tally = new Uint32Array(STATES.length + 1);
    for (let number = 0; number < this.known; number += 1) tally[this.states[number]] += 1;
    return tally;
  }
}
