/** The worksheet itself, made anew for each time it is printed. */

import { h } from "../kit/dom.js";
import { ratio } from "../kit/format.js";
import { listed, say } from "../kit/words.js";
import { figure, nameLine, WIDTH } from "../stage/on_paper.js";
import { leave } from "../state/engine.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Answer} Answer */
/** @typedef {"states" | "held" | "ratios" | "speeds"} Part */
/** @typedef {{ label: string, answer: Answer }} Shift a range, or what is shown, and what it does */

/**
 * @param {Desk} desk
 * @param {Set<Part>} blank what is left to be filled in
 * @param {boolean} answers whether it is the sheet that has them
 * @returns {Promise<HTMLElement | undefined>} nothing where nobody looks any more
 */
export async function paper(desk, blank, answers) {
  const { info, quantities } = desk;
  const prepared = await desk.prepare(desk.text);
  if (!prepared || !info) return undefined;
  const { engine, sandbox } = prepared;
  try {
    // What is drawn says nothing of what is asked.
    sandbox.apply([]);
    sandbox.settle();
    const settings = { ...desk.settings, width: WIDTH, power: false, palette: "contrast" };
    const { width, sectionHeight: height } = sandbox.set(JSON.stringify(settings));
    const drawing = figure(/** @type {import("../state/engine.js").WholeEngine} */ (engine), sandbox, "section", width, height);
    const shifts = shiftsOf(desk, sandbox);
    return h(
      "section",
      { class: "worksheet", "data-part": "paper" },
      h("header", {}, h("h2", {}, info.name), answers ? h("p", { class: "answers" }, say("page-worksheet-answers")) : nameLine()),
      drawing,
      h("p", {}, say("page-worksheet-input", { speed: quantities.text("speed", { decimal: 1 }) })),
      rangeTable(desk, shifts, blank),
      speedTable(desk, shifts, blank),
    );
  } finally {
    leave(engine, sandbox);
  }
}

/**
 * Every range with what it does, and what is shown where that is none.
 * @param {Desk} desk
 * @param {import("../engine/levertrain.js").Sandbox} sandbox
 * @returns {Shift[]}
 */
function shiftsOf({ info, answer }, sandbox) {
  const ranges = (info?.ranges ?? []).map(({ label, applied }) => ({ label, answer: sandbox.apply(applied) }));
  if (!answer || answer.range !== null) return ranges;
  return [...ranges, { label: say("page-worksheet-shown"), answer }];
}

/**
 * @param {Desk} desk
 * @param {Shift[]} shifts
 * @param {Set<Part>} blank
 */
function rangeTable(desk, shifts, blank) {
  const heads = ["page-chart-range", "page-worksheet-applied", "page-worksheet-state", "page-worksheet-held", "page-ratio"].map((key) => say(key));
  const named = (/** @type {string[]} */ names) => listed(names) || say("page-worksheet-none");
  const rows = shifts.map(({ label, answer }) =>
    h(
      "tr",
      {},
      h("th", { scope: "row" }, label),
      h("td", {}, named(answer.applied.map((id) => desk.elementLabel(id)))),
      filled(blank.has("states"), stateWords(answer)),
      filled(blank.has("held"), named(heldIn(answer))),
      filled(blank.has("ratios"), ratio(answer.ratio)),
    ),
  );
  return plainTable(say("page-worksheet-ranges"), heads, rows, "worksheet-ranges");
}

/**
 * @param {Desk} desk
 * @param {Shift[]} shifts
 * @param {Set<Part>} blank
 */
function speedTable(desk, shifts, blank) {
  const { quantities } = desk;
  const heads = [say("page-shaft"), ...shifts.map(({ label }) => label)];
  const rows = (desk.info?.shafts ?? []).map(({ label }, at) => {
    const cells = shifts.map(({ answer }) => {
      const { speed } = answer.shafts[at];
      return filled(blank.has("speeds"), speed ? quantities.figure("speed", speed) : say("page-free"));
    });
    return h("tr", {}, h("th", { scope: "row" }, label), ...cells);
  });
  return plainTable(say("page-worksheet-shafts", { unit: quantities.unit("speed") }), heads, rows, "worksheet-speeds");
}

/**
 * @param {string} title
 * @param {string[]} heads
 * @param {HTMLElement[]} rows
 * @param {string} kind
 */
function plainTable(title, heads, rows, kind) {
  const cells = heads.map((head) => h("th", { scope: "col" }, head));
  return h("table", { class: kind }, h("caption", {}, title), h("thead", {}, h("tr", {}, ...cells)), h("tbody", {}, ...rows));
}

/**
 * A cell with its answer, or with a ruled line for it.
 * @param {boolean} blank
 * @param {string} words
 */
function filled(blank, words) {
  return h("td", {}, blank ? h("span", { class: "blank" }) : words);
}

/** @param {Answer} answer */
function stateWords({ stateWords, answer, ratio }) {
  if (!ratio) return stateWords;
  const [way] = answer.split(", ");
  return say("page-part-of-set", { set: stateWords, part: way });
}

/** @param {Answer} answer */
function heldIn({ shafts, motions }) {
  return shafts.filter((_, at) => motions[at] === "held").map(({ label }) => label);
}
