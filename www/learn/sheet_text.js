/** The texts of sheets of exercises. */

import { hostAnswered } from "../kit/before.js";
import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { sheetInWords } from "../state/catalogue.js";

/** The format of sheets. */
export const FORMAT = 1;

/**
 * A sheet that something can be made of: what it is known by, what people call it, and what it holds.
 * @typedef {object} Offered
 * @property {"made" | "opened" | "scenario"} key
 * @property {string} name
 * @property {() => Promise<import("../engine/levertrain_whole.js").ExerciseSheet | undefined>} lesson
 * @property {() => Promise<string>} text as its file has it
 */

/**
 * A sheet as its file has it.
 * @param {import("../engine/levertrain_whole.js").ExerciseSheet} sheet
 * @param {string} [scenario] the scenario that it is about, where it is one of ours
 * @returns {import("../state/open_sheet.js").SheetFile}
 */
export function fileOf({ title, walk, questions }, scenario) {
  const about = scenario === undefined ? {} : { scenario };
  const first = walk.length > 0 ? { walk } : {};
  return { format: FORMAT, title, ...about, ...first, tasks: questions.map(({ task }) => task) };
}

/** The text of a sheet, where there is one at this address. @param {URL} address */
export async function sheetAt(address) {
  const response = await fetch(address);
  if (!response.ok) throw new Failure(address.pathname, hostAnswered(response.status), say("page-exercise-find"));
  return sheetInWords(await response.text());
}
