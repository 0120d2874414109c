/**
 * Units: what the engine's numbers are shown and typed in.
 *
 * Inside, speeds are in rev/min, torques in N·m and powers in W. Conversions come from the exact
 * definitions of the international foot, pound and standard gravity.
 */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/** Metres. */
const FOOT = 0.3048;
/** Newtons: the weight of 0.45359237 kg under 9.80665 m/s². */
const POUND_FORCE = 0.45359237 * 9.80665;
/** N·m. */
const POUND_FORCE_FOOT = POUND_FORCE * FOOT;
/** Watts: 550 lbf·ft a second. */
const HORSEPOWER = 550 * POUND_FORCE_FOOT;
/** rev/min. */
const RADIAN_PER_SECOND = 30 / Math.PI;

/** @typedef {{ name: string, code?: string, size: number }} Unit its name, what the engine knows it by where
 * that is something else, and how much of the inner unit it is */
/** @typedef {"speed" | "torque" | "power"} Quantity */
/** @typedef {Record<Quantity, string>} Units the code of the unit chosen for each quantity */

/** @type {Unit} */
const revolutions = {
  get name() {
    return say("unit-rev-min");
  },
  code: "rev/min",
  size: 1,
};

/** The units there are; the first of each is the usual one. @type {Record<Quantity, Record<string, Unit>>} */
export const UNITS = {
  speed: { rpm: revolutions, rads: { name: "rad/s", size: RADIAN_PER_SECOND } },
  torque: { Nm: { name: "N·m", size: 1 }, lbfft: { name: "lbf·ft", size: POUND_FORCE_FOOT } },
  power: { kW: { name: "kW", size: 1000 }, hp: { name: "hp", size: HORSEPOWER } },
};

const QUANTITIES = /** @type {Quantity[]} */ (Object.keys(UNITS));

/** Losses are small beside the power that goes through. */
const WATT = { name: "W", size: 1 };

/** @type {Readonly<Units>} */
export const USUAL_UNITS = { speed: "rpm", torque: "Nm", power: "kW" };

/**
 * @param {Units} units
 * @param {Quantity} quantity
 */
export function unitOf(units, quantity) {
  return UNITS[quantity][units[quantity]];
}

/**
 * What the engine knows it by.
 * @param {Units} units
 * @param {Quantity} quantity
 */
export function unitCode(units, quantity) {
  const { name, code = name } = unitOf(units, quantity);
  return code;
}

/**
 * The unit of losses that goes with the unit of power.
 * @param {Units} units
 */
export function lossUnit(units) {
  return units.power === "kW" ? WATT : unitOf(units, "power");
}

/**
 * Power in W.
 * @param {number} speed rev/min
 * @param {number} torque N·m
 */
export function power(speed, torque) {
  return (speed / RADIAN_PER_SECOND) * torque;
}

/**
 * A value for a field: what was typed in one unit stays as short when it is read back, and what
 * was converted has no more figures than fit.
 * @param {number} value in the inner unit
 * @param {Unit} unit
 */
export function forField(value, { size }) {
  return String(Number((value / size).toPrecision(size === 1 ? 6 : 5)));
}

/**
 * What was typed into a field, in the inner unit.
 * @param {string} text
 * @param {Unit} unit
 */
export function fromField(text, { size }) {
  return Number((Number(text) * size).toPrecision(12));
}

/**
 * The codes of the units that are not the usual ones.
 * @param {Units} units
 */
export function unusual(units) {
  return QUANTITIES.map((quantity) => units[quantity]).filter((code, at) => code !== USUAL_UNITS[QUANTITIES[at]]);
}

/**
 * The units that a list of codes asks for; the usual ones for what it does not name.
 * @param {string[]} codes
 */
export function unitsFrom(codes) {
  const units = { ...USUAL_UNITS };
  for (const code of codes) {
    const quantity = QUANTITIES.find((quantity) => Object.hasOwn(UNITS[quantity], code));
    if (!quantity) {
      const known = QUANTITIES.flatMap((quantity) => Object.keys(UNITS[quantity])).join(", ");
      throw new Failure("units", say("page-problem-unit", { code }), say("page-fix-unit", { known }));
    }
    units[quantity] = code;
  }
  return units;
}
