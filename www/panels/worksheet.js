/** A sheet of paper for a class: with blanks to fill in, and the same with answers. */

import { h } from "../kit/dom.js";
import { Failure } from "../kit/problems.js";
import { addStyles } from "../kit/sheets.js";
import { say } from "../kit/words.js";
import { paper } from "./paper.js";

/** @typedef {import("./paper.js").Part} Part */

/** What can be left blank, with the messages. @type {[Part, string][]} */
const PARTS = [
  ["states", "page-worksheet-states"],
  ["held", "page-worksheet-held"],
  ["ratios", "page-worksheet-ratios"],
  ["speeds", "page-worksheet-speeds"],
];

const STYLES = "css/worksheet.css";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const boxes = PARTS.map(([part, name]) => {
    const box = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-blank": part }));
    box.checked = true;
    return { part, box, label: h("label", { class: "control check" }, box, h("span", {}, say(name))) };
  });
  const button = (/** @type {string} */ name, /** @type {boolean} */ answers) =>
    h("button", { class: "plain", type: "button", "data-print": answers ? "answers" : "blanks", click: () => begin(answers) }, name);
  panel.fill(
    h("p", { class: "note" }, say("page-worksheet-note")),
    h("div", { class: "filter", role: "group", "aria-label": say("page-worksheet-leave") }, h("span", { class: "quiet" }, say("page-worksheet-leave")), ...boxes.map(({ label }) => label)),
    h("p", { class: "row" }, button(say("page-worksheet-print"), false), button(say("page-worksheet-print-answers"), true)),
  );

  /** @param {boolean} answers */
  function begin(answers) {
    const blank = new Set(answers ? [] : boxes.filter(({ box }) => box.checked).map(({ part }) => part));
    printed(blank, answers).catch((error) => desk.report(error));
  }

  /** What is on paper now. @type {HTMLElement | undefined} */
  let sheet;

  /**
   * @param {Set<Part>} blank
   * @param {boolean} answers
   */
  async function printed(blank, answers) {
    const root = /** @type {ShadowRoot} */ (panel.node.getRootNode());
    const dressed = await addStyles(root, STYLES);
    if (!dressed) throw new Failure(say("page-panel-worksheet"), say("page-worksheet-no-styles"), say("page-worksheet-again"));
    await desk.becomeWhole();
    const made = await paper(desk, blank, answers);
    if (!made || signal.aborted) return;
    sheet?.remove();
    sheet = made;
    root.querySelector(".levertrain")?.append(made);
    addEventListener("afterprint", () => made.remove(), { once: true, signal });
    print();
  }
}
