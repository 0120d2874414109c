/**
 * What is on stage for a class: full screen, in letters for the back row, one key for the next range or step, and
 * what the class is to find out itself hidden. A site has it as a file of its own, with words and styles of its own.
 */

import { h, icon, unseen } from "../kit/dom.js";
import { rootedAt } from "../kit/site.js";
import { addStyles } from "../kit/sheets.js";
import { say, speakWith, voice as ownVoice } from "../kit/words.js";
import { takeDigits } from "../stage/digits.js";
import { ClassStage } from "./in_class_stage.js";
import { Course } from "./in_class_course.js";
import { Told } from "./in_class_told.js";

/** @typedef {import("../state/desk.js").Desk} Desk */

const STYLES = "css/in_class.css";
/** What can be hidden. */
const PARTS = /** @type {const} */ (["ratio", "words", "numbers"]);
/** Keys that go on or back: those of a presenter's remote among them. @type {Record<string, number>} */
const WAYS = { ArrowRight: 1, " ": 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 };
/** Keys that point at the next member or the one before. @type {Record<string, number>} */
const POINTS = { ArrowDown: 1, ArrowUp: -1 };
/** The key that keeps the member lit that is pointed at, and lets it go. */
const KEEP = "Enter";

/** @typedef {typeof PARTS[number]} Part */
/** @typedef {{ root: ShadowRoot, voice: typeof ownVoice, signal: AbortSignal, ended(): void }} Page */

/**
 * Shows it.
 * @param {Desk} desk in the whole engine
 * @param {Page} page
 * @returns {Promise<{ draw(changed: boolean): void }>}
 */
export async function show(desk, page) {
  rootedAt(new URL("../element.js", import.meta.url).href);
  // Where modules are not put together, the words are the page's.
  if (page.voice !== ownVoice) speakWith(page.voice);
  if (!(await addStyles(page.root, STYLES))) throw new Error(STYLES);
  const view = new View(desk, page);
  await view.open();
  return view;
}

class View {
  #desk;
  #page;
  /** @type {Set<Part>} */
  #hidden = new Set();
  #told;
  #stage;
  #course;
  #node;
  #ends = new AbortController();
  /** Whether the screen was filled for it. */
  #filled = false;
  /** What the page behind says of its own scrolling. */
  #scrolls = "";
  /** What was lit before. */
  #before;
  /** @type {Map<Part, HTMLElement>} */
  #hides = new Map();
  #showAll;
  /** @type {HTMLElement[]} */
  #ways;

  /** @param {Desk} desk @param {Page} page */
  constructor(desk, page) {
    this.#desk = desk;
    this.#page = page;
    this.#before = desk.told;
    const { signal } = this.#ends;
    this.#told = new Told(desk, this.#hidden, signal);
    // Any speed gives the ratio away.
    this.#stage = new ClassStage(desk, () => this.#hidden.has("numbers") || this.#hidden.has("ratio"), (kept) => this.#told.keep(kept), signal);
    this.#course = new Course(desk, (step) => this.#told.tell(step), (step) => this.#told.fits(step), signal);
    const button = (/** @type {string} */ part, /** @type {string} */ words, /** @type {() => void} */ click, /** @type {string} */ key, /** @type {Node[]} */ content = [document.createTextNode(words)]) =>
      h("button", { class: "plain", type: "button", "data-part": part, title: say("page-class-by-key", { words, key }), "aria-keyshortcuts": key, click }, ...content);
    const go = (/** @type {string} */ part, /** @type {string} */ words, /** @type {number} */ by, /** @type {string} */ look, /** @type {string} */ key) =>
      button(part, words, () => this.#course.go(by), key, [icon(look), unseen(words)]);
    this.#ways = /** @type {const} */ (["ranges", "steps"]).map((way) => {
      const words = say("page-class-way-name", { way });
      return button(`class-${way}`, words, () => this.#follow(way), say("page-class-key", { part: "steps" }));
    });
    for (const part of PARTS) {
      const words = say("page-class-part", { part });
      this.#hides.set(part, button(`class-${part}`, words, () => this.#toggle(part), say("page-class-key", { part })));
    }
    this.#showAll = button("class-show", say("page-class-show"), () => this.#toggle(), say("page-class-key", { part: "all" }));
    const hide = say("page-class-hide");
    const bar = h(
      "div",
      { class: "class-bar", role: "group", "aria-label": say("page-class-bar") },
      h("div", { class: "joined" }, go("class-back", say("page-class-back"), -1, "backward", "PageUp"), go("class-next", say("page-class-next"), 1, "forward", "PageDown")),
      h("div", { class: "joined", role: "group", "aria-label": say("page-class-way") }, ...this.#ways),
      h("div", { class: "class-hides", role: "group", "aria-label": hide }, h("span", { "aria-hidden": "true" }, hide), h("div", { class: "joined" }, ...this.#hides.values()), this.#showAll),
      button("class-end", say("page-class-end"), () => this.#end(), say("page-key-escape")),
    );
    const title = h("h2", { class: "unseen", id: "class-title" }, say("page-class-of", { train: desk.info?.name ?? "" }));
    this.#node = /** @type {HTMLDialogElement} */ (
      h("dialog", { class: "in-class", "aria-labelledby": title.id, "data-part": "class" }, title, this.#told.top, this.#stage.node, this.#told.line, this.#told.status, bar)
    );
    takeDigits(desk, this.#node);
    this.#node.addEventListener("keydown", (event) => this.#key(event));
    this.#node.addEventListener("cancel", (event) => {
      event.preventDefault();
      // That key gives up what is being dragged first, and lets go what was kept lit.
      if (this.#stage.kept) this.#stage.keep(undefined);
      else if (!desk.preview) this.#end();
    });
    // A button that was pressed by hand leaves the keys to the drawings: Space is the next range again.
    bar.addEventListener("click", ({ detail }) => detail > 0 && this.#stage.node.focus({ preventScroll: true }));
    document.addEventListener("fullscreenchange", () => this.#filled && !document.fullscreenElement && this.#end(), { signal });
    page.signal.addEventListener("abort", () => this.#end(), { signal });
    desk.addEventListener("veil", () => this.#end(), { signal });
    this.#follow("ranges");
    this.#mark();
  }

  /** Fills the screen, or the window where the browser does not let it. */
  async open() {
    const { root } = this.#page;
    const place = document.fullscreenElement ? undefined : root.host;
    try {
      await place?.requestFullscreen({ navigationUI: "hide" });
      this.#filled = place !== undefined && document.fullscreenElement !== null;
      // Where the browser lets it, Escape is heard here before it leaves the full screen.
      if (this.#filled) await /** @type {any} */ (navigator).keyboard?.lock?.(["Escape"]);
    } catch {
      this.#filled = false;
    }
    root.querySelector(".ground")?.append(this.#node);
    // The page behind needs no bar to scroll it by.
    this.#scrolls = document.documentElement.style.overflow;
    document.documentElement.style.overflow = "hidden";
    this.#node.showModal();
    this.#stage.start();
    this.#stage.node.focus({ preventScroll: true });
  }

  /** @param {boolean} changed */
  draw(changed) {
    if (changed) this.#stage.draw();
  }

  #end() {
    if (this.#ends.signal.aborted) return;
    this.#ends.abort();
    this.#stage.free();
    this.#node.close();
    this.#node.remove();
    document.documentElement.style.overflow = this.#scrolls;
    /** @type {any} */ (navigator).keyboard?.unlock?.();
    if (this.#filled && document.fullscreenElement) document.exitFullscreen().catch(() => undefined);
    this.#desk.light(undefined);
    this.#desk.tell(this.#before);
    this.#page.ended();
  }

  /** @param {"ranges" | "steps"} way */
  #follow(way) {
    // What has room depends on the way.
    this.#node.dataset.way = way;
    this.#course.follow(way);
    for (const node of this.#ways) node.setAttribute("aria-pressed", String(node.dataset.part === `class-${way}`));
  }

  /**
   * Hides a part or shows it again; all are shown where none is named.
   * @param {Part} [part]
   */
  #toggle(part) {
    if (!part) this.#hidden.clear();
    else if (part === "numbers" && this.#hidden.has("ratio")) return;
    else if (!this.#hidden.delete(part)) this.#hidden.add(part);
    this.#mark();
    this.#told.update();
    this.#stage.draw();
  }

  #mark() {
    for (const [part, node] of this.#hides) node.setAttribute("aria-pressed", String(this.#hidden.has(part)));
    // With the ratio the numbers that give it go, too.
    const numbers = this.#hides.get("numbers");
    const together = this.#hidden.has("ratio");
    numbers?.setAttribute("aria-disabled", String(together));
    if (together) numbers?.setAttribute("aria-pressed", "true");
    this.#showAll.setAttribute("aria-disabled", String(this.#hidden.size === 0));
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
    const onButton = /** @type {HTMLElement} */ (event.composedPath()[0]).matches("button");
    const { key } = event;
    // What a button does with Space is its own.
    if (key in WAYS && !(onButton && key === " ")) this.#course.go(WAYS[key]);
    else if (key in POINTS) this.#point(POINTS[key]);
    else if (key === KEEP && !onButton) this.#stage.keep(this.#stage.kept ? undefined : this.#desk.lit);
    else if (!this.#letter(key.toLowerCase())) return;
    event.preventDefault();
  }

  /** @param {number} by */
  #point(by) {
    this.#told.point(by);
    if (this.#stage.kept) this.#stage.keep(this.#desk.lit);
  }

  /** @param {string} key */
  #letter(key) {
    const is = (/** @type {string} */ part) => say("page-class-key", { part }).toLowerCase() === key;
    const part = PARTS.find(is);
    if (part) this.#toggle(part);
    else if (is("all")) this.#toggle();
    else if (is("steps")) this.#follow(this.#course.way === "steps" ? "ranges" : "steps");
    else return false;
    return true;
  }
}
