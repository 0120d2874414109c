/** Every combination of elements, made when it is looked at. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, ratio } from "../kit/format.js";
import { tell, tellRows } from "../kit/known.js";
import { RowsInSight } from "../kit/rows_in_sight.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { oneChange, sort, STATES } from "./combination_order.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Outcome} Outcome */

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

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const heads = [
    heading("applied", say("page-combinations-applied")),
    heading("state", say("page-combinations-state")),
    heading("ratio", say("page-ratio")),
    say("page-chart-range"),
  ];
  const { node: outcomes, body } = table(say("page-panel-combinations"), heads, [2]);
  const filter = /** @type {HTMLSelectElement} */ (h("select", { id: "states", change: () => restart() }));
  const order = choice("order", ORDERS, () => arrange(order.value, false));
  const elements = h("div", { class: "filter wanted", role: "group", "aria-label": say("page-combinations-elements") });
  const count = h("p", { class: "note", role: "status" });
  const box = h("div", { class: "scroll tall bench" }, outcomes);
  const rows = new RowsInSight(box, body, heads.length, (index) => mark(row(desk, chosen[index], take)), signal);
  panel.fill(
    h("p", { class: "filter" }, labelled(say("page-combinations-show"), filter), labelled(say("page-combinations-order"), order)),
    elements,
    count,
    box,
  );
  /** @type {Outcome[] | undefined} */
  let all;
  /** @type {Outcome[]} */
  let chosen = [];
  let descending = false;

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
      const select = choice(`wanted-${id}`, WANTED, () => restart());
      select.dataset.element = id;
      select.value = kept.get(id) ?? "";
      return labelled(id, select, desk.elementLabel(id));
    }));
    restart(desk.editing);
  }

  /** What is asked of the elements. @returns {Map<string, string>} */
  function wanted() {
    const selects = /** @type {Iterable<HTMLSelectElement>} */ (elements.querySelectorAll("select"));
    return new Map([...selects].map(({ dataset, value }) => [dataset.element ?? "", value]));
  }

  /**
   * @param {string} key
   * @param {string} words
   */
  function heading(key, words) {
    const press = () => arrange(key, order.value === key && !descending);
    return h("button", { class: "bare sorts", type: "button", "data-order": key, click: press }, words);
  }

  /**
   * Puts the rows in another order, or the same the other way round.
   * @param {string} key
   * @param {boolean} down
   */
  function arrange(key, down) {
    order.value = key;
    descending = down;
    restart();
  }

  function restart(stays = false) {
    const state = filter.value;
    const asked = [...wanted()].filter(([, value]) => value);
    chosen = (all ?? []).filter(
      (outcome) =>
        (!state || outcome.state === state) &&
        asked.every(([id, value]) => outcome.applied.includes(id) === (value === "applied")),
    );
    sort(chosen, order.value, descending, desk.answer?.applied ?? []);
    for (const button of /** @type {Iterable<HTMLElement>} */ (outcomes.querySelectorAll("[data-order]"))) {
      const head = button.parentElement;
      if (button.dataset.order === order.value) head?.setAttribute("aria-sort", descending ? "descending" : "ascending");
      else head?.removeAttribute("aria-sort");
    }
    count.textContent = say("page-combinations-count", { count: chosen.length });
    outcomes.setAttribute("aria-rowcount", `${chosen.length + 1}`);
    rows.reset(chosen.length, stays);
  }

  /**
   * Marks a row that is on screen, and one that is one change away from it.
   * @param {HTMLElement} row
   */
  function mark(row) {
    const now = desk.answer?.applied;
    if (row.dataset.applied === now?.join()) row.setAttribute("aria-current", "true");
    else row.removeAttribute("aria-current");
    row.querySelector(".does")?.remove();
    const step = now && oneChange(now, applied(row));
    if (step) row.querySelector("button")?.append(h("span", { class: "does", "data-change": step.element }, say(step.message, { element: step.element })));
    return row;
  }

  /**
   * Makes a range of a row. That makes the list anew, which stays where it is with the focus in its row.
   * @param {string[]} elements
   */
  function take(elements) {
    desk.edit({ edit: "add-range", label: "", applied: elements });
    focus(elements.join());
  }

  /** @param {string | undefined} key the elements of the row that gets the focus */
  function focus(key) {
    const index = chosen.findIndex((outcome) => outcome.applied.join() === key);
    if (index >= 0) rows.focus(index);
  }

  function follows() {
    if (order.value !== "changes") {
      for (const row of rows.shown) mark(row);
      return;
    }
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
        h("span", {}, names),
      ),
    ),
    h("td", { title: state ? say(state) : null }, state ? say(state) : outcome.state),
    tell(h("td", { class: "figure", title: outcome.ratio ? fraction(outcome.ratio) : null }, ratio(outcome.ratio)), outcome.ratio?.decimal, outcome.ratio?.fraction),
    h("td", {}, range ? range.label : offer),
  );
}
