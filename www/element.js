/**
 * `<lever-train>`: the sandbox as an element of any page. `embedding.html` tells all that a page can ask of it.
 *
 * Attributes: `scenario` (file stem), or `train` (address of a file of the page's own), `applied` (element ids), or
 * `range` (id of one), `speed` (rev/min), `torque` (N·m), `units` (codes of the unusual ones), `road` (pedal and slope in
 * percent and 1 for lock-up applied or 0), `losses` (mesh efficiency in percent,
 * drag in N·m and 1 for coasting or 0), `shows` (`power` on the half-section, levers
 * `joined`, gears to one `scale`), `views` (which there are of `answer`, `section` and `lever`), `with` (what else there is
 * to be: `header`, `ranges`, `controls`, `about`, `panels` or the ids of single ones, `all`), `locked` (what cannot be
 * changed: `elements`, `train`, `settings`, `all`), `theme` (`light`, `dark`, or as the `page` around it), `exercise` (the
 * sheet whose questions it asks: `scenario` for that of the scenario, or the address of a file), `language` (that of the
 * page around it, or of the browser, where it says none), `loading` (`lazy` has it start once it is about to be
 * scrolled to), and `address` for the one element that
 * shares its view with the page's address. What is more than one is separated by commas. Each is a property too.
 *
 * It dispatches `levertrain-score` with `{ title, points, of, done, sheet, question }` in `detail` after every question
 * (`sheet` where it is that of `exercise`; `question` is `{ number, id, task, text, credit, tries, seconds, answer }`),
 * `levertrain-walk` with `{ title, range, at, of, done, sheet, questions }` after every range that a sheet walks through first,
 * `levertrain-ready` once it can be used, `levertrain-change` with the answer in `detail`
 * after every change, and `levertrain-error` with an `Error` in `detail` when something went wrong.
 */

import { Bench } from "./page/bench.js";
import { keepForOffline } from "./page/offline.js";
import { furnishingOf, HEEDED, READ_ONCE, viewOf } from "./page/wishes.js";
import { listScenarios } from "./state/catalogue.js";
import { Desk } from "./state/desk.js";
import { Progress } from "./learn/progress.js";
import { CANNOT_START, emptyList, mendWords, NAME, SETTING_UP } from "./kit/before.js";
import { h, icon } from "./kit/dom.js";
import { loadEngine } from "./state/engine.js";
import { settleLanguage } from "./state/language.js";
import { Problems, problemsOf } from "./kit/problems.js";
import { loadFonts } from "./kit/fonts.js";
import { whenIdle } from "./kit/pieces.js";
import { styles } from "./kit/sheets.js";
import { rootedAt } from "./kit/site.js";
import { tellZoom } from "./kit/zoom.js";

rootedAt(import.meta.url);

/** From how far off an element that waits is started, so that it is there once it is seen. */
const NEARLY = "400px";

/** How it looks until then. */
const WAITING = ":host { display: block; min-height: 36rem; }";

/** Nothing that takes less time than this says that it is loading, in milliseconds. */
const PATIENCE = 100;

class LeverTrain extends HTMLElement {
  /** Keeps room while it waits. */
  #room = new CSSStyleSheet();
  /** Ends waiting to be scrolled to. @type {IntersectionObserver | undefined} */
  #waiting;

  static observedAttributes = HEEDED;

  /** @type {AbortController | undefined} */
  #life;
  /** @type {Bench | undefined} */
  #bench;
  /** Attributes that have changed since they were last heeded. @type {Set<string>} */
  #changed = new Set();
  /** What was asked for before it could be done; told why where it never can. @type {((failure?: Error) => void)[]} */
  #asked = [];

  /** How far somebody has come in its exercises. */
  #progress = new Progress();

  constructor() {
    super();
    this.attachShadow({ mode: "open" });
  }

  /** What the applied elements do; nothing before the first scenario is open. */
  get answer() {
    return this.#bench?.desk.answer;
  }

  /**
   * How far somebody has come in a sheet of exercises, as a text to keep; none before the first sheet is asked. Set
   * to such a text, that sheet goes on there, at once or as soon as it is asked.
   */
  get progress() {
    return this.#progress.text ?? null;
  }

  set progress(text) {
    this.#progress.text = text === null || text === undefined ? undefined : String(text);
  }

  /**
   * Applies exactly these elements; before the element is ready, as soon as it is.
   * @param {string[]} ids
   * @returns {Promise<import("./engine/levertrain.js").Answer | undefined>} what they do; an `Error` where it cannot be said
   */
  apply(ids) {
    return this.#ask((bench) => bench.apply(ids));
  }

  /**
   * Opens the text of a scenario file; before the element is ready, as soon as it is.
   * @param {string} text
   * @param {string} [name] what to call the file
   * @returns {Promise<import("./engine/levertrain.js").Answer | undefined>} what it does as it opens; an `Error` where it does not
   */
  open(text, name = "scenario") {
    return this.#ask((bench) => bench.openText(text, name));
  }

  connectedCallback() {
    this.#takeEarly();
    // Moved within the page: everything is still there.
    if (this.#life || this.#waiting) return;
    if (this.getAttribute("loading") !== "lazy" || typeof IntersectionObserver !== "function") {
      this.#begin();
      return;
    }
    // As tall as it will be until all is in its place, so that those after it are not all in sight at once.
    this.#room.replaceSync(WAITING);
    /** @type {ShadowRoot} */ (this.shadowRoot).adoptedStyleSheets = [this.#room];
    this.#waiting = new IntersectionObserver((seen) => seen.some(({ isIntersecting }) => isIntersecting) && this.#begin(), { rootMargin: NEARLY });
    this.#waiting.observe(this);
  }

  /** Takes on what was set on it before it was known what it is. */
  #takeEarly() {
    const early = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (this));
    for (const name of [...HEEDED, ...READ_ONCE, "progress"].filter((name) => Object.hasOwn(this, name))) {
      const value = early[name];
      delete early[name];
      early[name] = value;
    }
  }

  #begin() {
    this.#waiting?.disconnect();
    this.#waiting = undefined;
    this.#life = new AbortController();
    this.#build(this.#life.signal).catch((error) => this.#giveUp(error));
  }

  disconnectedCallback() {
    // Moving takes it out and puts it in again at once.
    queueMicrotask(() => {
      if (!this.isConnected) this.#end();
    });
  }

  #end() {
    this.#waiting?.disconnect();
    this.#waiting = undefined;
    this.#life?.abort();
    this.#life = undefined;
    this.#bench?.desk.free();
    this.#bench = undefined;
    this.shadowRoot?.replaceChildren();
  }

  /**
   * @param {string} name
   * @param {string | null} before
   * @param {string | null} now
   */
  attributeChangedCallback(name, before, now) {
    // Until there is a bench, what opens the element has yet to read them all.
    if (before === now || !this.#bench) return;
    this.#changed.add(name);
    // Attributes set together are one wish.
    if (this.#changed.size > 1) return;
    if (this.#bench.ready) queueMicrotask(() => this.#heed());
    else this.#asked.push(() => this.#heed());
  }

  /** Does what the changed attributes ask for, and leaves the reader's choices in all else. */
  #heed() {
    const changed = [...this.#changed];
    this.#changed.clear();
    const bench = /** @type {Bench} */ (this.#bench);
    const all = viewOf(this);
    const view = Object.entries(all).filter(([name]) => changed.includes(name));
    const furnishing = furnishingOf(this, changed);
    bench.furnish(furnishing);
    if (changed.includes("scenario") || changed.includes("train")) bench.show(all);
    else if (view.length > 0) bench.change(Object.fromEntries(view));
    bench.checkFurnishing(furnishing);
  }

  /**
   * @template T
   * @param {(bench: Bench) => T} question
   * @returns {Promise<T>}
   */
  #ask(question) {
    const answered = new Promise((resolve, reject) => {
      /** @param {Error} [failure] */
      const ask = (failure) => {
        try {
          if (failure) throw failure;
          resolve(question(/** @type {Bench} */ (this.#bench)));
        } catch (error) {
          reject(error);
        }
      };
      if (this.#bench?.ready) ask();
      else this.#asked.push(ask);
    });
    // Whoever does not wait for it has the message on screen, and the event.
    answered.catch(() => undefined);
    return answered;
  }

  /** @param {AbortSignal} signal */
  async #build(signal) {
    const root = /** @type {ShadowRoot} */ (this.shadowRoot);
    const body = h("div", { class: "levertrain", lang: settleLanguage(this) });
    tellZoom(body, signal);
    const ground = h("div", { class: "ground", hidden: true }, body);
    root.append(ground);
    const dressed = dress(root, ground);
    const lettered = loadFonts();
    const waiting = setTimeout(() => body.append(skeleton()), PATIENCE);
    try {
      const [engine, entries] = await Promise.all([loadEngine(), listScenarios(), dressed]);
      if (signal.aborted) return;
      if (entries.length === 0) throw new Problems([emptyList("scenarios/index.json")]);
      const furnishing = furnishingOf(this);
      const bench = new Bench(this, new Desk(engine), entries, ground.clientWidth, furnishing, this.#progress, signal);
      this.#bench = bench;
      clearTimeout(waiting);
      // Laid out, so that drawings fit; seen only when all is in its place.
      body.toggleAttribute("data-opening", true);
      body.replaceChildren(...bench.nodes);
      await bench.start(viewOf(this)).finally(() => body.removeAttribute("data-opening"));
      this.#room.replaceSync("");
      if (signal.aborted) return;
      bench.checkFurnishing(furnishing);
      for (const ask of this.#asked.splice(0)) ask();
      this.dispatchEvent(new CustomEvent("levertrain-ready", { bubbles: true, composed: true }));
      // Letters measured before the faces came would stay in the drawings.
      await lettered;
      if (signal.aborted) return;
      bench.redraw();
      // It takes all the browser's time for half a second.
      whenIdle(keepForOffline);
    } finally {
      clearTimeout(waiting);
    }
  }

  /**
   * The engine or the scenarios could not be had at all.
   * @param {unknown} error
   */
  #giveUp(error) {
    const detail = error instanceof Error ? error : new Error(String(error));
    for (const ask of this.#asked.splice(0)) ask(detail);
    this.dispatchEvent(new CustomEvent("levertrain-error", { detail, bubbles: true, composed: true }));
    const body = this.shadowRoot?.querySelector(".levertrain");
    const problems = problemsOf(error).map((problem) => h("p", {}, h("b", {}, problem.place), mendWords(problem)));
    body?.replaceChildren(
      h(
        "div",
        { class: "empty", role: "alert", "data-part": "empty" },
        h("p", { class: "wordmark" }, icon("mark"), NAME),
        h("p", { class: "empty-heading" }, CANNOT_START),
        ...problems,
      ),
    );
  }
}

/**
 * Puts the styles on; what is in the element shows only then, or once they cannot be had.
 * @param {ShadowRoot} root
 * @param {HTMLElement} ground
 */
async function dress(root, ground) {
  const sheet = await styles();
  if (sheet) root.adoptedStyleSheets = [sheet, ...root.adoptedStyleSheets.filter((other) => other !== sheet)];
  ground.hidden = false;
}

/** The shape of the page while the engine is on its way. */
function skeleton() {
  return h(
    "div",
    { class: "skeleton", role: "status" },
    h("p", { class: "wordmark" }, icon("mark"), NAME),
    h("div", { class: "skeleton-line" }),
    h("div", { class: "skeleton-stage" }, h("p", {}, SETTING_UP)),
  );
}

// Each attribute is a property of its name: its text, or null where there is none. A list is written with commas.
for (const name of [...HEEDED, ...READ_ONCE]) {
  Object.defineProperty(LeverTrain.prototype, name, {
    configurable: true,
    enumerable: true,
    /** @this {LeverTrain} */
    get() {
      return this.getAttribute(name);
    },
    /** @this {LeverTrain} @param {unknown} value */
    set(value) {
      if (value === null || value === undefined) this.removeAttribute(name);
      else this.setAttribute(name, String(value));
    },
  });
}

// Two copies of the module on one page are no mistake: the first one serves both.
if (!customElements.get("lever-train")) customElements.define("lever-train", LeverTrain);

export { LeverTrain };
