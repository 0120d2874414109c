/** Light or dark, as the user or the system wants it, and the drawing palette that goes with it. */

/** @typedef {"auto" | "light" | "dark"} Choice */

/** @type {Choice[]} */
export const CHOICES = ["auto", "light", "dark"];

const KEY = "levertrain-theme";

const dark = matchMedia("(prefers-color-scheme: dark)");
const forced = matchMedia("(forced-colors: active)");
const reduced = matchMedia("(prefers-reduced-motion: reduce)");

/**
 * The palette for the drawings.
 * @param {Choice} choice
 */
export function paletteFor(choice) {
  if (forced.matches) return dark.matches ? "dark-contrast" : "contrast";
  if (choice !== "auto") return choice;
  return dark.matches ? "dark" : "light";
}

export function wantsStillness() {
  return reduced.matches;
}

/**
 * Calls back when the system's wishes change.
 * @param {() => void} callback
 * @param {AbortSignal} signal
 */
export function onSystemChange(callback, signal) {
  for (const query of [dark, forced, reduced]) {
    query.addEventListener("change", callback, { signal });
  }
}

/**
 * What a page makes of an element in it: one that says nothing of its colours is light.
 * @param {HTMLElement} host
 * @returns {Choice}
 */
export function choiceAround(host) {
  const schemes = getComputedStyle(host).colorScheme.split(" ");
  if (!schemes.includes("dark")) return "light";
  return schemes.includes("light") ? "auto" : "dark";
}

/** @returns {Choice} */
export function rememberedChoice() {
  try {
    const choice = localStorage.getItem(KEY);
    return CHOICES.find((known) => known === choice) ?? "auto";
  } catch {
    // Storage may be forbidden; the choice then lasts as long as the page.
    return "auto";
  }
}

/** @param {Choice} choice */
export function rememberChoice(choice) {
  try {
    localStorage.setItem(KEY, choice);
  } catch {
    return;
  }
}
