/** Files that the browser saves. */

import { h } from "./dom.js";

/**
 * Has the browser save a file.
 * @param {Blob} file
 * @param {string} name
 */
export function save(file, name) {
  const address = URL.createObjectURL(file);
  h("a", { href: address, download: name }).click();
  URL.revokeObjectURL(address);
}

/**
 * Words as a part of a file's name.
 * @param {string} words
 */
export function slug(words) {
  return words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
}

/**
 * Has the browser save a train as the file it is opened from.
 * @param {string} text
 * @param {string} name
 */
export function saveTrain(text, name) {
  save(new Blob([text], { type: "application/json" }), `${slug(name) || "train"}.json`);
}
