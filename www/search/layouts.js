/** Finding whole layouts for wanted ratios: what is asked, how far the search is, and what it has found. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { LayoutsForm } from "./layouts_form.js";
import { LayoutsGallery } from "./layouts_gallery.js";
import { LayoutsParts } from "./layouts_parts.js";
import { refusals } from "./refusals.js";

const HUNDRED = 100;

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, files: import("../state/desk.js").Files, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, files, signal }) {
  const form = new LayoutsForm();
  const gallery = new LayoutsGallery(desk, open);
  const parts = new LayoutsParts(heard, failed);
  const begin = button("layouts-begin", "page-layouts-begin", start);
  const rest = button("layouts-rest", "page-find-rest", pause);
  const stop = button("layouts-stop", "page-find-stop", end);
  const progress = /** @type {HTMLProgressElement} */ (h("progress", { "aria-label": say("page-find-progress"), hidden: true }));
  const status = h("p", { class: "note", role: "status", "data-part": "layouts-status" });
  const covered = h("p", { class: "note", "data-part": "layouts-covered" });
  const missed = h("p", { class: "note", "data-part": "layouts-missed" });
  const problems = h("ul", { class: "find-problems", role: "alert", "data-part": "layouts-problems" });
  const shown = lockable(desk, "train", gallery.node);
  // Folded once there is something to look at, which then comes up.
  const unfolds = /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (h("details", { class: "find-asked", open: true }, h("summary", {}, say("page-find-asked")), form.node)));
  panel.fill(lockable(desk, "train", unfolds, h("p", { class: "row" }, begin, rest, stop)), problems, progress, status, covered, missed, shown);

  let goes = false;
  let rests = false;
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
  }

  function forget() {
    parts.end();
    goes = rests = false;
    gallery.clear();
    gallery.node.hidden = progress.hidden = true;
    status.textContent = covered.textContent = missed.textContent = "";
    problems.replaceChildren();
  }

  function start() {
    forget();
    goes = true;
    status.textContent = say("page-find-begins");
    parts.begin(JSON.stringify(form.ask()));
    offer();
  }

  function pause() {
    rests = !rests;
    parts.rest(rests);
    status.textContent = say(rests ? "page-find-rests" : "page-find-begins");
    offer();
  }

  function end() {
    parts.end();
    goes = rests = false;
    progress.hidden = true;
    status.textContent = say("page-find-stopped");
    offer();
    begin.focus();
  }

  /** @param {import("./layouts_parts.js").State} state */
  function heard({ found, done, parts: count }) {
    progress.hidden = done;
    progress.value = found.progress;
    gallery.node.hidden = found.found.length === 0;
    gallery.show(found.found);
    const counts = { frames: found.frames, layouts: found.layouts, useless: found.useless, toothless: found.toothless };
    covered.textContent = say("page-layouts-covered", Object.fromEntries(Object.entries(counts).map(([name, count]) => [name, number(count, 1)])));
    const isWhole = found.given_up + found.unended === 0;
    missed.textContent = isWhole ? "" : say("page-layouts-given-up", { number: number(found.given_up, 1), unended: number(found.unended, 1) });
    const words = { count: found.count, number: number(found.count, 1), percent: number(found.progress * HUNDRED, 3), workers: String(count) };
    const ended = found.full ? "page-layouts-full" : "page-layouts-done";
    if (!rests) status.textContent = say(done ? ended : "page-layouts-goes", words);
    if (done) {
      if (goes && found.count > 0) unfolds.open = false;
      goes = rests = false;
      offer();
    }
  }

  /** @param {import("./layouts_looking.js").News} news */
  function failed(news) {
    forget();
    problems.replaceChildren(...refusals(news));
    offer();
  }

  let { palette, scale } = desk.settings;
  follow(desk, ["look"], () => {
    const now = desk.settings;
    if (now.palette === palette && now.scale === scale) return;
    ({ palette, scale } = now);
    gallery.redraw();
  });
  signal.addEventListener("abort", () => parts.end());
}

/** @param {string} part @param {string} words @param {() => void} click */
function button(part, words, click) {
  return h("button", { class: "plain", type: "button", "data-part": part, click }, say(words));
}
