/** The scenarios that come with the page. */

import { hostAnswered, noList } from "../kit/before.js";
import { Failure, Problems } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";

/** @typedef {{ stem: string, name: string, text: string, exercises?: boolean }} Entry `exercises` where a sheet of them comes with it */

const LIST = "scenarios/index.json";

/** Longest scenario file in bytes; the engine refuses more, but need not be handed it. */
const MOST_BYTES = 64 * 1024;

/** @type {Promise<Entry[]> | undefined} */
let listing;

/**
 * All of them, with their texts, once for every element on the page: to open another one later needs
 * no network.
 */
export function listScenarios() {
  listing ??= list();
  return listing;
}

/**
 * The text of a scenario that comes with the page.
 * @param {string} stem of one in the list
 */
export async function readScenario(stem) {
  const entries = await listScenarios();
  return /** @type {Entry} */ (entries.find((entry) => entry.stem === stem)).text;
}

async function list() {
  try {
    const entries = /** @type {{ file: string, name: string, text: string, exercises?: boolean }[]} */ (await fetchList());
    return entries.map(({ file, ...entry }) => ({ stem: file.replace(/\.json$/, ""), ...entry }));
  } catch (error) {
    // A later try may succeed.
    listing = undefined;
    throw error;
  }
}

/**
 * The text of a file of the user's own.
 * @param {File} file
 */
export function readFile(file) {
  if (file.size > MOST_BYTES) {
    const [size, most] = [Math.ceil(file.size / 1024), MOST_BYTES / 1024];
    throw new Failure(file.name, say("page-problem-large", { size, most }), say("page-fix-large"));
  }
  return file.text();
}

async function fetchList() {
  /** @type {string} */
  let reason;
  try {
    const response = await fetch(siteFile(LIST));
    if (response.ok) return await response.json();
    reason = hostAnswered(response.status);
  } catch (error) {
    reason = error instanceof Error ? error.message : String(error);
  }
  throw new Problems([noList(LIST, reason)]);
}
