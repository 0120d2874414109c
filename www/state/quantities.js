/** Exact parts of the input's speed, torque and power as numbers a person reads. */

import { fraction, NO_BREAK, NONE, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { lossUnit, power, unitOf } from "./units.js";

/** @typedef {import("../kit/format.js").Exact} Exact */
/** @typedef {import("./units.js").Unit} Unit */
/** @typedef {"speed" | "torque" | "power" | "loss"} Kind */

/** @type {Exact} */
export const NOTHING = { fraction: "0", decimal: 0 };
/** @type {Exact} */
export const WHOLE = { fraction: "1", decimal: 1 };

/** Numbers at one input speed and torque, in one choice of units. */
export class Quantities {
  #wholes;
  #units;

  /** @param {{ speed: number, torque: number, units: import("./units.js").Units }} input */
  constructor({ speed, torque, units }) {
    const watts = power(speed, torque);
    this.#wholes = { speed, torque, power: watts, loss: watts };
    this.#units = {
      speed: unitOf(units, "speed"),
      torque: unitOf(units, "torque"),
      power: unitOf(units, "power"),
      loss: lossUnit(units),
    };
  }

  /** @param {Kind} kind */
  unit(kind) {
    return this.#units[kind].name;
  }

  /**
   * A part of the input's speed, torque or power, without its unit. What is nothing has no
   * figures to round.
   * @param {Kind} kind
   * @param {{ decimal: number } | null} part
   */
  figure(kind, part) {
    const value = this.value(kind, part);
    if (value === null) return NONE;
    return value === 0 ? "0" : number(value);
  }

  /**
   * The same in full.
   * @param {Kind} kind
   * @param {{ decimal: number } | null} part
   */
  value(kind, part) {
    return part && (part.decimal * this.#wholes[kind]) / this.#units[kind].size;
  }

  /**
   * @param {Kind} kind
   * @param {{ decimal: number } | null} part
   */
  text(kind, part) {
    return `${this.figure(kind, part)}${NO_BREAK}${this.unit(kind)}`;
  }
}

/**
 * @param {Exact | null} part
 * @returns {Exact | null}
 */
export function negated(part) {
  if (!part || part.decimal === 0) return part;
  const text = part.fraction;
  return { fraction: text.startsWith("-") ? text.slice(1) : `-${text}`, decimal: -part.decimal };
}

/**
 * @param {Exact | null} part
 * @returns {Exact | null}
 */
export function size(part) {
  return part && part.decimal < 0 ? negated(part) : part;
}

/**
 * Says what the exact number is, for a title.
 * @param {Exact | null} part
 * @param {"speed" | "torque" | "power"} quantity what of the input it is a part of
 */
export function exactly(part, quantity) {
  return part ? say("page-exactly", { share: fraction(part), quantity }) : "";
}

/**
 * A share in percent.
 * @param {number} share
 * @param {number} [digits]
 */
export function percent(share, digits = 3) {
  return `${number(share * 100, digits)}${NO_BREAK}%`;
}
