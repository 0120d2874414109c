/** What came of a round, question by question: how each was answered, what it counts, and what is right. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { earned } from "./progress.js";
import { answerWords, lineWords, hundredths } from "./task_words.js";

/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("./progress.js").Given} Given */
/** @typedef {import("../state/desk.js").Desk} Desk */

/**
 * What came of a round: its questions, what became of the first of them, as far as somebody has come, and whether that is all.
 * @typedef {{ questions: Question[], given: Given[], whole: boolean }} Came
 */

/** Signs that stand for how a question was answered. */
const SIGNS = { right: "✓", later: "✓", part: "◐", wrong: "✗", shown: "✗", open: "–" };

/** What came of all, in a sentence. @param {Came} came */
export function resultWords({ questions, given, whole }) {
  const [points, of] = [earned(given), questions.length];
  const share = hundredths(Math.round((100 * points) / of));
  return say("page-exercise-score", { points: hundredths(points), of, share, whole: whole ? "yes" : "no" });
}

/**
 * The list of them.
 * @param {Desk} desk with the train that was asked about
 * @param {Came} came
 */
export function resultList(desk, { questions, given }) {
  const rows = questions.map((question, at) => {
    const mark = markOf(given[at]);
    const points = hundredths(given[at]?.credit ?? 0);
    // Of what was not answered nothing is told: it may be asked again.
    const right = given[at]?.done ? rightOf(desk, question) : undefined;
    const words = say("page-exercise-mark", { mark, points, much: points === "1" ? "one" : "other" });
    return h(
      "li",
      { "data-mark": mark },
      h("p", {}, lineWords(question)),
      h("p", { class: "exercise-result" }, h("span", { "aria-hidden": "true" }, SIGNS[mark]), h("b", {}, words)),
      ...(right ? [h("p", {}, say("page-exercise-answer", { answer: answerWords(desk, question, right) }))] : []),
    );
  });
  return h("ol", { class: "exercise-results", "data-part": "exercise-results", "aria-label": say("page-exercise-results") }, ...rows);
}

/** How a question was answered. @param {Given | undefined} given @returns {keyof typeof SIGNS} */
function markOf(given) {
  if (!given || (!given.done && given.tries === 0)) return "open";
  if (given.done && !given.shown) return given.credit === 1 ? "right" : "later";
  if (given.credit > 0) return "part";
  return given.tries > 0 ? "wrong" : "shown";
}

/** @param {Desk} desk @param {Question} question */
function rightOf(desk, { task }) {
  return desk.askWhole((engine, sandbox) => engine.rightAnswer(sandbox, JSON.stringify(task)));
}
