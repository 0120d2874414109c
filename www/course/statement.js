/** Statements of the Experience API (IEEE 9274.1.1, and its version 1.0.3) about a lesson. */

import { duration } from "./times.js";

/**
 * What a page is handed when it is opened.
 * @typedef {object} Launch
 * @property {string} endpoint where statements go, with a `/` at its end
 * @property {string} auth what lets them in
 * @property {Record<string, unknown>} actor who learns
 * @property {string} activity what the lesson is known by, an IRI
 * @property {string} [registration] what the attempts are known by, a UUID
 */

/** @typedef {"initialized" | "answered" | "completed" | "passed" | "failed" | "terminated"} Verb */

/** Verbs and kinds of activities that the API's authors define. */
const VERBS = "http://adlnet.gov/expapi/verbs/";
const LESSON = "http://adlnet.gov/expapi/activities/lesson";
const QUESTION = "http://adlnet.gov/expapi/activities/cmi.interaction";
/** Parts that scaled scores are told to. */
const PARTS = 10_000;

/**
 * @param {Launch} launch
 * @param {{ title: string, language: string }} about
 * @param {{ id: string, time: Date }} stamp
 * @param {Verb} verb
 * @param {Record<string, unknown>} [result]
 */
export function statement(launch, about, { id, time }, verb, result) {
  const lesson = { objectType: "Activity", id: launch.activity, definition: { type: LESSON, name: { [about.language]: about.title } } };
  return {
    id,
    timestamp: time.toISOString(),
    actor: launch.actor,
    verb: verbOf(verb),
    object: lesson,
    ...(result ? { result } : {}),
    context: { ...(launch.registration ? { registration: launch.registration } : {}), language: about.language },
  };
}

/**
 * That a question of the lesson was answered.
 * @param {Launch} launch
 * @param {{ title: string, language: string }} about
 * @param {{ id: string, time: Date }} stamp
 * @param {import("./keeper.js").Answered} question
 */
export function answerStatement(launch, about, stamp, { id, text, answer, credit, seconds }) {
  const whole = statement(launch, about, stamp, "answered", {
    score: { scaled: scaled(credit) },
    success: credit === 1,
    response: answer.join(","),
    duration: duration(seconds),
  });
  const { language } = about;
  const object = {
    objectType: "Activity",
    id: `${launch.activity}${launch.activity.includes("#") ? "/" : "#"}${id}`,
    definition: { type: QUESTION, interactionType: "other", name: { [language]: id }, description: { [language]: text } },
  };
  const lesson = { objectType: "Activity", id: launch.activity };
  return { ...whole, object, context: { ...whole.context, contextActivities: { parent: [lesson] } } };
}

/**
 * What came of the whole lesson.
 * @param {{ points: number, of: number, share: number }} score
 * @param {number} seconds
 */
export function lessonResult({ points, of, share }, seconds) {
  return { score: { scaled: scaled(share), raw: points, min: 0, max: of }, duration: duration(seconds) };
}

/** @param {Verb} verb */
function verbOf(verb) {
  return { id: VERBS + verb, display: { en: verb } };
}

/** @param {number} share */
function scaled(share) {
  return Math.round(share * PARTS) / PARTS;
}
