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
  const heads = [say("page-combinations-applied"), say("page-combinations-state"), say("page-ratio")];
  const { node: outcomes, body } = table(say("page-panel-combinations"), heads, [2]);
  const filter = /** @type {HTMLSelectElement} */ (h("select", { id: "states", change: restart }));
  const more = h("button", { class: "plain", type: "button", click: add });
  panel.fill(
    h("p", { class: "filter" }, h("label", { for: "states" }, say("page-combinations-show")), h("span", { class: "select" }, filter)),
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
    filter.replaceChildren(
      h("option", { value: "" }, say("page-combinations-all", { count: all.length })),
      ...STATES.filter(([key]) => counts.has(key)).map(([key, name]) =>
        h("option", { value: key }, say("page-combinations-of", { state: say(name), count: counts.get(key) })),
      ),
    );
    restart();
  }

  function restart() {
    const state = filter.value;
    chosen = (all ?? []).filter((outcome) => !state || outcome.state === state);
    body.replaceChildren();
    add();
  }

  function add() {
    const shown = body.children.length;
    body.append(...chosen.slice(shown, shown + PAGE).map((outcome) => row(desk, outcome)));
    const left = chosen.length - body.children.length;
    more.hidden = left === 0;
    more.textContent = say("page-combinations-more", { count: Math.min(left, PAGE), left });
    mark();
  }

  function mark() {
    const current = desk.answer?.applied.join();
    for (const row of /** @type {Iterable<HTMLElement>} */ (body.children)) {
      if (row.dataset.applied === current) row.setAttribute("aria-current", "true");
      else row.removeAttribute("aria-current");
    }
  }

  function forget() {
    all = undefined;
    build();
  }

  panel.toggled(build);
  follow(desk, ["train"], forget);
  follow(desk, ["answer"], mark);
}

/**
 * @param {Desk} desk
 * @param {Outcome} outcome
 */
function row(desk, outcome) {
  const { applied } = outcome;
  const [, state] = STATES.find(([key]) => key === outcome.state) ?? [];
  const names = applied.join(" ") || say("page-combinations-none");
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
  );
}
