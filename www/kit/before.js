/**
 * What is said before there is a catalogue to say it from, or an engine to read it: in English, and
 * nowhere else but in `index.html`.
 */

/** @typedef {import("./problems.js").Problem} Problem */

/** A name, the same in every language. */
export const NAME = "Levertrain";

export const SETTING_UP = "Setting up the drawing board…";
export const CANNOT_START = "The sandbox cannot start.";

/** Of what was thrown by somebody who says no more. */
export const SOMEWHERE = { place: "page", fix: "reload the page" };

/**
 * What a problem is, after its place.
 * @param {Problem} problem
 */
export function mendWords({ problem, fix }) {
  return `: ${problem}. To mend it: ${fix}.`;
}

/** @returns {Problem} */
export function noWebAssembly() {
  return {
    place: "browser",
    problem: "this browser cannot run WebAssembly, or it is switched off",
    fix: "open the page in a current browser, or switch WebAssembly on",
  };
}

/**
 * Of an engine that is there, in instructions that the browser does not know.
 * @param {string} reason
 * @returns {Problem}
 */
export function strangeEngine(reason) {
  return {
    place: "browser",
    problem: `it cannot run the engine (${reason})`,
    fix: "open the page in a current browser; if this is one, the folder engine/ is incomplete on the host",
  };
}

/**
 * @param {string} reason
 * @returns {Problem}
 */
export function noEngine(reason) {
  return {
    place: "engine",
    problem: `the engine did not load (${reason})`,
    fix: "reload the page; if it stays so, the folder engine/ is missing or incomplete on the host",
  };
}

/**
 * @param {string} reason
 * @returns {Problem}
 */
export function noWords(reason) {
  return {
    place: "words",
    problem: `what there is to say did not load (${reason})`,
    fix: "reload the page; if it stays so, the folder words/ is missing or incomplete on the host",
  };
}

/**
 * @param {string} place
 * @param {string} reason
 * @returns {Problem}
 */
export function noList(place, reason) {
  return { place, problem: `the file could not be read (${reason})`, fix: "check the connection and reload the page" };
}

/**
 * @param {string} place
 * @returns {Problem}
 */
export function emptyList(place) {
  return {
    place,
    problem: "the list of scenarios is empty",
    fix: "add scenario files to the folder and build the site again",
  };
}

/** @param {number} status */
export function hostAnswered(status) {
  return `the host answered ${status}`;
}
