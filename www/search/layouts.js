/** Finding whole layouts for wanted ratios: what is asked, how far the search is, and what it has found. */

import { h } from "../kit/dom.js";
import { large, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { Ahead, duration } from "./ahead.js";
import { Blocking } from "./blocking.js";
import { KeptSearch } from "./kept_search.js";
import { LayoutsForm } from "./layouts_form.js";
import { LayoutsGallery } from "./layouts_gallery.js";
import { LAYOUTS_PARTS } from "./layouts_parts.js";
import { Running } from "./running.js";
import { layoutsWishes } from "./wishes.js";

const HUNDRED = 100;
/** Of how much on it is told how long the rest takes. */
const SOME = 0.01;
/** How a task is run elsewhere. */
const COMMANDS = ["task.json --out layouts.jsonl", "task.json --shard 1/2 --out part-1.jsonl", "--merge part-1.jsonl,part-2.jsonl"].map((options) => `cargo run --release -p levertrain-core --example layouts -- ${options}`);

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, files: import("../state/kept_files.js").Files, keeps: boolean, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, files, keeps, signal }) {
  const form = new LayoutsForm();
  const gallery = new LayoutsGallery(desk, open);
  const covered = h("p", { class: "note", "data-part": "layouts-covered" });
  const missed = h("p", { class: "note", "data-part": "layouts-missed" });
  const shown = lockable(desk, "train", gallery.node);
  const ahead = new Ahead("layouts", COMMANDS, () => ({ layouts: form.ask() }));
  const blocking = new Blocking("layouts-blocking", {
    kind: LAYOUTS_PARTS,
    what: (/** @type {import("./wishes.js").LayoutAsk} */ ask) => ({ ask: JSON.stringify(ask) }),
    some: ({ count }) => count > 0,
    whole: isWhole,
  });
  const running = new Running(panel.node, {
    id: "layouts",
    begins: say("page-layouts-begin"),
    stood: (part) => say("page-layouts-stood", { percent: number(part * HUNDRED, 2) }),
    kind: LAYOUTS_PARTS,
    kept: new KeptSearch(keeps, "layouts"),
    about: () => "",
    mayGoOn: () => true,
    form,
    ahead,
    blocking,
    begin: (_, words) => ({ ask: words }),
    forget,
    offer: () => {},
    hear,
  });
  panel.fill(running.stood, lockable(desk, "train", ...running.asks), running.problems, running.progress, running.status, ahead.node, blocking.node, covered, missed, shown);

  /** Whether it was told how long it takes. */
  let isTold = false;
  running.offer();
  forget();

  /** Brings a layout onto the stage, and the stage into view. @param {string} text */
  async function open(text) {
    // What is pinned is of another train, which has nothing in common with this one.
    if (desk.pinned.pin) await desk.pinned.set(undefined);
    files.begin(text, say("layout-name"));
    running.status.textContent = say("page-layouts-opened");
    /** @type {ShadowRoot} */ (panel.node.getRootNode()).host.scrollIntoView({ block: "start" });
  }

  function forget() {
    isTold = false;
    gallery.clear();
    gallery.node.hidden = true;
    covered.textContent = missed.textContent = "";
  }

  /** @param {import("./layouts_parts.js").State} state */
  function hear(state) {
    const { found, done, parts: count, estimate } = state;
    gallery.node.hidden = found.found.length === 0;
    gallery.show(found.found);
    const counts = { frames: found.frames, layouts: found.layouts, useless: found.useless, toothless: found.toothless };
    // The sample is of the whole; what is gone through tells more once that is some of it.
    const speed = running.speed(found.progress, found.frames, found.progress > SOME ? 1 : undefined);
    const goesOn = speed?.left === undefined || done ? "" : ` ${say("page-layouts-pace", { rate: large(speed.rate), time: duration(speed.left, 1) })}`;
    covered.textContent = say("page-layouts-covered", Object.fromEntries(Object.entries(counts).map(([name, count]) => [name, number(count, 1)]))) + goesOn;
    const unreached = done && found.count === 0 ? found.unreached.map((at) => form.rangeAt(at)) : [];
    const without = unreached.length > 0 ? say("page-layouts-unreached", { ranges: unreached.join(", ") }) : "";
    missed.textContent = isWhole(found) ? without : say("page-layouts-given-up", { number: number(found.given_up, 1), unended: number(found.unended, 1) });
    const told = { count: found.count, number: number(found.count, 1), percent: number(found.progress * HUNDRED, 3), workers: String(count) };
    const ended = found.full ? "page-layouts-full" : "page-layouts-done";
    running.tell(state, found.progress, say(done ? ended : "page-layouts-goes", told));
    // So long a search does not go on before somebody says so.
    if (running.goes && !done && !running.rests && !isTold && estimate) {
      isTold = true;
      const messages = { short: "page-layouts-ahead", long: "page-layouts-long" };
      const frames = large(Number(estimate.frames.toPrecision(2)));
      if (ahead.tell(estimate.seconds / count, 1, messages, { frames })) running.waits();
    }
    if (!done) return;
    running.ended(found.count > 0);
    if (found.count === 0 && isWhole(found)) running.blocked(layoutsWishes(running.ask, (at) => form.rangeAt(at)));
  }

  let { palette, scale } = desk.settings;
  follow(desk, ["look"], () => {
    const now = desk.settings;
    if (now.palette === palette && now.scale === scale) return;
    ({ palette, scale } = now);
    gallery.redraw();
  });
  signal.addEventListener("abort", () => running.leave());
}

/** Whether it has left out nothing that has too many choices, or too many teeth to try. @param {import("./layouts_parts.js").LayoutsReport} found */
function isWhole({ given_up, unended }) {
  return given_up + unended === 0;
}
