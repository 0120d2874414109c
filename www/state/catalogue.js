/** The scenarios that come with the page. */

import { hostAnswered, noList } from "../kit/before.js";
import { Failure, Problems } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { language } from "./language.js";

/** @typedef {{ stem: string, name: string, text: string, exercises?: boolean }} Entry `exercises` where a sheet of them comes with it */
/** What stands in scenarios, by the English of it; where one needs another word, after its stem and a stroke. @typedef {Record<string, string>} Words */

const LIST = "scenarios/index.json";

/** The fields of a scenario, and of a sheet of exercises, that people read. */
const TOLD = /("(?:name|about|label|housing_label|title)"\s*:\s*)("(?:[^"\\]|\\.)*")/g;

/** Longest scenario file in bytes; the engine refuses more, but need not be handed it. */
const MOST_BYTES = 64 * 1024;

/** @type {Promise<Entry[]> | undefined} */
let listing;

/** @type {Promise<Words> | undefined} */
let words;

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
    words = language() === "en" ? undefined : fetched(`scenarios/words/${language()}.json`);
    /** @type {[{ file: string, name: string, text: string, exercises?: boolean }[], Words | undefined]} */
    const [entries, own] = await Promise.all([fetched(LIST), words]);
    return entries.map(({ file, ...entry }) => {
      const stem = file.replace(/\.json$/, "");
      const text = translated(entry.text, stem, own);
      return { stem, ...entry, name: own?.[entry.name] ?? entry.name, text };
    });
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
  return fitting(file, file.name).text();
}

/**
 * What is no larger than a file may be.
 * @param {Blob} file
 * @param {string} name
 */
function fitting(file, name) {
  if (file.size > MOST_BYTES) {
    const [size, most] = [Math.ceil(file.size / 1024), MOST_BYTES / 1024];
    throw new Failure(name, say("page-problem-large", { size, most }), say("page-fix-large"));
  }
  return file;
}

/**
 * The text of a train's file that a page names.
 * @param {URL} address
 */
export async function readTrainAt(address) {
  /** @type {string} */
  let reason;
  try {
    const response = await fetch(address);
    if (response.ok) return fitting(await response.blob(), address.pathname).text();
    reason = hostAnswered(response.status);
  } catch (error) {
    if (error instanceof Failure) throw error;
    reason = error instanceof Error ? error.message : String(error);
  }
  const apart = address.origin !== location.origin;
  throw new Failure("train", say("page-problem-unread", { address: address.href, reason }), apart ? say("page-fix-unread-apart", { host: location.origin }) : say("page-fix-unread"));
}

/**
 * A sheet of exercises with its title in the language that is spoken, where it is one of ours.
 * @param {string} text
 */
export async function sheetInWords(text) {
  return translated(text, "", await words);
}

/**
 * A text with its names and what is told about it in another language. Its ids stay, and with them its links.
 * @param {string} text
 * @param {string} stem
 * @param {Words | undefined} own
 */
function translated(text, stem, own) {
  if (!own) return text;
  return text.replace(TOLD, (field, before, quoted) => {
    const said = JSON.parse(quoted);
    const other = own[`${stem}/${said}`] ?? own[said];
    return other === undefined ? field : before + JSON.stringify(other);
  });
}

/** @param {string} list */
async function fetched(list) {
  /** @type {string} */
  let reason;
  try {
    const response = await fetch(siteFile(list));
    if (response.ok) return await response.json();
    reason = hostAnswered(response.status);
  } catch (error) {
    reason = error instanceof Error ? error.message : String(error);
  }
  throw new Problems([noList(list, reason)]);
}
