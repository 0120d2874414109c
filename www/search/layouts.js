/** Finding whole layouts for wanted ratios: what is asked, how far the search is, and what it has found. */

import { h } from "../kit/dom.js";
import { large, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { Ahead, duration } from "./ahead.js";
import { beginsByEnter, comesIntoView, foldAway } from "./ask_form.js";
import { Blocking } from "./blocking.js";
import { KeptSearch } from "./kept_search.js";
import { LayoutsForm } from "./layouts_form.js";
import { LayoutsGallery } from "./layouts_gallery.js";
import { LAYOUTS_PARTS } from "./layouts_parts.js";
import { Pace } from "./pace.js";
import { Parts } from "./parts.js";
import { refusals } from "./refusals.js";
import { layoutsWishes } from "./wishes.js";

const HUNDRED = 100;
/** Of how much on it is told how long the rest takes. */
const SOME = 0.01;
/** How a task is run elsewhere. */
const COMMANDS = ["task.json --out layouts.jsonl", "task.json --shard 1/2 --out part-1.jsonl", "--merge part-1.jsonl,part-2.jsonl"].map((options) => `cargo run --release -p levertrain-core --example layouts -- ${options}`);

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, files: import("../state/desk.js").Files, keeps: boolean, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, files, keeps, signal }) {
  const form = new LayoutsForm();
  const gallery = new LayoutsGallery(desk, open);
  const parts = new Parts(LAYOUTS_PARTS, heard, failed);
  const begin = button("layouts-begin", "page-layouts-begin", () => start());
  const rest = button("layouts-rest", "page-find-rest", pause);
  const stop = button("layouts-stop", "page-find-stop", end);
  const progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-find-progress"), hidden: true }));
  const status = h("p", { class: "note", role: "status", "data-part": "layouts-status" });
  const covered = h("p", { class: "note", "data-part": "layouts-covered" });
  const missed = h("p", { class: "note", "data-part": "layouts-missed" });
  const problems = h("ul", { class: "find-problems", role: "alert", "data-part": "layouts-problems" });
  const shown = lockable(desk, "train", gallery.node);
  const kept = new KeptSearch(keeps, "layouts");
  const ahead = new Ahead("layouts", COMMANDS, () => ({ layouts: form.ask() }));
  const pace = new Pace();
  const blocking = new Blocking("layouts-blocking", {
    kind: LAYOUTS_PARTS,
    what: (/** @type {import("./wishes.js").LayoutAsk} */ ask) => ({ ask: JSON.stringify(ask) }),
    some: ({ count }) => count > 0,
    whole: isWhole,
  });
  const resumes = button("layouts-resume", "page-find-resume", goOn);
  const stood = h("p", { class: "row", "data-part": "layouts-stood", hidden: true });
  // Folded once there is something to look at, which then comes up.
  const unfolds = /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (h("details", { class: "find-asked", open: true }, h("summary", {}, say("page-find-asked")), form.node)));
  // What was refused is said until something else is asked.
  form.node.addEventListener("input", () => problems.replaceChildren());
  beginsByEnter(form.node, begin);
  panel.fill(stood, lockable(desk, "train", unfolds, h("p", { class: "row" }, begin, rest, stop, ahead.save)), problems, progress, status, ahead.node, blocking.node, covered, missed, shown);

  let goes = false;
  let rests = false;
  /** Whether it was told how long it takes. */
  let isTold = false;
  /** When it was begun. */
  let begun = 0;
  /** Whether it goes on with what a closed tab left. */
  let resumed = false;
  /** What is asked, as JSON. */
  let words = "";
  offer();
  gallery.clear();
  gallery.node.hidden = true;

  /** Brings a layout onto the stage, and the stage into view. @param {string} text */
  async function open(text) {
    // What is pinned is of another train, which has nothing in common with this one.
    if (desk.pin) await desk.setPin(undefined);
    files.begin(text, say("layout-name"));
    status.textContent = say("page-layouts-opened");
    /** @type {ShadowRoot} */ (panel.node.getRootNode()).host.scrollIntoView({ block: "start" });
  }

  function offer() {
    rest.hidden = stop.hidden = !goes;
    rest.textContent = say(rests ? "page-find-go-on" : "page-find-rest");
    const before = goes ? undefined : kept.of("");
    stood.hidden = !before;
    if (before) stood.replaceChildren(h("span", {}, say("page-layouts-stood", { percent: number(before.part * HUNDRED, 2) })), resumes);
  }

  function forget() {
    parts.end();
    blocking.end();
    goes = rests = isTold = false;
    ahead.clear();
    pace.clear();
    gallery.clear();
    gallery.node.hidden = progress.hidden = true;
    status.textContent = covered.textContent = missed.textContent = "";
    problems.replaceChildren();
  }

  /** @param {import("./kept_search.js").Kept} [before] a search that was begun before */
  function start(before) {
    forget();
    const wrong = form.wrong();
    if (wrong) {
      problems.replaceChildren(h("li", {}, wrong));
      offer();
      comesIntoView(problems);
      return;
    }
    goes = true;
    resumed = Boolean(before);
    status.textContent = say("page-find-begins");
    words = before?.ask ?? JSON.stringify(form.ask());
    begun = performance.now();
    parts.begin({ ask: words }, before?.stands);
    offer();
    comesIntoView(status);
  }

  /** Goes on with what a closed tab left. */
  function goOn() {
    const before = kept.of("");
    if (!before) return;
    try {
      form.put(JSON.parse(before.ask));
    } catch {
      kept.forget();
      offer();
      return;
    }
    start(before);
  }

  function pause() {
    rests = !rests;
    parts.rest(rests);
    if (!rests) ahead.goesOn();
    status.textContent = say(rests ? "page-find-rests" : "page-find-begins");
    offer();
  }

  function end() {
    parts.end();
    kept.forget();
    goes = rests = false;
    progress.hidden = true;
    ahead.clear();
    status.textContent = say("page-find-stopped");
    offer();
    begin.focus();
  }

  /** @param {import("./layouts_parts.js").State} state */
  function heard({ found, done, parts: count, estimate, stands }) {
    progress.hidden = done;
    progress.value = found.progress;
    gallery.node.hidden = found.found.length === 0;
    gallery.show(found.found);
    const counts = { frames: found.frames, layouts: found.layouts, useless: found.useless, toothless: found.toothless };
    // The sample is of the whole; what is gone through tells more once that is some of it.
    const speed = pace.hear({ steps: found.progress, covered: found.frames, estimate: found.progress > SOME ? 1 : undefined, rests: rests || !goes });
    const goesOn = speed?.left === undefined || done ? "" : ` ${say("page-layouts-pace", { rate: large(speed.rate), time: duration(speed.left, 1) })}`;
    covered.textContent = say("page-layouts-covered", Object.fromEntries(Object.entries(counts).map(([name, count]) => [name, number(count, 1)]))) + goesOn;
    const unreached = done && found.count === 0 ? found.unreached.map((at) => form.rangeAt(at)) : [];
    const without = unreached.length > 0 ? say("page-layouts-unreached", { ranges: unreached.join(", ") }) : "";
    missed.textContent = isWhole(found) ? without : say("page-layouts-given-up", { number: number(found.given_up, 1), unended: number(found.unended, 1) });
    const told = { count: found.count, number: number(found.count, 1), percent: number(found.progress * HUNDRED, 3), workers: String(count) };
    const ended = found.full ? "page-layouts-full" : "page-layouts-done";
    if (!rests) status.textContent = say(done ? ended : "page-layouts-goes", told);
    if (done) kept.forget();
    else if (goes && stands) kept.keep({ train: "", ask: words, stands, part: found.progress });
    // So long a search does not go on before somebody says so.
    if (goes && !done && !rests && !isTold && estimate) {
      isTold = true;
      const messages = { short: "page-layouts-ahead", long: "page-layouts-long" };
      const frames = large(Number(estimate.frames.toPrecision(2)));
      if (ahead.tell(estimate.seconds / count, 1, messages, { frames })) {
        pause();
        // It is said why already.
        status.textContent = "";
      }
    }
    if (done) {
      parts.end();
      ahead.clear();
      if (goes && found.count > 0) foldAway(panel.node, unfolds, form.node, begin);
      if (goes && found.count === 0 && isWhole(found)) {
        /** @type {import("./wishes.js").LayoutAsk} */
        const ask = JSON.parse(words);
        void blocking.begin(ask, layoutsWishes(ask, (at) => form.rangeAt(at)), performance.now() - begun);
      }
      goes = rests = false;
      offer();
    }
  }

  /** @param {import("./looking.js").News<import("./layouts_looks.js").Estimate>} news */
  function failed(news) {
    // A place that is none, as one of another version, is of no use: it begins anew. What was asked wrongly leaves one be.
    if (resumed && news.refused !== undefined) {
      kept.forget();
      start();
      return;
    }
    forget();
    problems.replaceChildren(...refusals(news));
    offer();
    comesIntoView(problems);
  }

  let { palette, scale } = desk.settings;
  follow(desk, ["look"], () => {
    const now = desk.settings;
    if (now.palette === palette && now.scale === scale) return;
    ({ palette, scale } = now);
    gallery.redraw();
  });
  signal.addEventListener("abort", () => {
    parts.end();
    blocking.end();
  });
}

/** Whether it has left out nothing that has too many choices, or too many teeth to try. @param {import("./layouts_parts.js").LayoutsReport} found */
function isWhole({ given_up, unended }) {
  return given_up + unended === 0;
}

/** @param {string} part @param {string} words @param {() => void} click */
function button(part, words, click) {
  return h("button", { class: "plain", type: "button", "data-part": part, click }, say(words));
}
