/**
 * A sheet of exercises on paper: the train, the ranges that are walked through, and every question with room for its
 * answer, or with that. A site has it as a file of its own, with words and styles of its own.
 */

import { h } from "../kit/dom.js";
import { addStyles } from "../kit/sheets.js";
import { rootedAt } from "../kit/site.js";
import { capital, listed, say, speakWith, voice as ownVoice } from "../kit/words.js";
import { figure, nameLine, WIDTH } from "../stage/on_paper.js";
import { decimal } from "./task_words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {typeof ownVoice} Voice */
/** @typedef {import("../engine/levertrain_whole.js").Question} Question */
/** @typedef {import("../state/engine.js").WholeEngine} Engine */
/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {{ engine: Engine, sandbox: Sandbox, desk: Desk }} Train the train of the sheet, in a sandbox of its own */

const STYLES = ["css/worksheet.css", "css/handout.css"];
/** Boxes to be ticked, and those that are. */
const BOX = "☐";
const TICKED = "☒";

/**
 * Hands a sheet to the printer. Throws the problems of its text.
 * @param {Desk} desk in the whole engine
 * @param {{ text: string, answers: boolean, root: ShadowRoot, voice: Voice, signal: AbortSignal }} page
 */
export async function hand(desk, { text, answers, root, voice, signal }) {
  rootedAt(new URL("../element.js", import.meta.url).href);
  // Where modules are not put together, the words are the page's.
  if (voice !== ownVoice) speakWith(voice);
  for (const path of STYLES) if (!(await addStyles(root, path))) throw new Error(path);
  const prepared = await desk.prepare(desk.text);
  if (!prepared || signal.aborted || desk.veiled) return;
  const { sandbox } = prepared;
  const engine = /** @type {Engine} */ (prepared.engine);
  let made;
  try {
    made = sheetOf({ engine, sandbox, desk }, text, answers);
  } finally {
    sandbox.free();
  }
  root.querySelector(".levertrain")?.append(made);
  addEventListener("afterprint", () => made.remove(), { once: true, signal });
  print();
}

/** @param {Train} train @param {string} text @param {boolean} answers */
function sheetOf({ engine, sandbox, desk }, text, answers) {
  const { title, walk, questions } = engine.readExercises(sandbox, text);
  // What is drawn says nothing of what is asked.
  const size = drawnWith({ engine, sandbox, desk }, []);
  const asked = new Set(questions.map(({ range }) => range));
  return h(
    "section",
    { class: "worksheet handout", "data-part": "handout-paper" },
    h("header", {}, h("h2", {}, title), answers ? h("p", { class: "answers" }, say("page-worksheet-answers")) : nameLine()),
    h("p", {}, desk.info?.name ?? ""),
    figure(engine, sandbox, "section", size.width, size.sectionHeight),
    ...walk.map((range) => walked({ engine, sandbox, desk }, range, answers || !asked.has(range))),
    h("ol", { class: "handout-questions" }, ...questions.map((question) => h("li", {}, ...asking({ engine, sandbox, desk }, question, answers)))),
  );
}

/** @param {Train} train @param {string[]} applied */
function drawnWith({ sandbox, desk }, applied) {
  sandbox.apply(applied);
  sandbox.settle();
  return sandbox.set(JSON.stringify({ ...desk.settings, width: WIDTH, power: false, palette: "contrast" }));
}

/**
 * A range as the walkthrough tells it, with its levers. Where a question asks what they say, it is gone through on
 * screen only.
 * @param {Train} train
 * @param {string} id
 * @param {boolean} told
 */
function walked({ engine, sandbox, desk }, id, told) {
  const range = desk.info?.ranges.find((known) => known.id === id);
  const title = h("h3", {}, say("page-exercise-walk-of", { range: range?.label ?? id }));
  if (!told) return h("section", { class: "handout-walk" }, title, h("p", {}, say("page-handout-on-screen")));
  const { width, leverHeight } = drawnWith({ engine, sandbox, desk }, range?.applied ?? []);
  const steps = engine.walk(sandbox).steps.map(({ sentences }) => h("li", {}, sentences.join(" ")));
  return h("section", { class: "handout-walk" }, title, h("ol", {}, ...steps), figure(engine, sandbox, "lever", width, leverHeight));
}

/** A question with room for its answer, or with that. @param {Train} train @param {Question} question @param {boolean} answers */
function asking({ engine, sandbox, desk }, question, answers) {
  const right = answers ? engine.rightAnswer(sandbox, JSON.stringify(question.task)) : undefined;
  const { given, text, rows } = question;
  return [
    h("p", { class: "handout-asked" }, ...(given ? [h("span", { class: "handout-given" }, given), " "] : []), text),
    ...(rows.length > 0 ? [h("ul", { class: "handout-rows" }, ...rows.map(({ label, words }) => h("li", {}, say("page-handout-becomes", { range: label, words }))))] : []),
    ...answerOf(desk, question, right),
  ];
}

/** @param {Desk} desk @param {Question} question @param {string[] | undefined} right */
function answerOf(desk, { by, choices }, right) {
  const label = (/** @type {string} */ id) => choices.find((choice) => choice.id === id)?.label ?? id;
  switch (by) {
    case "stage":
      return [answerLine(say("page-handout-apply"), right && listed(right.map((id) => desk.elementLabel(id))))];
    case "number":
      return [answerLine(say("page-exercise-number"), right && decimal(right[0]))];
    case "counts":
      return choices.map(({ label }, at) => answerLine(capital(label), right?.[at]));
    case "order":
      return [h("p", { class: "handout-choices" }, ...choices.map(({ label }) => h("span", {}, label))), answerLine(say("page-handout-order"), right?.map(label).join(" → "))];
    default:
      return [h("ul", { class: "handout-choices" }, ...choices.map(({ id, label }) => picked(label, right?.includes(id) ?? false)))];
  }
}

/** @param {string} label @param {boolean} right */
function picked(label, right) {
  return h("li", { class: right ? "handout-right" : null }, `${right ? TICKED : BOX} ${capital(label)}`);
}

/** What is to be written, on a line, or what is right. @param {string} what @param {string | undefined} right */
function answerLine(what, right) {
  return h("p", { class: "handout-line" }, h("span", {}, what), right === undefined ? h("span", { class: "blank" }) : h("b", {}, right));
}

