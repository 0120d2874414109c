/** The answer: ratio, direction, state and applied elements, large; the reasons beside it. */

import { h, icon } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, ratio } from "../kit/format.js";
import { listed, say, sayParts } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Answer} Answer */

/** A reason of up to so many letters is never cut on a phone. */
const SHORT = 120;

/** How long the answer must stand still before a screen reader is told, in milliseconds. */
const QUIET = 500;

/**
 * @param {Desk} desk
 * @param {() => (() => void) | undefined} byHand gives what lets free members be turned by hand, where there is that
 */
export function answerBand(desk, byHand) {
  const kicker = h("p", { class: "answer-kicker", "data-part": "applied" });
  const line = h("p", { class: "answer-line" });
  const words = h("div", { class: "answer-words", "data-part": "sentences" });
  const spoken = h("p", { class: "unseen", role: "status", "data-part": "spoken" });
  const node = h(
    "div",
    { class: "answer", part: "answer", role: "group", "aria-label": say("page-answer"), "data-part": "answer" },
    h("div", { class: "answer-main" }, kicker, line),
    words,
    spoken,
  );
  // On a phone only the reason stands under the headline; the rest follows the drawings.
  const rest = h("div", { class: "answer-rest", "data-part": "more-sentences" });
  let timer = 0;

  function update() {
    const answer = desk.preview?.answer ?? desk.answer;
    if (!answer) return;
    hold(Boolean(desk.preview));
    node.dataset.state = answer.state;
    node.toggleAttribute("data-preview", Boolean(desk.preview));
    kicker.textContent = desk.preview ? previewWords(desk) : appliedWords(desk, answer);
    line.replaceChildren(...headline(answer, desk.preview ? undefined : byHand()));
    const reason = reasonIn(answer);
    const paragraphs = answer.sentences.map((sentence, at) =>
      h("p", { class: at === reason ? "answer-reason" : null }, sentence),
    );
    words.replaceChildren(...paragraphs);
    const short = answer.sentences[reason].length <= SHORT;
    rest.replaceChildren(
      ...paragraphs.filter((_, at) => at !== reason || !short).map((node) => node.cloneNode(true)),
    );
    clearTimeout(timer);
    timer = setTimeout(() => {
      spoken.textContent = spokenWords(kicker.textContent ?? "", answer);
    }, QUIET);
  }

  /**
   * The band keeps its size during a drag: what is being dragged must not move away.
   * @param {boolean} held
   */
  function hold(held) {
    if (!held) node.style.removeProperty("block-size");
    else if (!node.style.blockSize) node.style.blockSize = `${node.offsetHeight}px`;
  }

  follow(desk, ["answer", "preview"], update);
  return { node, rest, figure: line };
}

/**
 * The whole answer as running text.
 * @param {string} applied
 * @param {Answer} answer
 */
function spokenWords(applied, answer) {
  const values = { applied, state: answer.stateWords, answer: answer.answer };
  const first = answer.ratio
    ? say("page-spoken-ratio", { ...values, ratio: ratio(answer.ratio) })
    : say("page-spoken", values);
  return [first, ...answer.sentences].join(" ");
}

/**
 * What the drawings show, as running text.
 * @param {import("../state/desk.js").Desk} desk
 */
export function shownWords(desk) {
  return desk.answer ? spokenWords(appliedWords(desk, desk.answer), desk.answer) : "";
}

/**
 * Which paragraph says why the state is what it is: the first says what each element does, the second
 * what comes of it, and the third what could be released.
 * @param {Answer} answer
 */
function reasonIn({ state, sentences }) {
  return Math.min(state === "over-applied" ? 2 : 1, sentences.length - 1);
}

/**
 * The figure, or the state where there is none, with the words that belong to it.
 * @param {Answer} answer
 * @param {(() => void) | undefined} turn lets free members be turned by hand
 */
function headline(answer, turn) {
  const state = h("span", { class: "answer-state", "data-part": "state" }, answer.stateWords);
  if (!answer.ratio) {
    const free =
      answer.state === "neutral"
        ? h(
            "span",
            { class: "answer-more" },
            // With several sources or outputs it is no fault that more than one speed is free.
            say(answer.stateWords === say("state-branched") ? "page-answer-chosen" : "page-answer-degrees", { count: answer.degreesOfFreedom }),
            turn ? " " : "",
            turn ? h("button", { class: "bare answer-turn", type: "button", "data-part": "turn-by-hand", click: turn }, say("page-answer-turn")) : "",
          )
        : null;
    return [
      h("span", { class: "answer-figure" }, state),
      h("span", { class: "answer-block" }, h("span", { class: "answer-way" }, answer.answer), free),
    ];
  }
  const direction = answer.ratio.decimal < 0 ? "backward" : "forward";
  const [way, ...pace] = answer.answer.split(", ");
  const exact = h("span", { class: "figures", "data-part": "exact" }, fraction(answer.ratio));
  return [
    h(
      "span",
      { class: "answer-figure", "data-part": "ratio" },
      ratio(answer.ratio),
      h("span", { class: "answer-one" }, " : 1"),
    ),
    h(
      "span",
      { class: "answer-block" },
      h("span", { class: `answer-way ${direction}`, "data-part": "direction" }, icon(direction), way),
      h("span", { class: "answer-more" }, ...sayParts("page-answer-more", { state, pace: pace.join(", "), exact })),
    ),
  ];
}

/**
 * @param {Desk} desk
 * @param {Answer} answer
 */
function appliedWords(desk, answer) {
  const labels = answer.applied.map((id) => desk.elementLabel(id));
  const applied = labels.length > 0 ? say("page-applied", { elements: listed(labels) }) : say("page-applied-none");
  const range = desk.info?.ranges.find((known) => known.id === answer.range);
  return range ? say("page-applied-range", { range: range.label, applied }) : applied;
}

/** @param {Desk} desk */
function previewWords(desk) {
  const id = desk.preview?.id ?? "";
  const does = desk.answer?.applied.includes(id) ? "releasing" : "closing";
  return say("page-preview-gives", { does, element: desk.elementLabel(id) });
}
