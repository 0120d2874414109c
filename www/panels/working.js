/** The working: the formula of the ratio, with its numbers, and the speed equation of each set. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, ratio } from "../kit/format.js";
import { formula, fractionMathml } from "../kit/mathml.js";
import { scroller } from "../kit/table.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../state/desk.js").Answer} Answer */

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const derived = h("div", { class: "derived", "data-part": "formula" });
  const equations = h("dl", { class: "equations" });
  const symbols = h("p", { class: "note" });
  panel.fill(
    scroller(derived, "Formula of the ratio", signal),
    scroller(equations, "Speed equation of each set", signal),
    symbols,
  );

  follow(desk, ["answer"], () => {
    if (desk.answer) derived.replaceChildren(...derivation(desk.answer));
  });
  // The equations are those of the gears: no element changes them.
  follow(desk, ["train"], () => {
    const { answer } = desk;
    if (!answer) return;
    equations.replaceChildren(...answer.working.equations.flatMap((equation) => equationRow(answer, equation)));
    symbols.replaceChildren(...symbolWords(answer));
  });
}

/** @param {Answer} answer */
function derivation({ ratio: value, state, stateWords, working }) {
  if (!value) return [h("p", {}, `${stateWords}: there is no ratio to work out.`)];
  const result = `<mo>=</mo>${fractionMathml(value.fraction)}`;
  const about = value.fraction.includes("/") ? `<mo>≈</mo>${decimal(value)}` : "";
  if (!working.ratio) {
    const why =
      state === "over-applied" && working.noFormula === "only-these-teeth"
        ? "More is applied than needed, and it goes together only with these very tooth counts: there is no formula in symbols."
        : working.noFormula === "too-long"
          ? "The formula of this ratio is too long to read, so none is written."
          : "The ratio holds only with these very tooth counts: there is no formula in symbols.";
    return [h("p", {}, why), line(`<mi>i</mi>${result}${about}`, `i = ${fraction(value)}`)];
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
 * @param {Answer["working"]["equations"][number]} equation
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
  const has = (/** @type {string} */ wanted) =>
    couplings.some(({ members }) => members.some(({ role }) => role === wanted));
  const words = [];
  if (has("sun")) words.push("S and R are the teeth of sun and ring, C is the carrier");
  if (has("small sun")) {
    words.push("Sa, Sb and R are the teeth of small sun, large sun and ring, C is the carrier");
  }
  if (has("first sun")) words.push("Sa and Sb are the teeth of first and second sun, C is the carrier");
  if (couplings.some(({ pinions }) => pinions.some(({ secondStep }) => secondStep !== null))) {
    words.push("P and Q are the teeth of the two steps of a pinion, Q of that in the ring or on the second sun");
  }
  if (has("first gear")) {
    words.push("Za and Zb are the teeth of a pair’s first and second gear");
  }
  words.push("ω is a speed", "the last figure counts the sets in order");
  return [h("i", {}, "i"), ` is input speed over output speed; ${words.join("; ")}.`];
}
