/** A combination as a row of the list. */

import { h } from "../kit/dom.js";
import { MINUS, NONE, number as figure } from "../kit/format.js";
import { tell } from "../kit/known.js";
import { say } from "../kit/words.js";
import { STATES } from "../work/outcomes.js";
import { oneChange } from "./combination_order.js";

const TIED_UP = "tied-up";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../work/outcomes.js").Outcomes} Outcomes */

/**
 * @param {Desk} desk
 * @param {Outcomes} outcomes
 * @param {number} number
 * @param {(number: number) => void} [take] makes a range of it; a row that is not shown offers none
 */
export function row(desk, outcomes, number, take) {
  const applied = outcomes.appliedIn(number);
  const [key, state] = STATES[outcomes.states[number] - 1];
  const ratio = outcomes.ratios[number];
  // The columns hold what is read; the engine has no answer while it starts afresh.
  const exact = Number.isNaN(ratio) ? undefined : desk.askWhole((engine, sandbox) => engine.ratioOf(sandbox, number));
  const names = applied.join(" ") || say("page-combinations-none");
  const same = [...applied].sort().join();
  const range = desk.info?.ranges.find((range) => [...range.applied].sort().join() === same);
  // What ties up is no range.
  const offer = take && key !== TIED_UP && !desk.isLocked("train")
    ? h("button", {
        class: "plain", type: "button", "data-take-range": true,
        "aria-label": say("page-combinations-take", { elements: names }),
        title: say("page-combinations-take", { elements: names }),
        click: (/** @type {Event} */ event) => { event.stopPropagation(); take(number); },
      }, "+")
    : "";
  return h(
    "tr",
    { class: "pick", "data-applied": applied.join(), "data-number": number, "data-state": key, click: () => desk.apply(applied) },
    h(
      "th",
      { scope: "row" },
      h(
        "button",
        { class: "bare", type: "button", "aria-disabled": String(desk.isLocked("elements")), title: applied.map((id) => desk.elementLabel(id)).join(", ") },
        h("span", {}, names),
      ),
    ),
    h("td", { title: say(state) }, say(state)),
    tell(h("td", { class: "figure", title: exact?.replace("-", MINUS) }, Number.isNaN(ratio) ? NONE : figure(ratio)), ratio, exact),
    h("td", {}, range ? range.label : offer),
  );
}

/**
 * Marks a row that is on screen, and one that is one change away from it.
 * @param {HTMLElement} row
 * @param {Outcomes} outcomes
 * @param {number} now the combination on screen
 */
export function mark(row, outcomes, now) {
  const number = numberIn(row);
  if (number === now) row.setAttribute("aria-current", "true");
  else row.removeAttribute("aria-current");
  row.querySelector(".does")?.remove();
  const step = oneChange(outcomes, now, number);
  if (step) row.querySelector("button")?.append(h("span", { class: "does", "data-change": step.element }, say(step.message, { element: step.element })));
  return row;
}

/** The number of a row's combination. @param {HTMLElement} row */
export function numberIn(row) {
  return Number(row.dataset.number);
}
