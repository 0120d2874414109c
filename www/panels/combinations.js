/** Every combination of elements, made when it is looked at. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, ratio } from "../kit/format.js";
import { tell, tellRows } from "../kit/known.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Outcome} Outcome */

/** Rows added at a time: 16 elements have 65 536 combinations. */
const PAGE = 100;

/** What the rows can be ordered by, with its message. @type {[string, string][]} */
const ORDERS = [
  ["counting", "page-combinations-by-counting"],
  ["ratio", "page-combinations-by-ratio"],
  ["state", "page-combinations-by-state"],
  ["applied", "page-combinations-by-applied"],
  ["changes", "page-combinations-by-changes"],
];

/** What an element has to be in a row that is shown, with its message. @type {[string, string][]} */
const WANTED = [
  ["", "page-combinations-either"],
  ["applied", "page-combinations-is-applied"],
  ["open", "page-combinations-is-open"],
];

/** The states, with their messages. @type {[string, string][]} */
const STATES = [
  ["driving", "state-driving"],
  ["over-applied", "state-over-applied"],
  ["neutral", "state-neutral"],
  ["output-held", "state-output-held"],
  ["tied-up", "state-tied-up"],
];

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const heads = [say("page-combinations-applied"), say("page-combinations-state"), say("page-ratio"), say("page-chart-range")];
  const { node: outcomes, body } = table(say("page-panel-combinations"), heads, [2]);
  const filter = /** @type {HTMLSelectElement} */ (h("select", { id: "states", change: restart }));
  const order = choice("order", ORDERS, restart);
  const elements = h("div", { class: "filter wanted", role: "group", "aria-label": say("page-combinations-elements") });
  const count = h("p", { class: "note", role: "status" });
  const more = h("button", { class: "plain", type: "button", click: add });
  panel.fill(
    h("p", { class: "filter" }, labelled(say("page-combinations-show"), filter), labelled(say("page-combinations-order"), order)),
    elements,
    count,
    h("div", { class: "scroll tall" }, outcomes, more),
  );
  /** @type {Outcome[] | undefined} */
  let all;
  /** @type {Outcome[]} */
  let chosen = [];

  tellRows(outcomes, () => chosen.map((outcome) => row(desk, outcome)));

  function build() {
    if (all || !panel.open || !desk.info) return;
    const found = desk.askWhole((engine, sandbox) => engine.outcomes(sandbox));
    if (!found) return;
    all = found;
    const counts = new Map();
    for (const { state } of all) counts.set(state, (counts.get(state) ?? 0) + 1);
    const state = filter.value;
    filter.replaceChildren(
      h("option", { value: "" }, say("page-combinations-all", { count: all.length })),
      ...STATES.filter(([key]) => counts.has(key)).map(([key, name]) =>
        h("option", { value: key }, say("page-combinations-of", { state: say(name), count: counts.get(key) })),
      ),
    );
    if (counts.has(state)) filter.value = state;
    const kept = wanted();
    elements.replaceChildren(...desk.info.elements.map(({ id }) => {
      const select = choice(`wanted-${id}`, WANTED, restart);
      select.dataset.element = id;
      select.value = kept.get(id) ?? "";
      return labelled(id, select, desk.elementLabel(id));
    }));
    restart();
  }

  /** What is asked of the elements. @returns {Map<string, string>} */
  function wanted() {
    const selects = /** @type {Iterable<HTMLSelectElement>} */ (elements.querySelectorAll("select"));
    return new Map([...selects].map(({ dataset, value }) => [dataset.element ?? "", value]));
  }

  function restart() {
    const state = filter.value;
    const asked = [...wanted()].filter(([, value]) => value);
    chosen = (all ?? []).filter(
      (outcome) =>
        (!state || outcome.state === state) &&
        asked.every(([id, value]) => outcome.applied.includes(id) === (value === "applied")),
    );
    sort(chosen, order.value, desk.answer?.applied ?? []);
    count.textContent = say("page-combinations-count", { count: chosen.length });
    outcomes.setAttribute("aria-rowcount", `${chosen.length + 1}`);
    body.replaceChildren();
    add();
  }

  function add() {
    const shown = body.children.length;
    const rows = chosen.slice(shown, shown + PAGE).map((outcome) => row(desk, outcome, take));
    // The heading is the first.
    rows.forEach((row, at) => row.setAttribute("aria-rowindex", `${shown + at + 2}`));
    body.append(...rows);
    const left = chosen.length - body.children.length;
    more.hidden = left === 0;
    more.textContent = say("page-combinations-more", { count: Math.min(left, PAGE), left });
    mark();
  }

  function mark() {
    const now = desk.answer?.applied;
    const current = now?.join();
    for (const row of /** @type {Iterable<HTMLElement>} */ (body.children)) {
      if (row.dataset.applied === current) row.setAttribute("aria-current", "true");
      else row.removeAttribute("aria-current");
      row.querySelector(".does")?.remove();
      const step = now && oneChange(now, applied(row));
      if (step) row.querySelector("button")?.append(h("span", { class: "does", "data-change": step.element }, say(step.message, { element: step.element })));
    }
  }

  /**
   * Makes a range of a row. That makes the list anew: it stays as long, and the focus in its row.
   * @param {string[]} elements
   */
  function take(elements) {
    const length = body.children.length;
    desk.edit({ edit: "add-range", label: "", applied: elements });
    while (body.children.length < length && !more.hidden) add();
    focus(elements.join());
  }

  /** @param {string | undefined} key the elements of the row that gets the focus */
  function focus(key) {
    const again = /** @type {HTMLElement[]} */ ([...body.children]).find(({ dataset }) => dataset.applied === key);
    again?.querySelector("button")?.focus();
  }

  function follows() {
    if (order.value !== "changes") return mark();
    // The row that was pressed moves to the top, and the focus with it.
    const pressed = /** @type {HTMLElement | null} */ (body.querySelector("tr:focus-within"));
    restart();
    if (pressed) focus(pressed.dataset.applied);
  }

  function forget() {
    all = undefined;
    build();
  }

  panel.toggled(build);
  follow(desk, ["train"], forget);
  follow(desk, ["answer"], follows);
}

/**
 * @param {string} id
 * @param {[string, string][]} options
 * @param {() => void} change
 */
function choice(id, options, change) {
  const nodes = options.map(([value, message]) => h("option", { value }, say(message)));
  return /** @type {HTMLSelectElement} */ (h("select", { id, change }, ...nodes));
}

/**
 * A list with its label, which stay beside each other.
 * @param {string} name
 * @param {HTMLElement} select
 * @param {string} [title] its name in full
 */
function labelled(name, select, title) {
  return h("span", {}, h("label", { for: select.id, title }, name), h("span", { class: "select" }, select));
}

/** @param {HTMLElement} row */
function applied(row) {
  return (row.dataset.applied ?? "").split(",").filter(Boolean);
}

/**
 * How many elements change between two combinations.
 * @param {string[]} from
 * @param {string[]} to
 */
function changes(from, to) {
  const both = to.filter((id) => from.includes(id)).length;
  return from.length + to.length - 2 * both;
}

/**
 * The one element that changes between two combinations, if it is one.
 * @param {string[]} from
 * @param {string[]} to
 */
function oneChange(from, to) {
  if (changes(from, to) !== 1) return undefined;
  return to.length > from.length
    ? { element: to.find((id) => !from.includes(id)) ?? "", message: "page-combinations-apply" }
    : { element: from.find((id) => !to.includes(id)) ?? "", message: "page-combinations-release" };
}

/**
 * Puts outcomes in order; those that are alike stay in counting order.
 * @param {Outcome[]} outcomes
 * @param {string} order
 * @param {string[]} now
 */
function sort(outcomes, order, now) {
  const states = STATES.map(([key]) => key);
  /** @type {Record<string, (outcome: Outcome) => number>} */
  const keys = {
    // Those without a ratio come last.
    ratio: ({ ratio }) => ratio?.decimal ?? Infinity,
    state: ({ state }) => states.indexOf(state),
    applied: ({ applied }) => applied.length,
    changes: ({ applied }) => changes(now, applied),
  };
  const key = keys[order];
  if (!key) return;
  const known = new Map(outcomes.map((outcome) => [outcome, key(outcome)]));
  outcomes.sort((a, b) => {
    const [first, second] = [known.get(a) ?? 0, known.get(b) ?? 0];
    return first < second ? -1 : first > second ? 1 : 0;
  });
}

/**
 * @param {Desk} desk
 * @param {Outcome} outcome
 * @param {(applied: string[]) => void} [take] makes a range of it; a row that is not shown offers none
 */
function row(desk, outcome, take) {
  const { applied } = outcome;
  const [, state] = STATES.find(([key]) => key === outcome.state) ?? [];
  const names = applied.join(" ") || say("page-combinations-none");
  const key = [...applied].sort().join();
  const range = desk.info?.ranges.find((range) => [...range.applied].sort().join() === key);
  const offer = take
    ? h("button", {
        class: "plain", type: "button", "data-take-range": true,
        "aria-label": say("page-combinations-take", { elements: names }),
        title: say("page-combinations-take", { elements: names }),
        click: (/** @type {Event} */ event) => { event.stopPropagation(); take(applied); },
      }, "+")
    : "";
  return h(
    "tr",
    { class: "pick", "data-applied": applied.join(), "data-state": outcome.state, click: () => desk.apply(applied) },
    h(
      "th",
      { scope: "row" },
      h(
        "button",
        { class: "bare", type: "button", title: applied.map((id) => desk.elementLabel(id)).join(", ") },
        names,
      ),
    ),
    h("td", {}, state ? say(state) : outcome.state),
    tell(h("td", { class: "figure", title: outcome.ratio ? fraction(outcome.ratio) : null }, ratio(outcome.ratio)), outcome.ratio?.decimal, outcome.ratio?.fraction),
    h("td", {}, range ? range.label : offer),
  );
}
