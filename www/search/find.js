/** Finding teeth for wanted ratios: what is asked, how far the search is, and what it has found. */

import { h } from "../kit/dom.js";
import { large, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { Pin } from "../state/pin.js";
import { Ahead, duration } from "./ahead.js";
import { AskForm, comesIntoView } from "./ask_form.js";
import { Blocking } from "./blocking.js";
import { keyOf } from "./finds_columns.js";
import { FindsPlot } from "./finds_plot.js";
import { FindsTable } from "./finds_table.js";
import { KeptSearch } from "./kept_search.js";
import { Running, button } from "./running.js";
import { teethParts } from "./teeth_parts.js";
import { teethWishes } from "./wishes.js";

/** @typedef {import("../engine/levertrain.js").Find} Find */

const HUNDRED = 100;
/** More is not asked for, in percent. */
const MOST_PERCENT = 50;
/** How a task is run elsewhere. */
const COMMANDS = ["--out finds.jsonl", "--shard 1/2 --out part-1.jsonl", "--merge part-1.jsonl,part-2.jsonl"].map((options) => `cargo run --release -p levertrain-core --example search -- task.json ${options}`);
/** How often what was found so far is shown, in milliseconds: the page has other things to draw. */
const SHOW_MS = 1000;

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, redraw(): void, draws(draw: () => void): void, keeps: boolean, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, redraw, draws, keeps, signal }) {
  const form = new AskForm(desk);
  const finds = new FindsTable(desk, show, signal);
  const plot = new FindsPlot(desk, show, redraw, signal);
  const covered = h("p", { class: "note", "data-part": "find-covered" });
  const keep = button("find-keep", say("page-find-take"), () => settle(false));
  const back = button("find-back", say("page-find-back"), () => settle(true));
  const tried = h("span");
  // Over the list, however long that is, and always there, so that no row moves as one is pressed.
  const results = h("div", { class: "find-results", hidden: true }, h("p", { class: "row find-tried" }, tried, keep, back), plot.node, finds.node);
  const ahead = new Ahead("find", COMMANDS, () => ({ train: JSON.parse(desk.text), ask: form.ask() }));
  const nothing = h("p", { class: "note" }, say("page-find-none"));
  const wider = button("find-wider", "", () => widen(false));
  const nearest = button("find-nearest", say("page-find-nearest"), () => widen(true));
  const widening = h("p", { class: "row", hidden: true }, wider, nearest);
  const blocking = new Blocking("find-blocking", {
    kind: teethParts(),
    // What comes first will do.
    what: (/** @type {import("./wishes.js").Ask} */ ask) => ({ train: asked, ask: JSON.stringify({ ...ask, wanted: wantedOf(ask), best: ["error"] }) }),
    some: ({ finds }) => finds.length > 0,
    whole: () => true,
  });
  const running = new Running(panel.node, {
    id: "find",
    begins: say("page-find-begin"),
    stood: (part) => say("page-find-stood", { percent: number(part * HUNDRED, 3) }),
    kind: teethParts(),
    kept: new KeptSearch(keeps, "search"),
    about: () => asked ?? desk.text,
    mayGoOn: () => !shown && asked === undefined,
    form,
    ahead,
    blocking,
    begin(ask, words) {
      asked = desk.text;
      plot.begin(ask.best);
      finds.begin(ask.best);
      return { train: asked, ask: words };
    },
    forget,
    offer,
    hear,
  });
  const asking = lockable(desk, "train", ...running.asks);
  panel.fill(nothing, running.stood, asking, running.problems, running.progress, running.status, ahead.node, blocking.node, widening, covered, results);

  /** The text of the train that was asked about. @type {string | undefined} */
  let asked;
  /** The text that the form was built for. @type {string | undefined} */
  let built;
  /** The find on the stage. @type {Find | undefined} */
  let shown;
  /** What it is compared with, where nothing was pinned. @type {Pin | undefined} */
  let compared;
  /** How many steps there were to take back before it came. */
  let steps = 0;
  /** Whether all was looked through, and nothing is so near to what is wanted. */
  let nothingFound = false;
  /** Whether it looks again, ever wider, until there is something. */
  let widensOn = false;
  /** When the finds were shown last. */
  let shownAt = -SHOW_MS;

  /** Looks again where twice as much may be off. @param {boolean} on whether it does so until there is something */
  function widen(on) {
    form.tolerance = Math.min(2 * form.tolerance, MOST_PERCENT);
    running.start();
    widensOn = on;
  }

  function stepsNow() {
    return desk.sheet?.undo ?? 0;
  }

  function build() {
    if (!panel.open || !desk.info || shown) return;
    if (built !== desk.text) {
      built = desk.text;
      // An edit of the train leaves what is wanted of its ranges.
      form.build(desk.editing);
      nothing.hidden = form.ranges > 0;
      asking.hidden = form.ranges === 0;
      if (asked !== undefined && asked !== desk.text) running.forget();
    }
    running.offer();
  }

  /** What was found is of another train, or something else is asked. */
  function forget() {
    nothingFound = widensOn = false;
    asked = undefined;
    finds.show([]);
    plot.show([], undefined);
    shownAt = -SHOW_MS;
    results.hidden = true;
    covered.textContent = "";
  }

  function offer() {
    tried.textContent = say(shown ? "page-find-tried" : "page-find-try");
    keep.disabled = back.disabled = !shown;
    running.begin.disabled = Boolean(shown);
    const percent = Math.min(2 * form.tolerance, MOST_PERCENT);
    widening.hidden = running.goes || !nothingFound || !(percent > form.tolerance);
    wider.textContent = say("page-find-wider", { percent: number(percent, percent < 1 ? 3 : 2) });
  }

  /** @param {import("./teeth_parts.js").State} state */
  function hear(state) {
    const { found, done, parts: count, estimate } = state;
    const { candidates, outside, beaten, tried: one, boxes, finds: list, full, present } = found;
    const part = candidates > 0 ? (outside + beaten + one) / candidates : 1;
    results.hidden = list.length === 0;
    const now = performance.now();
    if (done || running.rests || now > shownAt + SHOW_MS) {
      shownAt = now;
      finds.show(list, !done && !running.rests);
      plot.show(list, present ?? undefined);
    }
    const values = { all: large(candidates), outside: large(outside), beaten: large(beaten), tried: large(one) };
    const speed = running.speed(boxes, outside + beaten + one, estimate);
    const goesOn = speed?.left === undefined || done ? "" : ` ${say("page-find-pace", { rate: large(speed.rate), time: duration(speed.left, 1) })}`;
    covered.textContent = say("page-find-covered", values) + goesOn;
    const told = { count: list.length, number: number(list.length, 1), percent: number(part * HUNDRED, 3) };
    running.tell(state, part, done ? say(full ? "page-find-full" : "page-find-done", told) : say("page-find-goes", { ...told, workers: String(count) }));
    // So long a search does not go on before somebody says so.
    if (running.goes && !done && speed?.isFirst && isLong(speed.left ?? 0, estimate ?? 0, candidates)) running.waits();
    if (!done) return;
    nothingFound = list.length === 0 && !full;
    running.ended(list.length > 0);
    if (nothingFound && widensOn && !widening.hidden) widen(true);
    else if (nothingFound) {
      const labelOf = (/** @type {string} */ id) => desk.chart()?.ranges.find((range) => range.id === id)?.label ?? id;
      running.blocked(teethWishes(running.ask, labelOf));
      comesIntoView(widening.hidden ? running.status : widening);
    }
  }

  /** Tells how long it will take. @param {number} seconds @param {number} boxes @param {number} candidates */
  function isLong(seconds, boxes, candidates) {
    return ahead.tell(seconds, 2, { short: "page-find-ahead", long: "page-find-long" }, { candidates: large(candidates), boxes: large(boxes) });
  }

  /** Shows the train of a find on the stage, beside the one that was asked about. @param {Find} find */
  async function show(find) {
    const first = !shown;
    if (shown && keyOf(shown) === keyOf(find)) return;
    try {
      if (first && !desk.pinned.pin && desk.answer && desk.info) {
        compared = new Pin({ text: desk.text, applied: desk.answer.applied, name: say("page-find-before", { train: desk.info.name }) });
        await desk.pinned.set(compared);
      }
      if (first) steps = stepsNow();
      shown = find;
      desk.edit({ edit: "cut-sets", sets: find.sets }, !first);
      finds.mark(find);
      plot.mark(find);
    } catch (error) {
      shown = first ? undefined : shown;
      desk.report(error);
    }
    running.offer();
  }

  /** Keeps the train on the stage, or takes it back. @param {boolean} takesBack */
  function settle(takesBack) {
    // A find may be the very train that was there: then there is no step to take back.
    if (takesBack && stepsNow() > steps) desk.undo();
    // It would be compared with itself.
    if (takesBack && compared && desk.pinned.pin === compared) void desk.pinned.set(undefined);
    compared = undefined;
    shown = undefined;
    finds.mark(undefined);
    plot.mark(undefined);
    // What is wanted and what was found stay there to go on with.
    built = asked = desk.text;
    form.tellRatios();
    running.offer();
    running.begin.focus();
  }

  draws(() => panel.open && !results.hidden && plot.draw());
  panel.toggled(build);
  follow(desk, ["train", "whole"], () => {
    // Another train, or a step back, ends the trying.
    if (shown && !desk.editing) shown = undefined;
    build();
  });
  signal.addEventListener("abort", () => running.leave());
}

/** The ranges of which something is wanted, or which have a place among steps: as the form asks where fields are empty. @param {import("./wishes.js").Ask} ask */
function wantedOf({ wanted, spread, steps }) {
  return wanted.filter(({ ratio, efficiency }) => spread || steps || ratio !== undefined || efficiency !== undefined);
}
