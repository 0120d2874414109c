/** Whoever keeps what becomes of a lesson: the run-time of a course system, a store of statements, or nobody. */

import { findRuntime } from "./calls.js";
import { Scorm12, RUNTIME as SCORM_12 } from "./scorm12.js";
import { Scorm2004, RUNTIME as SCORM_2004 } from "./scorm2004.js";
import { Statements, launchOf } from "./xapi.js";

/**
 * @typedef {object} About
 * @property {string} title
 * @property {string} language
 * @property {number | undefined} pass from how many percent it is passed, where that is set
 * @property {(reason: string) => void} failed told whenever something is not kept
 */

/** What was answered, and what all of it has earned so far. @typedef {{ points: number, of: number, share: number, done: boolean, question: Answered }} Score */
/** A range that was walked through: which one, of how many, and whether it was the last. @typedef {{ at: number, of: number, done: boolean }} Passed */
/** @typedef {{ number: number, id: string, task: string, text: string, credit: number, tries: number, seconds: number, answer: string[] }} Answered */

/**
 * @typedef {object} Keeper
 * @property {() => Promise<string | undefined>} begin gives where somebody was before
 * @property {(score: Score, progress: string) => void} answered
 * @property {(passed: Passed) => void} walked told of each range that was walked through, where nothing is asked after them
 * @property {(progress: string) => void} hold keeps where somebody is, also between two answers
 * @property {(left: { seconds: number, progress?: string, done: boolean }) => void} end
 */

/**
 * Who that is here. Both run-times may be there: then it is the one that the package is for.
 * @param {string} form what the package is
 * @param {About} about
 * @returns {Keeper | undefined}
 */
export function keeperOf(form, about) {
  const launch = launchOf(location.search);
  if (launch) return new Statements(launch, about);
  const [older, newer] = [SCORM_12, SCORM_2004].map((name) => findRuntime(name));
  if (newer && (form !== "scorm12" || !older)) return new Scorm2004(newer, about);
  return older ? new Scorm12(older, about) : undefined;
}
