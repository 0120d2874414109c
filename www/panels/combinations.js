/** Every combination of elements, made when it is looked at. */

import { h } from "../kit/dom.js";
import { tellLack, tellRows } from "../kit/known.js";
import { RowsInSight } from "../kit/rows_in_sight.js";
import { table } from "../kit/table.js";
import { listed as inWords, say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { Outcomes, STATES } from "../work/outcomes.js";
import { Walker } from "../work/walk.js";
import { CombinationBar, stoppedWords } from "./combination_bar.js";
import { list } from "./combination_order.js";
import { mark, numberIn, row } from "./combination_row.js";

/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */

/** What the rows can be ordered by, with its message. @type {[string, string][]} */
const ORDERS = [
  ["counting", "page-combinations-by-counting"],
  ["ratio", "page-combinations-by-ratio"],
  ["state", "page-combinations-by-state"],
  ["applied", "page-combinations-by-applied"],
  ["changes", "page-combinations-by-changes"],
];

/** So many elements are asked about without being unfolded. */
const FEW = 8;

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
  const { node: grid, body } = table(say("page-panel-combinations"), heads, [2]);
  const filter = /** @type {HTMLSelectElement} */ (h("select", { id: "states", change: () => restart() }));
  const order = choice("order", ORDERS, () => arrange(order.value, false));
  const elements = h("div", { class: "filter wanted", role: "group", "aria-label": say("page-combinations-elements") });
  const summary = h("summary");
  const asking = /** @type {HTMLDetailsElement} */ (h("details", {}, summary, elements));
  const count = h("p", { class: "note", role: "status" });
  const bar = new CombinationBar({ stop, goOn: () => walk() });
  const box = h("div", { class: "scroll tall bench" }, grid);
  const rows = new RowsInSight(box, body, heads.length, shown, signal);
  panel.fill(
    h("p", { class: "filter" }, labelled(say("page-combinations-show"), filter), labelled(say("page-combinations-order"), order)),
    asking,
    count,
    bar.node,
    box,
  );
  const walker = new Walker(desk);
  /** Ends the walk that is under way. @type {AbortController | undefined} */
  let walking;
  /** @type {Outcomes | undefined} */
  let outcomes;
  /** The numbers of the rows, in order. @type {Uint32Array} */
  let listed = new Uint32Array();
  let descending = false;
  /** Whether the rows are those of the train before, which nobody can use. */
  let stale = false;
  /** The row that gets the focus once it is there. @type {number | undefined} */
  let wanted;

  tellLack(grid, () => (outcomes && !outcomes.complete ? stoppedWords(outcomes) : ""));
  tellRows(grid, () => {
    const all = outcomes;
    if (!all) return [];
    return [...listed].map((number) => row(desk, all, number));
  });

  /** @param {number} index */
  function shown(index) {
    const number = listed[index];
    const own = /** @type {Outcomes} */ (outcomes);
    return mark(row(desk, own, number, take), own, now());
  }

  /** The number of the combination on screen. */
  function now() {
    return outcomes?.numberOf(desk.answer?.applied ?? []) ?? 0;
  }

  /** Lists the combinations of the train on screen while the panel is unfolded. */
  function build() {
    if (!panel.open || !desk.info || !desk.isWhole) {
      halt();
      walker.rest();
      return;
    }
    if (outcomes?.text === desk.text) {
      if (!outcomes.complete && !walking) walk();
      return;
    }
    halt();
    const stays = desk.editing && outcomes !== undefined;
    outcomes = new Outcomes(desk);
    offerElements();
    if (!stays) asking.open = outcomes.elements.length <= FEW;
    if (walker.atOnce(outcomes)) {
      finish(stays);
      return;
    }
    offerStates();
    if (stays) wanted ??= focused();
    else restart();
    walk(stays);
  }

  /**
   * Goes on looking at combinations. What is found is listed as it comes, unless that would change the order of
   * rows, or an edit has put them in the place of others.
   * @param {boolean} [stays] whether the rows of before stay until all are there
   */
  async function walk(stays = false) {
    const own = (walking = new AbortController());
    const all = /** @type {Outcomes} */ (outcomes);
    stale = box.inert = stays;
    let waits = false;
    count.textContent = "";
    bar.begin();
    bar.tell(all, listed.length);
    await walker.goOn(all, () => {
      if (waits) return;
      waits = true;
      requestAnimationFrame(() => {
        waits = false;
        if (own.signal.aborted || all.complete) return;
        if (!stale && order.value === "counting") extend();
        bar.tell(all, listed.length);
      });
    }, own.signal);
    if (own.signal.aborted) return;
    walking = undefined;
    if (all.complete) finish(true);
    else stop();
  }

  /** Ends the walk that is under way. */
  function halt() {
    walking?.abort();
    walking = undefined;
  }

  /** Lists what has been found, and offers to go on. */
  function stop() {
    halt();
    if (!outcomes) return;
    finish(true);
    bar.stop();
    bar.tell(outcomes, listed.length);
  }

  /** @param {boolean} stays whether the same places stay in sight */
  function finish(stays) {
    const before = stale ? undefined : focused();
    stale = box.inert = false;
    if (bar.end()) wanted ??= 0;
    offerStates();
    restart(stays);
    focus(wanted ?? before);
    wanted = undefined;
  }

  /** Offers the states there are, with their numbers once all are known. */
  function offerStates() {
    if (!outcomes) return;
    const { complete, tally } = outcomes;
    const state = filter.value;
    const there = STATES.flatMap(([key, name], at) => {
      if (complete && tally[at + 1] === 0) return [];
      return h("option", { value: key }, complete ? say("page-combinations-of", { state: say(name), count: tally[at + 1] }) : say(name));
    });
    const all = complete ? say("page-combinations-all", { count: outcomes.known - tally[0] }) : say("page-combinations-any");
    filter.replaceChildren(h("option", { value: "" }, all), ...there);
    if (there.some((option) => option.getAttribute("value") === state)) filter.value = state;
  }

  function offerElements() {
    const kept = asked();
    elements.replaceChildren(...(desk.info?.elements ?? []).map(({ id }) => {
      const select = choice(`wanted-${id}`, WANTED, () => restart());
      select.dataset.element = id;
      select.value = kept.get(id) ?? "";
      return labelled(id, select, desk.elementLabel(id));
    }));
  }

  /** What is asked of the elements. @returns {Map<string, string>} */
  function asked() {
    const selects = /** @type {Iterable<HTMLSelectElement>} */ (elements.querySelectorAll("select"));
    return new Map([...selects].map(({ dataset, value }) => [dataset.element ?? "", value]));
  }

  /** Says what is asked of the elements, also where that is folded. */
  function tellAsked() {
    const wishes = [...asked()].flatMap(([element, value]) => {
      if (!value) return [];
      return say(value === "applied" ? "page-combinations-asked-applied" : "page-combinations-asked-open", { element });
    });
    summary.textContent = wishes.length > 0 ? say("page-combinations-asked", { wishes: inWords(wishes) }) : say("page-combinations-asked-none");
  }

  /** @param {string} what is asked of the elements, as the bits of which it is */
  function bits(what) {
    return outcomes?.numberOf([...asked()].filter(([, value]) => value === what).map(([id]) => id)) ?? 0;
  }

  /** Chooses and orders what has been found. */
  function choose() {
    if (!outcomes) return;
    listed = list(outcomes, {
      state: STATES.findIndex(([key]) => key === filter.value) + 1,
      applied: bits("applied"),
      open: bits("open"),
      order: order.value,
      descending,
      now: now(),
    });
    grid.setAttribute("aria-rowcount", `${listed.length + 1}`);
    if (!walking) count.textContent = say("page-combinations-count", { count: listed.length });
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
    tellAsked();
    for (const button of /** @type {Iterable<HTMLElement>} */ (grid.querySelectorAll("[data-order]"))) {
      const head = button.parentElement;
      if (button.dataset.order === order.value) head?.setAttribute("aria-sort", descending ? "descending" : "ascending");
      else head?.removeAttribute("aria-sort");
    }
    // They come all together.
    if (stale) return;
    choose();
    rows.reset(listed.length, stays);
  }

  /** Puts what has been found since then at the end. */
  function extend() {
    choose();
    rows.extend(listed.length);
  }

  /**
   * Makes a range of a row. That makes the list anew, which stays where it is with the focus in its row.
   * @param {number} number
   */
  function take(number) {
    wanted = number;
    const applied = outcomes?.appliedIn(number) ?? [];
    try {
      desk.edit({ edit: "add-range", label: "", applied });
    } catch (error) {
      // As where there are as many ranges as can be.
      wanted = undefined;
      desk.report(error);
    }
  }

  /** The combination of the row that has the focus. */
  function focused() {
    const pressed = /** @type {HTMLElement | null} */ (body.querySelector("tr:focus-within"));
    return pressed ? numberIn(pressed) : undefined;
  }

  /** @param {number | undefined} number the combination of the row that gets the focus */
  function focus(number) {
    const index = number === undefined ? -1 : listed.indexOf(number);
    if (index >= 0) rows.focus(index);
  }

  function follows() {
    if (stale || !outcomes) return;
    if (order.value !== "changes" || walking) {
      for (const node of rows.shown) mark(node, outcomes, now());
      return;
    }
    // The row that was pressed moves to the top, and the focus with it.
    const pressed = focused();
    restart();
    focus(pressed);
  }

  panel.toggled(build);
  follow(desk, ["train", "lock"], build);
  follow(desk, ["answer"], follows);
  signal.addEventListener("abort", () => {
    halt();
    walker.rest();
  });
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
