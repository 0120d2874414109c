/**
 * Where a learner is in a sheet, as a short text that a page or a course system keeps and hands back.
 *
 * It holds what was answered and what that earned, never what is right. Long answers are left out, so that forty
 * questions stay far below the 4096 characters that the shortest-handed course systems keep.
 */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */

/**
 * What became of a question: what it has earned, how often it was answered, whether it is over, and so because the
 * answer was shown, the seconds that took, and what was answered last.
 * @typedef {{ credit: number, tries: number, done: boolean, shown: boolean, seconds: number, answer: string[] }} Given
 */

/** The format of the text. */
const FORMAT = 1;
/** Longest answer that is kept, in characters as it is written. */
const LONGEST = 40;
/** Most tries and seconds that are told apart. */
const MOST_TRIES = 999;
const MOST_SECONDS = 99_999;
/** Stands for a question that is over because the answer was shown. */
const SHOWN = 2;
/** Credit is kept to this part. */
const PARTS = 10_000;

/** A question that nobody has answered yet. @returns {Given} */
export function untouched() {
  return { credit: 0, tries: 0, done: false, shown: false, seconds: 0, answer: [] };
}

/** What was earned with all of them. @param {Given[]} given */
export function earned(given) {
  return given.reduce((sum, { credit }) => sum + credit, 0);
}

/**
 * @param {Question[]} questions
 * @param {Given[]} given of the first of them, as far as somebody has come
 */
export function written(questions, given) {
  const rows = given.map(({ credit, tries, done, shown, seconds, answer }) => {
    const row = [Math.round(credit * PARTS) / PARTS, Math.min(tries, MOST_TRIES), shown ? SHOWN : Number(done), Math.min(Math.round(seconds), MOST_SECONDS)];
    return [...row, ...(JSON.stringify(answer).length <= LONGEST ? answer : [])];
  });
  const sheet = sheetOf(questions);
  return JSON.stringify({ format: FORMAT, sheet, sum: digest(sheet + JSON.stringify(rows)), given: rows });
}

/**
 * What a text says of these questions; throws where it is of others or damaged. The sum shows damage. It keeps nobody
 * from forging, as what runs in a learner's browser cannot.
 * @param {string} text
 * @param {Question[]} questions
 * @returns {Given[]}
 */
export function resumed(text, questions) {
  const rows = rowsIn(text, questions);
  const given = rows?.map(givenIn);
  const whole = given?.every((one, at) => one && (one.done || at + 1 === given.length));
  if (!given || !whole) throw new Failure(say("page-panel-exercises"), say("page-problem-progress"), say("page-fix-progress"));
  return /** @type {Given[]} */ (given);
}

/**
 * @param {string} text
 * @param {Question[]} questions
 * @returns {unknown[] | undefined}
 */
function rowsIn(text, questions) {
  /** @type {any} */
  let kept;
  try {
    kept = JSON.parse(text);
  } catch {
    return undefined;
  }
  const sheet = sheetOf(questions);
  if (kept?.format !== FORMAT || kept.sheet !== sheet || !Array.isArray(kept.given)) return undefined;
  const sound = kept.sum === digest(sheet + JSON.stringify(kept.given)) && kept.given.length <= questions.length;
  return sound ? kept.given : undefined;
}

/** @param {unknown} row @returns {Given | undefined} */
function givenIn(row) {
  if (!Array.isArray(row)) return undefined;
  const [credit, tries, done, seconds, ...answer] = row;
  const within = (/** @type {unknown} */ value, /** @type {number} */ most) => typeof value === "number" && value >= 0 && value <= most;
  const sound = within(credit, 1) && within(tries, MOST_TRIES) && within(done, SHOWN) && within(seconds, MOST_SECONDS);
  return sound && answer.every((one) => typeof one === "string") ? { credit, tries, done: done >= 1, shown: done === SHOWN, seconds, answer } : undefined;
}

/** What a sheet is known by: what it asks, whatever it is called and in whichever language. @param {Question[]} questions */
function sheetOf(questions) {
  return digest(JSON.stringify(questions.map(({ task }) => task)));
}

/** A short digest, FNV-1a: browsers have better ones only for pages of secure hosts. @param {string} text */
function digest(text) {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) sum = Math.imul(sum ^ byte, 0x01000193);
  return (sum >>> 0).toString(16).padStart(8, "0");
}

/** What the element and its exercises tell each other of it. */
export class Progress {
  /** What is to be resumed once there is a sheet for it. @type {string | undefined} */
  #wanted;
  /** Has the exercises heed that at once. @type {(() => void) | undefined} */
  #heed;
  /** How far somebody has come; nothing before the first sheet. @type {(() => string | undefined) | undefined} */
  #now;

  /**
   * @param {() => string | undefined} now
   * @param {() => void} heed
   */
  follow(now, heed) {
    this.#now = now;
    this.#heed = heed;
  }

  /** As it stands; what is to be resumed, until that has been. */
  get text() {
    return this.#wanted ?? this.#now?.();
  }

  /** @param {string | undefined} text */
  set text(text) {
    this.#wanted = text;
    this.#heed?.();
  }

  /** What is to be resumed, once. */
  take() {
    const wanted = this.#wanted;
    this.#wanted = undefined;
    return wanted;
  }
}
