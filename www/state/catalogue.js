/** The scenarios that come with the page. */

import { Failure } from "../kit/faults.js";
import { siteFile } from "../kit/site.js";

/** @typedef {{ stem: string, name: string }} Entry */

/** Longest scenario file in bytes; the engine refuses more, but need not be handed it. */
const MOST_BYTES = 64 * 1024;

/** @returns {Promise<Entry[]>} */
export async function listScenarios() {
  const response = await fetchFrom("index.json");
  const entries = /** @type {{ file: string, name: string }[]} */ (await response.json());
  return entries.map(({ file, name }) => ({ stem: file.replace(/\.json$/, ""), name }));
}

/**
 * The text of a scenario that comes with the page.
 * @param {string} stem
 */
export async function readScenario(stem) {
  return (await fetchFrom(`${encodeURIComponent(stem)}.json`)).text();
}

/**
 * The text of a file of the user's own.
 * @param {File} file
 */
export function readFile(file) {
  if (file.size > MOST_BYTES) {
    throw new Failure(
      file.name,
      `the file has ${Math.ceil(file.size / 1024)} KiB, and a scenario has at most 64 KiB`,
      "choose a scenario file",
    );
  }
  return file.text();
}

/** @param {string} name */
async function fetchFrom(name) {
  /** @type {string} */
  let reason;
  try {
    const response = await fetch(siteFile(`scenarios/${name}`));
    if (response.ok) return response;
    reason = `the host answered ${response.status}`;
  } catch (error) {
    reason = error instanceof Error ? error.message : String(error);
  }
  throw new Failure(
    `scenarios/${name}`,
    `the file could not be read (${reason})`,
    "check the connection and reload the page",
  );
}
