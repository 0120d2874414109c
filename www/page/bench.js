/** One element's workings: the views around one desk, and the frames they are drawn in. */

import { History } from "../address/history.js";
import { h } from "../kit/dom.js";
import { acceptDrops } from "../kit/drop.js";
import { Frames } from "../kit/frames.js";
import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { Board } from "../panels/board.js";
import { answerBand } from "../stage/answer.js";
import { brief } from "../stage/brief.js";
import { caption } from "../stage/caption.js";
import { layoutCaution } from "../stage/layout_caution.js";
import { controls } from "../stage/controls.js";
import { ranges } from "../stage/ranges.js";
import { shownQuantity } from "../stage/shown_quantity.js";
import { stage } from "../stage/stage.js";
import { takeButton } from "../kit/take.js";
import { figureOffers, stageFigure } from "../stage/take_away.js";
import { turning } from "../stage/turning.js";
import { cautions } from "./cautions.js";
import { checkFurnishing, equipmentFrom, locksFrom, themeFrom, viewsFrom, VIEWS } from "./equipment.js";
import { Colours } from "./colours.js";
import { cautionsButton, header } from "./header.js";
import { inClass } from "./in_class.js";
import { isolateNames } from "./isolation.js";
import { OpenSheet } from "../state/open_sheet.js";
import { keepPin, keptPin } from "../state/pin.js";
import { carry, fetchCarried } from "../state/carried.js";
import { keepUnfolded, keptUnfolded, rememberLanguage } from "../state/language.js";
import { messages } from "./messages.js";
import { Opening } from "./opening.js";
import { hasNoLandmarks, ownsPage } from "./owner.js";
import { answerQuestion } from "./question.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../address/link.js").View} View */

/** Container width in CSS pixels under which the panels start folded. */
const PHONE = 640;

/** The panels that ask, that change the train. */
const EXERCISES = "exercises";
const EDIT = "edit";
/** The one in which members are turned by hand. */
const SOURCES = "sources";

export class Bench {
  #host;
  #frames;
  /** Whether the train has just been edited: it is drawn already, and the frame has enough to lay out. */
  #isEdited = false;
  #stage;
  #opening;
  #history;
  #board;
  /** What else is drawn in a frame. @type {(() => void)[]} */
  #drawings = [];
  #drawn = 0;
  /** What had been said when both drawings were drawn last. */
  #said = -1;
  /** Whether they have changed since then. */
  #stale = true;
  /** Whether something moved in the last frame. */
  #moving = false;
  #colours;
  /** Takes on what is to be shown beside answer and drawings. @type {(equipment: import("./equipment.js").Equipment) => void} */
  #equip;
  /** Shows only these of them. @type {(views: string[]) => void} */
  #view;
  /** What is drawn in the place of the stage. @type {(() => { draw(changed: boolean): void } | undefined) | undefined} */
  #instead;
  /** What was pinned before the page was loaded again. */
  #keptPin;
  /** Whether it has opened what it was to open. */
  ready = false;

  /**
   * @param {HTMLElement} host
   * @param {Desk} desk
   * @param {import("../state/catalogue.js").Entry[]} entries
   * @param {number} width CSS pixels there are
   * @param {import("./equipment.js").Furnishing} furnishing how the page wishes it to be
   * @param {import("../learn/progress.js").Progress} progress how far somebody has come in its exercises
   * @param {AbortSignal} signal
   */
  constructor(host, desk, entries, width, furnishing, progress, signal) {
    this.#host = host;
    this.desk = desk;
    this.#frames = new Frames((seconds) => this.#frame(seconds), signal);
    desk.addEventListener("edited", () => (this.#isEdited = true));
    const ownPage = ownsPage(host, signal);
    this.#opening = new Opening(desk, entries, () => host.getAttribute("scenario"), ownPage, signal);
    const redraw = () => this.redraw();
    // Inside someone else's page the main part and the first heading are theirs.
    const landmarks = ownPage && hasNoLandmarks();
    const alsoDraw = () => this.#drawings.forEach((draw) => draw());
    const page = { drawn: () => this.#count(), drawnAll: () => this.#fresh(), redraw, alsoDraw };
    this.#stage = stage(desk, page, signal);
    const colours = new Colours(desk, host, ownPage, () => this.#stage.draw(), signal);
    this.#colours = colours;
    const warning = cautions(landmarks);
    const top = header(
      desk,
      entries,
      () => colours.choice,
      {
        pick: (stem) => desk.isLocked("train") || this.show({ stem }),
        files: this.#opening.files,
        pickFile: (key) => this.#opening.pick(key),
        begin: () => this.#begin(),
        openFile: (file) => this.#opening.openFile(file),
        chooseTheme: (choice) => colours.choose(choice),
        chooseLanguage: ownPage ? (code) => this.#speak(code) : undefined,
      },
      cautionsButton(warning, "plain"),
      landmarks,
    );
    const exercise = host.getAttribute("exercise") ?? undefined;
    const draws = (/** @type {() => void} */ draw) => this.#drawings.push(draw);
    // Drawings in panels know by themselves whether they have changed.
    const frame = () => this.#frames.request();
    this.#board = new Board({ desk, redraw: frame, draws, files: this.#opening, section: this.#stage.section, keys: ownPage ? document : host, keeps: ownPage, openSheet: new OpenSheet(), exercise, progress, signal }, width < PHONE);
    const sources = this.#board.panel(SOURCES);
    const answer = answerBand(desk, () => (sources.offered() && !desk.veiled ? () => this.#turnByHand(sources.unfold) : undefined));
    const turn = turning(desk);
    const shown = shownQuantity(desk);
    const figures = /** @type {("section" | "lever")[]} */ (["section", "lever"]);
    const offers = () => figures.filter((drawing) => this.#stage.shows(drawing)).map((drawing) => figureOffers(desk, stageFigure(desk, drawing)));
    const take = takeButton(say("page-drawings"), "stage", offers, (error) => desk.report(error));
    const edit = this.#board.panel(EDIT);
    const change = h("button", { class: "plain change", type: "button", "data-part": "change", click: () => this.#change(edit.unfold) }, say("page-panel-edit"));
    const offerChange = () => (change.hidden = edit.node.open || !edit.offered() || desk.veiled !== undefined);
    edit.node.addEventListener("toggle", offerChange);
    const board = inClass(desk, { host, keys: ownPage ? document : host, rest: (resting) => this.#stage.rest(resting), signal });
    this.#instead = board.drawing;
    const rangeRow = ranges(desk, [change, shown, turn.play, this.#stage.whole, this.#stage.size, take, board.button]);
    const settings = controls(desk, turn.rate);
    const foot = h("p", { class: "foot" }, cautionsButton(warning, "bare"));
    const about = h("p", { class: "about", part: "about", "data-part": "about" });
    const columns = h(
      "div",
      { class: "columns" },
      h("div", { class: "stage-column" }, this.#stage.node, layoutCaution(desk), caption(desk), answer.rest, settings, about, foot),
      h("div", { class: "side" }, ...this.#board.column("side")),
      h("div", { class: "below" }, ...this.#board.column("below")),
    );
    const body = h(
      landmarks ? "main" : "div",
      { class: "body", part: "body" },
      brief(desk, answer.figure, signal),
      answer.node,
      rangeRow.node,
      columns,
    );
    this.nodes = [h("div", {}, top, warning), messages(desk), body];

    isolateNames(this.nodes, desk, signal);
    /** What was asked for last. @type {import("./equipment.js").Equipment} */
    let equipment;
    this.#equip = (wanted) => {
      equipment = wanted;
      const { bands, panels, unfolded } = wanted;
      if (exercise !== undefined) for (const names of [panels, unfolded]) names.add(EXERCISES);
      const named = bands.has("header");
      top.hidden = !named;
      // Wherever its button is, the text comes right after it.
      foot.hidden = named;
      (named ? top : foot).after(warning);
      rangeRow.offer(bands.has("ranges"));
      for (const node of [shown, turn.play, take, board.button, settings]) node.hidden = !bands.has("controls");
      about.hidden = !bands.has("about");
      choose(unfolded);
    };
    /** @param {Set<string>} unfolded */
    const choose = (unfolded) => {
      const { panels } = equipment;
      const isLocked = desk.isLocked("train");
      // Nobody needs what changes a train that cannot be changed, nor what it puts on the drawing.
      this.#board.choose(isLocked ? new Set([...panels].filter((id) => id !== EDIT)) : panels, unfolded);
      if (isLocked) edit.node.open = false;
      offerChange();
      spread();
    };
    this.#view = (views) => {
      body.dataset.without = VIEWS.filter((view) => !views.includes(view)).join(" ");
      this.#stage.show(views);
    };
    const spread = () => columns.toggleAttribute("data-alone", !this.#board.has("side"));
    this.furnish(furnishing);
    desk.addEventListener("lock", () => choose(new Set()));
    // Which panels there are is the train's business too.
    desk.addEventListener("train", spread);

    desk.addEventListener("veil", () => {
      const { veiled } = desk;
      this.#board.veil(veiled && EXERCISES);
      rangeRow.veil(veiled !== undefined);
      if (veiled) columns.dataset.veiled = veiled;
      else delete columns.dataset.veiled;
      this.#stage.node.inert = veiled === "closed";
      offerChange();
    });
    if (ownPage) desk.addEventListener("pin", () => keepPin(desk.pinned.pin));
    this.#keptPin = ownPage ? keptPin() : undefined;
    if (ownPage) {
      fetchCarried();
      this.#board.unfold(keptUnfolded());
    }
    const keys = this.#board.panel("keys");
    answerQuestion(ownPage ? document : host, keys.node, keys.offered, signal);
    this.#history = ownPage ? new History(desk, this.#opening, signal) : undefined;
    // A page that offers no files takes none either.
    if (!top.hidden) {
      const takes = () => !desk.isLocked("train");
      acceptDrops(ownPage ? document.documentElement : host, host, (file) => this.#opening.openFile(file), takes, signal);
    }
    desk.addEventListener("train", () => (about.textContent = desk.info?.about ?? ""));
    desk.addEventListener("answer", () => {
      const detail = desk.answer;
      host.dispatchEvent(new CustomEvent("levertrain-change", { detail, bubbles: true, composed: true }));
    });
    desk.addEventListener("message", () => {
      if (!desk.message) return;
      host.dispatchEvent(
        new CustomEvent("levertrain-error", { detail: desk.message.failure, bubbles: true, composed: true }),
      );
    });
    desk.addEventListener("score", (event) => {
      const { detail } = /** @type {CustomEvent} */ (event);
      host.dispatchEvent(new CustomEvent("levertrain-score", { detail, bubbles: true, composed: true }));
    });
    desk.addEventListener("walked", (event) => {
      const { detail } = /** @type {CustomEvent} */ (event);
      host.dispatchEvent(new CustomEvent("levertrain-walk", { detail, bubbles: true, composed: true }));
    });
    for (const event of ["answer", "preview", "speed", "units", "light", "look", "instant"]) {
      desk.addEventListener(event, () => this.#follow());
    }
  }

  /**
   * Opens what the address or the attributes ask for; the usual scenario where they fail.
   * @param {View} wishes
   */
  async start(wishes) {
    if (this.#history) await this.#history.start(wishes);
    else await this.show(wishes);
    const { from } = wishes;
    if (!this.desk.info) {
      const { message } = this.desk;
      if (from) await this.show({ from });
      if (!this.desk.info) await this.show({});
      if (message) this.desk.report({ problems: message.problems }, say("page-heading-other"));
    }
    this.ready = true;
    if (this.#keptPin) this.desk.pinned.set(this.#keptPin).catch((error) => this.desk.report(error));
    await this.#board.start();
  }

  /**
   * Is as a page wishes it, in what that speaks of.
   * @param {import("./equipment.js").Furnishing} furnishing
   */
  furnish(furnishing) {
    const { locked, views, theme } = furnishing;
    if (locked) this.desk.lock(locksFrom(locked));
    if (views) this.#view(viewsFrom(views));
    if (theme) this.#colours.wish(themeFrom(theme));
    if (furnishing.with) this.#equip(equipmentFrom(furnishing.with));
    if (this.ready) this.#board.start();
  }

  /**
   * Tells of a name that is none; all others are heeded.
   * @param {import("./equipment.js").Furnishing} furnishing
   */
  checkFurnishing(furnishing) {
    try {
      checkFurnishing(furnishing);
    } catch (error) {
      this.desk.report(error, say("page-heading-parts"));
    }
  }

  /**
   * Opens what a view asks for; on a problem everything on screen stays.
   * @param {View} view
   */
  show(view) {
    return this.#opening.show(view);
  }

  /**
   * Changes only what a view speaks of; on a problem nothing.
   * @param {View} view
   */
  change(view) {
    this.desk.byPage(() => this.#opening.change(view));
  }

  /**
   * Applies exactly these elements.
   * @param {string[]} ids
   */
  apply(ids) {
    return this.#answered(() => this.desk.byPage(() => this.desk.apply(ids)));
  }

  /**
   * Opens the text of a scenario file.
   * @param {string} text
   * @param {string} name
   */
  openText(text, name) {
    return this.#answered(() => this.#opening.openText(text, name));
  }

  /**
   * The answer after something was done; throws what the reader was told went wrong.
   * @param {() => void} action
   */
  #answered(action) {
    const { desk } = this;
    /** @type {Error | undefined} */
    let failure;
    const fail = () => (failure = desk.message?.failure);
    desk.addEventListener("message", fail);
    try {
      action();
    } catch (error) {
      desk.report(error);
    } finally {
      desk.removeEventListener("message", fail);
    }
    if (failure) throw failure;
    return desk.answer;
  }

  /**
   * Loads the page again in another language, with what is open and unfolded, and what is in hand there.
   * @param {string} code
   */
  #speak(code) {
    try {
      rememberLanguage(code);
      keepUnfolded(this.#board.unfolded());
      carry();
    } catch {
      this.desk.report(new Failure(say("page-language"), say("page-problem-language"), say("page-fix-language")));
      return;
    }
    location.reload();
  }

  /** Begins a train of no set, with all that changes it unfolded. */
  async #begin() {
    const { desk } = this;
    if (desk.isLocked("train")) return;
    try {
      await desk.becomeWhole();
      const text = desk.askWhole((engine) => engine.starterText(0));
      if (text !== undefined) this.#opening.begin(text, say("edit-blank"));
      this.#board.panel("edit").node.open = true;
    } catch (error) {
      desk.report(error);
    }
  }

  /**
   * Unfolds what changes the train. On a small page the drawing, in which that is done, comes into sight.
   * @param {() => Promise<void>} unfold
   */
  async #change(unfold) {
    await unfold();
    const { node } = this.#stage;
    const bar = node.previousElementSibling ?? node;
    if (this.#host.clientWidth < PHONE) bar.scrollIntoView({ block: "start", behavior: "instant" });
  }

  /**
   * Unfolds what lets members be turned, and goes to the first of them on the stage.
   * @param {() => Promise<void>} unfold
   */
  async #turnByHand(unfold) {
    await unfold();
    this.redraw();
    // Where they are is known with the next frame.
    await new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)));
    const first = /** @type {HTMLElement | null} */ (this.#stage.node.querySelector(".driven-grip[tabindex]"));
    first?.scrollIntoView({ block: "center", behavior: "instant" });
    first?.focus({ preventScroll: true });
  }

  /** Asks for a frame. */
  redraw() {
    this.#stale = true;
    this.#frames.request();
  }

  /** Draws what was said in the next frame, unless that was drawn at once. */
  #follow() {
    if (this.#said !== this.desk.said) this.#stale = true;
    this.#frames.request();
  }

  #fresh() {
    this.#said = this.desk.said;
    this.#stale = false;
  }

  /** @param {number} seconds */
  #frame(seconds) {
    const { desk } = this;
    if (!desk.info) return false;
    if (this.#isEdited) {
      this.#isEdited = false;
      return true;
    }
    const moved = this.#moving;
    this.#moving = desk.advance(seconds);
    const changed = this.#stale || moved || this.#moving;
    const instead = this.#instead?.();
    if (instead) {
      instead.draw(changed);
      this.#fresh();
      this.#count();
    } else this.#stage.draw(changed);
    return this.#moving;
  }

  #count() {
    this.#drawn += 1;
    if (this.#drawn === 1) performance.mark("levertrain-open");
    this.#host.dataset.frame = String(this.#drawn);
  }
}
