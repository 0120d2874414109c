/** The address fragment: `#s=SCENARIO&on=A,B&n=1500`. */

import { Failure } from "./faults.js";
import { MOST_SPEED } from "./format.js";

/** @typedef {{ stem?: string, applied?: string[], speed?: number }} View */

/**
 * @param {string} stem
 * @param {string[]} applied
 * @param {number} speed rev/min
 */
export function fragmentOf(stem, applied, speed) {
  const on = applied.map(encodeURIComponent).join(",");
  return `#s=${encodeURIComponent(stem)}&on=${on}&n=${speed}`;
}

/**
 * Reads a fragment; an empty one asks for nothing in particular.
 * @param {string} fragment
 * @returns {View}
 */
export function viewOf(fragment) {
  /** @type {View} */
  const view = {};
  for (const part of fragment.replace(/^#/, "").split("&").filter(Boolean)) {
    const [key, ...rest] = part.split("=");
    const value = decoded(rest.join("="), key);
    if (key === "s") view.stem = value;
    else if (key === "on") view.applied = value.split(",").filter(Boolean);
    else if (key === "n") view.speed = speedOf(value);
    else throw nonsense(`"${key}" is not something a link can say`);
  }
  if (view.applied && view.stem === undefined) {
    throw nonsense("it applies elements without naming a scenario");
  }
  return view;
}

/**
 * @param {string} text
 * @param {string} key
 */
function decoded(text, key) {
  try {
    return decodeURIComponent(text);
  } catch {
    throw nonsense(`what it says for "${key}" is broken`);
  }
}

/** @param {string} text */
function speedOf(text) {
  const speed = Number(text);
  if (text.trim() === "" || !Number.isFinite(speed) || speed < 0 || speed > MOST_SPEED) {
    throw nonsense(`"${text}" is not an input speed from 0 to ${MOST_SPEED} rev/min`);
  }
  return speed;
}

/** @param {string} problem */
function nonsense(problem) {
  return new Failure("link", problem, "check that the whole link was copied, or choose below");
}
