/** Printing a sheet of exercises for a class: which one, and with or without answers. */

import { h } from "../kit/dom.js";
import { siteFile } from "../kit/site.js";
import { say, voice } from "../kit/words.js";
import { choice } from "./task_words.js";

const MODULE = "learn/handout_paper.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {{ sheets(): import("./sheet_text.js").Offered[], signal: AbortSignal }} offered those there are
 */
export function handout(desk, { sheets, signal }) {
  const which = choice("handout-which", say("page-handout-which"));
  const file = /** @type {HTMLInputElement} */ (h("input", { type: "file", accept: ".json,application/json", hidden: true, "data-part": "handout-file", change: take }));
  let answers = false;
  const button = (/** @type {string} */ part, /** @type {string} */ words, /** @type {boolean} */ wanted) =>
    h("button", { class: "plain", type: "button", "data-part": part, click: () => begin(wanted) }, words);
  const node = h(
    "details",
    { class: "exercise-setting", "data-part": "handout", toggle: offer },
    h("summary", {}, say("page-handout")),
    h("p", { class: "note" }, say("page-handout-note")),
    which.node,
    h("p", { class: "row" }, button("handout-blank", say("page-worksheet-print"), false), button("handout-answers", say("page-worksheet-print-answers"), true), file),
  );

  /** Offers the sheets there are. */
  function offer() {
    const there = sheets().map(({ key, name }) => /** @type {[string, string]} */ ([key, name]));
    which.offerLatest([...there, ["file", say("page-handout-file")]]);
  }

  /** @param {boolean} wanted */
  function begin(wanted) {
    // While a question is open nothing answers it.
    if (desk.veiled) return;
    answers = wanted;
    const chosen = sheets().find(({ key }) => key === which.value);
    if (chosen) hand(chosen.text());
    else file.click();
  }

  function take() {
    const chosen = file.files?.[0];
    file.value = "";
    if (chosen) hand(chosen.text());
  }

  /** @param {Promise<string>} text */
  async function hand(text) {
    try {
      const [module] = await Promise.all([import(siteFile(MODULE).href), desk.becomeWhole()]);
      /** @type {typeof import("./handout_paper.js")} */
      const { hand } = module;
      const root = /** @type {ShadowRoot} */ (node.getRootNode());
      await hand(desk, { text: await text, answers, root, voice, signal });
      desk.dismiss();
    } catch (error) {
      desk.report(error, say("page-exercise-refused"));
    }
  }

  return { node, update: offer };
}
