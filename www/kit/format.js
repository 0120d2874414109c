/** Numbers as the page writes them; the drawings follow the same rules in Rust. */

import { decimalSign } from "./words.js";

/** @typedef {import("../engine/levertrain.js").Exact} Exact */

/** The line between a number and its unit never breaks. */
export const NO_BREAK = "\u00a0";
const THIN = "\u2009";
export const MINUS = "\u2212";
/** Stands where there is no number to give. */
export const NONE = "–";

/** Highest input speed the page offers, in rev/min. */
export const MOST_SPEED = 6000;

/** Highest input torque the page offers, in N·m. */
export const MOST_TORQUE = 100000;

/**
 * A number with `digits` significant figures, thousands separated by a thin space and with a true
 * minus sign; figures before the decimals are never dropped.
 * @param {number} value
 * @param {number} [digits]
 */
export function number(value, digits = 4) {
  if (!Number.isFinite(value)) return NONE;
  const size = Math.abs(value);
  // A size that rounds up to the next power of ten needs one decimal less: 9.9996 is 10.00.
  const rounded = Number(fixed(size, places(size, digits)));
  const [whole, decimals] = fixed(rounded, places(rounded, digits)).split(".");
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN) : whole;
  const sign = value < 0 && rounded !== 0 ? MINUS : "";
  return sign + grouped + (decimals ? decimalSign() + decimals : "");
}

/**
 * @param {number} size
 * @param {number} digits
 */
function places(size, digits) {
  const before = size >= 1 ? Math.floor(Math.log10(size)) + 1 : 1;
  return Math.max(digits - before, 0);
}

/**
 * Rounds a tie to the even figure as the drawings do, so that both show the same text.
 * @param {number} size
 * @param {number} decimals
 */
function fixed(size, decimals) {
  const text = size.toFixed(decimals);
  const exact = size.toFixed(Math.min(decimals + 40, 100));
  const rest = exact.slice(exact.indexOf(".") + 1 + decimals);
  if (!/^50*$/.test(rest) || /[02468]$/.test(text)) return text;
  // The last figure is odd, so it is not 0 and taking one away borrows nothing.
  return text.slice(0, -1) + String(Number(text.at(-1)) - 1);
}

/**
 * @param {Exact | null} ratio
 */
export function ratio(ratio) {
  return ratio ? number(ratio.decimal) : NONE;
}

/**
 * An exact fraction with a true minus sign.
 * @param {Exact} value
 */
export function fraction(value) {
  return value.fraction.replace("-", MINUS);
}

/** A number that may be very large, with three figures; a smaller whole one in full. @param {number} value */
export function large(value) {
  const MOST = 1e7;
  if (value < MOST) return number(value, Number.isInteger(value) ? 1 : 3);
  const power = Math.floor(Math.log10(value));
  const digits = ["⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"];
  const raised = [...String(power)].map((digit) => digits[Number(digit)]).join("");
  return `${number(value / 10 ** power, 3)}·10${raised}`;
}
