/** The texts of sheets of exercises. */

import { hostAnswered } from "../kit/before.js";
import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { sheetInWords } from "../state/catalogue.js";

/** The format of sheets. */
export const FORMAT = 1;

/** The text of a sheet, where there is one at this address. @param {URL} address */
export async function sheetAt(address) {
  const response = await fetch(address);
  if (!response.ok) throw new Failure(address.pathname, hostAnswered(response.status), say("page-exercise-find"));
  return sheetInWords(await response.text());
}
