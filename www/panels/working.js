/** The working: the formula of the ratio, with its numbers, and the speed equation of each set. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, ratio } from "../kit/format.js";
import { formula, fractionMathml } from "../kit/mathml.js";
import { scroller } from "../kit/table.js";
import { parted, say, sayParts } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../state/desk.js").Answer} Answer */
/** @typedef {import("../engine/levertrain_whole.js").Working} Working */

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const derived = h("div", { class: "derived", "data-part": "formula" });
  const equations = h("dl", { class: "equations" });
  const symbols = h("p", { class: "note" });
  panel.fill(
    scroller(derived, say("page-working-ratio"), signal),
    scroller(equations, say("page-working-sets"), signal),
    symbols,
  );

  /** Whose equations are shown. @type {unknown} */
  let written;

  function update() {
    const { answer, info } = desk;
    if (!answer || !panel.open) return;
    const working = desk.askWhole((engine, sandbox) => engine.working(sandbox));
    if (!working) return;
    derived.replaceChildren(...derivation(answer, working));
    // The equations are those of the gears: no element changes them.
    if (written === info) return;
    written = info;
    equations.replaceChildren(...working.equations.flatMap((equation) => equationRow(answer, equation)));
    symbols.replaceChildren(...symbolWords(answer));
  }

  panel.toggled(update);
  follow(desk, ["answer", "whole"], update);
}

/**
 * @param {Answer} answer
 * @param {Working} working
 */
function derivation({ ratio: value, state, stateWords }, working) {
  if (!value) return [h("p", {}, say("page-working-none", { state: stateWords }))];
  const result = `<mo>=</mo>${fractionMathml(value.fraction)}`;
  const about = value.fraction.includes("/") ? `<mo>≈</mo>${decimal(value)}` : "";
  if (!working.ratio) {
    return [h("p", {}, noFormulaWords(state, working)), line(`<mi>i</mi>${result}${about}`, `i = ${fraction(value)}`)];
  }
  const { symbols, symbolsMathml, numbers, numbersMathml } = working.ratio;
  const same = numbers === fraction(value) || symbols === numbers;
  return [
    line(`<mi>i</mi><mo>=</mo>${symbolsMathml}`, `i = ${symbols}`),
    symbols === fraction(value)
      ? ""
      : line(`<mphantom><mi>i</mi></mphantom><mo>=</mo>${same ? "" : `${numbersMathml}<mo>=</mo>`}${fractionMathml(value.fraction)}${about}`, `= ${numbers} = ${fraction(value)}`),
  ];
}

/**
 * @param {Answer["state"]} state
 * @param {Working} working
 */
function noFormulaWords(state, { noFormula }) {
  if (noFormula === "too-long") return say("page-working-too-long");
  const spare = state === "over-applied" && noFormula === "only-these-teeth";
  return spare ? say("page-working-only-these-spare") : say("page-working-only-these");
}

/**
 * A formula on a line of its own.
 * @param {string} inside
 * @param {string} plain
 */
function line(inside, plain) {
  return h("div", { class: "formula" }, formula(`<mrow>${inside}</mrow>`, plain));
}

/** @param {import("../kit/format.js").Exact} value */
function decimal(value) {
  const text = ratio(value);
  return text.startsWith("\u2212") ? `<mrow><mo>\u2212</mo><mn>${text.slice(1)}</mn></mrow>` : `<mn>${text}</mn>`;
}

/**
 * @param {Answer} answer
 * @param {Working["equations"][number]} equation
 */
function equationRow({ couplings }, { coupling, left, right }) {
  const label = couplings.find(({ id }) => id === coupling)?.label ?? coupling;
  const written = (/** @type {"symbols" | "numbers"} */ how) =>
    line(
      `${left[`${how}Mathml`]}<mo>=</mo>${right[`${how}Mathml`]}`,
      `${left[how]} = ${right[how]}`,
    );
  return [h("dt", {}, label), h("dd", {}, written("symbols")), h("dd", { class: "quiet" }, written("numbers"))];
}

/** @param {Answer} answer */
function symbolWords({ couplings }) {
  const sets = couplings.map(({ members }) => members.map(({ letter }) => letter));
  const words = [];
  if (sets.some((letters) => letters.includes("S"))) words.push(say("page-working-sun"));
  const twoSuns = sets.filter((letters) => letters.includes("Sb"));
  if (twoSuns.some((letters) => letters.includes("R"))) words.push(say("page-working-two-suns-ring"));
  if (twoSuns.some((letters) => !letters.includes("R"))) words.push(say("page-working-two-suns"));
  if (couplings.some(({ pinions }) => pinions.some(({ secondStep }) => secondStep !== null))) {
    words.push(say("page-working-steps"));
  }
  if (sets.some((letters) => letters.includes("Za"))) words.push(say("page-working-pair"));
  words.push(say("page-working-speed"), say("page-working-count"));
  return sayParts("page-working-symbols", { ratio: h("i", {}, "i"), symbols: parted(words) });
}
