/**
 * The page that a package for a course system opens: a sheet of exercises, with the ranges that it walks through before it
 * asks, which the course system is told of. It stands by itself as well, and says then that no score is kept.
 */

import { keeperOf } from "./course/keeper.js";
import { h } from "./kit/dom.js";

/** @typedef {import("./course/keeper.js").Keeper} Keeper */
/** What becomes of its questions is told by these events. @typedef {CustomEvent<Omit<import("./course/keeper.js").Score, "share"> & { sheet: boolean }>} ScoreEvent */

/**
 * What stands in `lesson.json`.
 * @typedef {object} Lesson
 * @property {string} title
 * @property {string} language
 * @property {string} form what the package is: `scorm12`, `scorm2004` or `xapi`
 * @property {number} [pass] from how many percent it is passed
 * @property {number} questions how many its sheet asks, after the ranges that it walks through; it may be none
 */
/** What becomes of its walkthrough, by these. @typedef {CustomEvent<import("./course/keeper.js").Passed & { sheet: boolean, questions: number }>} WalkEvent */

/** The scenario of a package: it has only one. */
const SCENARIO = "lesson";

const began = performance.now();
const told = h("p", { role: "status", "data-part": "lesson-kept" });
/** What was not kept; of many the first is told. */
const trouble = h("p", { role: "alert", "data-part": "lesson-trouble" });
/** @type {(key: string, values?: Record<string, string | number>) => string} */
let say = () => "";
/** @type {string | undefined} */
let reason;

start();

async function start() {
  const response = await fetch(new URL("lesson.json", import.meta.url));
  if (!response.ok) return;
  /** @type {Lesson} */
  const lesson = await response.json();
  document.documentElement.lang = lesson.language;
  document.title = lesson.title;
  const { title, language, pass, form } = lesson;
  const keeper = keeperOf(form, { title, language, pass, failed });
  const progress = await keeper?.begin();
  // Whose language is settled by then.
  await import(new URL("element.js", import.meta.url).href);
  const train = /** @type {HTMLElement & { progress: string | null }} */ (h("lever-train", { scenario: SCENARIO, exercise: "sheet.json" }));
  if (progress !== undefined) train.progress = progress;
  const caution = h("p", { class: "caution" });
  document.querySelector("main")?.replaceChildren(h("h1", {}, title), told, trouble, train, caution);
  if (keeper) keep(keeper, train);
  train.addEventListener(
    "levertrain-ready",
    async () => {
      await speak();
      caution.textContent = say("page-cautions-text");
      // Who comes back goes on with the question, not with what stands over it.
      if (progress !== undefined) train.scrollIntoView({ block: "start", behavior: "instant" });
      if (reason !== undefined) failed(reason);
      else told.textContent = say("page-lesson-begun", { kept: keeper ? "yes" : "no" });
    },
    { once: true },
  );
}

/** Has the page say what the engine of its elements says, in their language. */
async function speak() {
  /** @type {typeof import("./engine/levertrain.js")} */
  const engine = await import(new URL("engine/levertrain.js", import.meta.url).href);
  say = (key, values = {}) => engine.say(key, 0, Object.entries(values).flat().map(String));
}

/**
 * Tells whoever keeps it what becomes of the lesson.
 * @param {Keeper} keeper
 * @param {HTMLElement & { progress: string | null }} train
 */
function keep(keeper, train) {
  let done = false;
  let tries = triesIn(train.progress);
  train.addEventListener("levertrain-score", (event) => {
    const { detail } = /** @type {ScoreEvent} */ (event);
    // Questions made by dice, once the sheet is through, are for practice.
    if (!detail.sheet) return;
    done = detail.done;
    keeper.answered({ ...detail, share: detail.points / detail.of }, train.progress ?? "");
    tries = triesIn(train.progress);
    const points = new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: 1 }).format(detail.points);
    told.textContent = say("page-lesson-kept", { points, of: detail.of, done: done ? "yes" : "no" });
  });
  train.addEventListener("levertrain-walk", (event) => {
    const { at, of, done: isLast, sheet, questions } = /** @type {WalkEvent} */ (event).detail;
    // Where something is asked, it is that which counts.
    if (!sheet || questions > 0) return;
    done = isLast;
    keeper.walked({ at, of, done });
    told.textContent = say("page-lesson-walked", { at, of, done: done ? "yes" : "no" });
  });
  // A wrong answer counts, also where the page is closed, or the browser ends, before a right one.
  train.addEventListener("click", () => setTimeout(() => {
    const { progress } = train;
    const now = triesIn(progress);
    if (progress !== null && now > tries) keeper.hold(progress);
    tries = now;
  }));
  addEventListener("pagehide", () => {
    keeper.end({ seconds: (performance.now() - began) / 1000, progress: train.progress ?? undefined, done });
  });
  // The course system takes no more once it was told of the end.
  addEventListener("pageshow", ({ persisted }) => persisted && location.reload());
}

/** How often something was answered. @param {string | null} progress */
function triesIn(progress) {
  try {
    /** @type {[number, number][]} */
    const given = JSON.parse(progress ?? "").given;
    return given.reduce((sum, [, tries]) => sum + tries, 0);
  } catch {
    // What somebody else has written is not resumed.
    return 0;
  }
}

/** @param {string} why */
function failed(why) {
  reason ??= why;
  trouble.textContent = say("page-lesson-trouble", { reason });
}
