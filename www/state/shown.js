/** What the drawings show beside speeds, and how they show it. */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/** @typedef {{ power: boolean, merged: boolean, one_module: boolean }} Shown power on the half-section, levers joined, gears to one scale */

/** Each by its name in links and attributes. @type {Record<string, keyof Shown>} */
const NAMES = { power: "power", joined: "merged", scale: "one_module" };

/**
 * The names of what is shown.
 * @param {Shown} shown
 */
export function shownNames(shown) {
  return Object.keys(NAMES).filter((name) => shown[NAMES[name]]);
}

/**
 * @param {string[]} names
 * @returns {Shown}
 */
export function shownFrom(names) {
  const unknown = names.find((name) => !Object.hasOwn(NAMES, name));
  if (unknown !== undefined) {
    const known = Object.keys(NAMES).join(", ");
    throw new Failure("shows", say("page-problem-view", { name: unknown }), say("page-fix-known", { known }));
  }
  return { power: names.includes("power"), merged: names.includes("joined"), one_module: names.includes("scale") };
}
