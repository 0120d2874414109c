/**
 * What is on screen: the sandbox, which alone knows the truth, and the page's last reading of it.
 *
 * Views listen to its events and ask it for changes:
 * `edited` (the train was changed, which `train` tells too), `train` (another scenario), `answer` (other elements applied), `preview` (a pack is dragged, or
 * no longer), `speed`, `torque`, `units`, `assumptions` (about losses), `road` (pedal, slope and
 * lock-up), `pin` (something else is compared with, or ready to be), `light` (a member is pointed at), `instant` (both drawings show another instant of a shift), `look` (colours, sizes, turning), `veil` (a question is open, or none any more), `lock` (other things cannot be changed), `whole` (the whole engine has taken
 * over) and `message` (problems for the user).
 */

import { isTrap, isWhole, leave, loadWholeEngine, replaceEngine, useEngine } from "./engine.js";
import { Problems, problemsOf } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { USUAL_ASSUMPTIONS } from "./assumptions.js";
import { Mending } from "./mending.js";
import { prepareIn } from "./preparing.js";
import { Quantities } from "./quantities.js";
import { USUAL_ROAD } from "./road.js";
import { unitCode, USUAL_UNITS } from "./units.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain.js").TrainInfo} TrainInfo */
/** @typedef {import("../engine/levertrain.js").Answer} Answer */
/** @typedef {import("../engine/levertrain.js").Settings} Settings */
/** @typedef {import("../kit/problems.js").Problem} Problem */
/** @typedef {{ stem: string } | { file: number, name: string }} Source where a scenario came from */
/** @typedef {{ id: string, answer: Answer }} Preview what changing one element over would give */
/** @typedef {{ words: string, take: () => void }} Offer a button */
/** @typedef {import("./preparing.js").Prepared} Prepared */
/**
 * What can be done with trains: begin another, open one more like the one on screen, delete that, which gives what
 * brings it back, and open one that was there before.
 * @typedef {object} Files
 * @property {{ name: string, gone?: boolean }[]} files those there are, by their numbers
 * @property {(text: string, name: string) => void} begin
 * @property {() => void} repeat
 * @property {() => Promise<(() => void) | undefined>} forget
 * @property {(key: number) => void} pick opens the one of this number
 * @property {(view: { stem: string }) => Promise<void>} show opens a scenario
 */
/** @typedef {{ coupling: string, index: number }} MemberPlace a member of a coupling */
/** Shafts and elements, by their ids. @typedef {{ shafts: string[], elements: string[] }} Told */
/** What can be locked: what is applied, which train it is and what it is made of, and what is assumed and shown.
 * @typedef {"elements" | "train" | "settings"} Lock */

export const DEFAULT_SPEED = 1000;
export const DEFAULT_TORQUE = 100;

/** What ends an instant that both drawings show. */
const ENDS_INSTANT = ["train", "answer", "preview", "whole"];

/** @type {Told} */
const NOTHING = { shafts: [], elements: [] };

export class Desk extends EventTarget {
  /** @type {Sandbox | undefined} */
  #sandbox;
  #engine;
  #leaveEngine;
  /** Whether nobody looks at it any more. */
  #gone = false;
  #text = "";
  /** What betters the drawing after an edit. @type {Mending<TrainInfo>} */
  mending = new Mending(
    () => (!this.#gone && this.isWhole && this.askWhole((engine, sandbox) => engine.mend(sandbox, 1))) ?? false,
    (info) => this.#mended(info),
  );
  /** @type {Pick<Settings, "palette" | "scale" | "merged" | "one_module" | "rate" | "power" | "width">} */
  #look = { palette: "light", scale: 2, merged: false, one_module: false, rate: 0, power: false, width: 800 };
  /** Counts what was said: events of one count are said together. */
  said = 0;
  /** Traps since the last change that went well. */
  #traps = 0;
  /** The sheet as it was asked for last, and of what. @type {{ info: TrainInfo, sheet: import("../engine/levertrain_whole.js").Sheet } | undefined} */
  #sheet;
  /** The range chart as it was asked for last, and of what. @type {{ info: TrainInfo, chart: import("../engine/levertrain.js").Chart } | undefined} */
  #chart;
  /** Whoever shows another instant in both drawings. @type {import("./moment.js").Shower | undefined} */
  shownBy;
  /** While it is on its way to the whole engine. @type {Promise<void> | undefined} */
  #becoming;

  /** @type {TrainInfo | undefined} */
  info;
  /** @type {Answer | undefined} */
  answer;
  /** @type {Source | undefined} */
  source;
  /** @type {Preview | undefined} */
  preview;
  /** @type {string | undefined} */
  lit;
  /** The member that is pointed at, where it is one rather than a whole shaft. */
  /** @type {MemberPlace | undefined} */
  litMember;
  /** What something is told of: its shafts are lit beside the one pointed at, its elements are marked. @type {Told} */
  told = NOTHING;
  /** @type {Problem[]} */
  problems = [];
  heading = "";
  /** What can be done about them at once. @type {Offer | undefined} */
  offer;
  /** What the problems came as. @type {Error | undefined} */
  failure;
  /**
   * While a question is open: `stage` where it is answered by applying elements, `closed` where nothing may be
   * tried out; `walk` while a range is walked through before it. @type {"stage" | "closed" | "walk" | undefined}
   */
  veiled;
  /** What whoever looks at it cannot change. @type {ReadonlySet<Lock>} */
  #locked = new Set();
  /** Whether what is done just now is the wish of the page around it, which no lock keeps off. */
  #isPageWish = false;
  speed = DEFAULT_SPEED;
  torque = DEFAULT_TORQUE;
  /** @type {import("./units.js").Units} */
  units = { ...USUAL_UNITS };
  /** @type {import("./assumptions.js").Assumptions} */
  assumptions = { ...USUAL_ASSUMPTIONS };
  /** @type {import("./road.js").Road} */
  road = { ...USUAL_ROAD };
  /** What is to be known of the drawings as they were fitted last. @type {import("../engine/levertrain.js").StageSize | undefined} */
  sizes;
  /** The range chart before the last edit, typing in one field being one. @type {import("../engine/levertrain.js").Chart | undefined} */
  before;
  /** Whether what is told just now comes of an edit. */
  editing = false;
  /** Whether changes show at once instead of gliding. */
  still = false;
  /** What is pinned to compare with. @type {import("./pin.js").Pin | undefined} */
  pin;

  /** @param {import("./engine.js").Engine} engine */
  constructor(engine) {
    super();
    this.#engine = engine;
    this.#leaveEngine = useEngine((broken, fresh) => {
      if (this.#engine === broken) this.#move(fresh);
    });
  }

  /**
   * Makes ready to open a scenario, in pieces: to lay out a large train takes a while.
   * @param {string} text
   * @returns {Promise<Prepared | undefined>} for `open`; nothing where nobody looks any more
   */
  async prepare(text) {
    if (this.#gone) return undefined;
    const engine = this.#engine;
    // What is bettered meanwhile would hold it up.
    this.mending.stop();
    try {
      const prepared = await prepareIn(engine, text, () => engine === this.#engine && !this.#gone);
      // Another engine took its place meanwhile.
      return prepared ?? this.prepare(text);
    } catch (error) {
      if (this.info?.needless) this.mending.begin();
      throw error;
    }
  }

  /**
   * Opens a scenario. On a problem everything on screen stays.
   * @param {string} text
   * @param {Source} source
   * @param {{ applied?: string[], speed?: number, torque?: number, units?: import("./units.js").Units, road?: import("./road.js").Road, assumptions?: import("./assumptions.js").Assumptions, shown?: import("./shown.js").Shown }} [view]
   * @param {Prepared} [prepared] what `prepare` made of the text
   */
  open(text, source, { applied, speed, torque, units, road, assumptions, shown } = {}, prepared) {
    const ready = prepared?.engine === this.#engine ? prepared : undefined;
    if (prepared && !ready) leave(prepared.engine, prepared.sandbox);
    const fresh = ready?.sandbox ?? new this.#engine.Sandbox();
    /** @type {TrainInfo} */
    let info;
    /** @type {Answer} */
    let answer;
    try {
      info = ready?.info ?? /** @type {TrainInfo} */ (fresh.open(text));
      answer = applied ? fresh.apply(applied) : fresh.answer();
      fresh.settle();
    } catch (error) {
      // What is on screen goes on in another instance.
      if (isTrap(error)) replaceEngine(this.#engine, fresh).catch(() => undefined);
      else fresh.free();
      throw error;
    }
    this.#sandbox?.free();
    this.#sandbox = fresh;
    this.#text = text;
    this.info = info;
    this.answer = answer;
    this.source = source;
    this.before = undefined;
    this.preview = undefined;
    this.lit = undefined;
    this.litMember = undefined;
    this.speed = speed ?? this.speed;
    this.torque = torque ?? this.torque;
    this.units = units ?? this.units;
    this.road = road ?? this.road;
    this.assumptions = assumptions ?? this.assumptions;
    Object.assign(this.#look, shown);
    this.#send(fresh);
    this.#emit("train", "answer", "speed", "torque", "units", "road", "assumptions", "look");
    if (info.needless) this.mending.begin();
  }

  /**
   * Applies exactly these elements.
   * @param {string[]} ids
   */
  apply(ids) {
    if (this.#keepsOff("elements")) return;
    const answer = this.ask((sandbox) => {
      const answer = sandbox.apply(ids);
      if (this.still) sandbox.settle();
      return answer;
    });
    if (!answer) return;
    this.#traps = 0;
    this.answer = answer;
    this.preview = undefined;
    this.#emit("answer");
  }

  /**
   * Shows nothing that would answer a question, but what that is answered with, or all again.
   * @param {Desk["veiled"]} veiled
   */
  veil(veiled) {
    if (this.veiled === veiled) return;
    this.veiled = veiled;
    // What is pinned goes from the drawing, or comes back.
    if (this.pin) this.#emit("veil", "pin");
    else this.#emit("veil");
  }

  /**
   * Keeps whoever looks at it from changing these, in whatever way that is tried.
   * @param {Iterable<Lock>} locks
   */
  lock(locks) {
    this.#locked = new Set(locks);
    this.#emit("lock");
  }

  /**
   * Whether something cannot be changed. A question that is answered by applying elements lets them be applied.
   * @param {Lock} lock
   */
  isLocked(lock) {
    return this.#locked.has(lock) && !(lock === "elements" && this.veiled === "stage");
  }

  /**
   * Whether a change is refused. What a field shows that was changed all the same is told anew, as it is.
   * @param {Lock} lock
   */
  #keepsOff(lock) {
    return this.isLocked(lock) && !this.#isPageWish;
  }

  /**
   * Does what the page around it wishes, or a question that it asks.
   * @param {() => void} action
   */
  byPage(action) {
    const before = this.#isPageWish;
    this.#isPageWish = true;
    try {
      action();
    } finally {
      this.#isPageWish = before;
    }
  }

  /**
   * Changes one element over.
   * @param {string} id
   */
  toggle(id) {
    const applied = this.answer?.applied ?? [];
    this.apply(applied.includes(id) ? applied.filter((other) => other !== id) : [...applied, id]);
  }

  /**
   * Makes an edit of the train.
   * @param {import("../engine/levertrain_whole.js").Edit} edit
   * @param {boolean} [continues] whether it is one step with the edit of the same before it
   */
  edit(edit, continues = false) {
    const { before } = this;
    if (!continues || !before) this.before = this.chart();
    try {
      this.#edit(edit, continues);
    } catch (error) {
      this.before = before;
      throw error;
    }
  }

  /** @param {import("../engine/levertrain_whole.js").Edit} edit @param {boolean} continues */
  #edit(edit, continues) {
    this.#change((engine, sandbox) => engine.edit(sandbox, JSON.stringify(edit), continues));
  }

  /**
   * Puts the train that a text is in the place of the one on screen, as an edit.
   * @param {string} text
   * @param {boolean} [continues] whether it is one step with the text before it
   */
  rewrite(text, continues = false) {
    this.before = undefined;
    this.#change((engine, sandbox) => engine.rewrite(sandbox, text, continues));
  }

  /** Takes the last edit back. */
  undo() {
    this.before = undefined;
    this.#change((engine, sandbox) => engine.undo(sandbox));
  }

  /** Makes again the edit that was taken back last. */
  redo() {
    this.before = undefined;
    this.#change((engine, sandbox) => engine.redo(sandbox));
  }

  /** @param {(engine: import("./engine.js").WholeEngine, sandbox: Sandbox) => TrainInfo | undefined} change */
  #change(change) {
    if (this.#keepsOff("train")) return;
    const changed = this.askWhole((engine, sandbox) => {
      const info = change(engine, sandbox);
      return info && { info, answer: sandbox.answer(), text: engine.scenarioText(sandbox) };
    });
    if (!changed) return;
    this.#traps = 0;
    this.#text = changed.text;
    this.info = changed.info;
    this.answer = changed.answer;
    this.preview = undefined;
    if (!changed.info.shafts.some(({ id }) => id === this.lit)) {
      this.lit = undefined;
      this.litMember = undefined;
    }
    this.ask((sandbox) => {
      if (this.still) sandbox.settle();
      this.#send(sandbox);
      sandbox.light(this.lit);
    });
    this.editing = true;
    try {
      this.#emit("edited", "train", "answer", "look");
    } finally {
      this.editing = false;
    }
    this.mending.begin();
  }

  /** @param {TrainInfo} info of the drawing that is better */
  #mended(info) {
    this.info = info;
    if (this.still) this.settle();
    this.editing = true;
    try {
      this.#emit("train", "look");
    } finally {
      this.editing = false;
    }
  }

  /**
   * Pins something to compare with, or lets it go.
   * @param {import("./pin.js").Pin | undefined} pin
   */
  async setPin(pin) {
    this.pin?.free();
    this.pin = pin;
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("pin");
    if (!pin) return;
    await this.becomeWhole();
    await this.#readyPin();
  }

  /** What is drawn behind: while a question is open nothing, as that could be what it asks for. */
  get #pinned() {
    return this.veiled ? undefined : this.pin?.in(this.#engine);
  }

  /** Has what is pinned at hand in the engine there is. */
  async #readyPin() {
    const { pin } = this;
    if (!pin || !this.isWhole || pin.in(this.#engine)) return;
    try {
      const prepared = await this.prepare(pin.kept.text);
      if (!prepared) return;
      if (pin !== this.pin || prepared.engine !== this.#engine) {
        leave(prepared.engine, prepared.sandbox);
        return;
      }
      pin.take(prepared);
      this.ask((sandbox) => this.#send(sandbox));
      this.#emit("pin");
    } catch (error) {
      // What cannot be opened is not kept either.
      this.pin = undefined;
      this.#emit("pin");
      this.report(error);
    }
  }

  /**
   * Asks the whole engine about what is pinned; nothing where nothing is, or not yet.
   * @template T
   * @param {(engine: import("./engine.js").WholeEngine, sandbox: Sandbox, pinned: Sandbox, legend: string) => T} question
   * @returns {T | undefined}
   */
  askPinned(question) {
    const { pin } = this;
    const pinned = this.#pinned;
    if (!pin || !pinned) return undefined;
    const legend = say("page-compare-legend", { what: pin.kept.name });
    return this.askWhole((engine, sandbox) => question(engine, sandbox, pinned, legend));
  }

  /** What the forms that change the train show; nothing before the whole engine is there. */
  get sheet() {
    const { info } = this;
    if (this.#sheet?.info === info) return this.#sheet?.sheet;
    const sheet = info && this.askWhole((engine, sandbox) => engine.sheet(sandbox));
    this.#sheet = info && sheet && { info, sheet };
    return sheet;
  }

  /** The train as the text of a file. */
  get text() {
    return this.#text;
  }

  /**
   * Shows an element's packs closed by `closure` while they are dragged.
   * @param {string} id
   * @param {number} closure
   */
  drag(id, closure) {
    if (this.#keepsOff("elements")) return;
    this.ask((sandbox) => sandbox.drag(id, closure));
    if (this.preview?.id === id) return;
    const answer = this.ask((sandbox) => sandbox.preview(id));
    if (!answer) return;
    this.preview = { id, answer };
    this.#emit("preview");
  }

  /** Lets go of dragged packs without changing anything. */
  endDrag() {
    this.ask((sandbox) => {
      sandbox.endDrag();
      if (this.still) sandbox.settle();
    });
    this.preview = undefined;
    this.#emit("preview");
  }

  /**
   * Points at a shaft everywhere, or at none.
   * @param {string} [id]
   * @param {MemberPlace} [member] the one member of the shaft that is meant
   */
  light(id, member) {
    if (id === this.lit && member === this.litMember) return;
    this.lit = id;
    this.litMember = member;
    this.ask((sandbox) => sandbox.light(id));
    this.#emit("light");
  }

  /**
   * Lights everywhere what something is told of, or nothing more.
   * @param {Told} [told]
   */
  tell(told = NOTHING) {
    if (told === this.told) return;
    this.told = told;
    this.askWhole((engine, sandbox) => engine.tellShafts(sandbox, told.shafts));
    this.#emit("light");
  }

  /** @param {number} speed rev/min */
  setSpeed(speed) {
    if (!this.#keepsOff("settings")) this.speed = speed;
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("speed");
  }

  /** @param {number} torque N·m */
  setTorque(torque) {
    if (!this.#keepsOff("settings")) this.torque = torque;
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("torque");
  }

  /** @param {Partial<import("./units.js").Units>} change */
  setUnits(change) {
    if (!this.#keepsOff("settings")) this.units = { ...this.units, ...change };
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("units");
  }

  /** @param {Partial<import("./assumptions.js").Assumptions>} change */
  assume(change) {
    if (!this.#keepsOff("settings")) this.assumptions = { ...this.assumptions, ...change };
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("assumptions");
  }

  /** @param {Partial<import("./road.js").Road>} change */
  drive(change) {
    if (!this.#keepsOff("settings")) this.road = { ...this.road, ...change };
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("road");
  }

  /** The numbers at the input speed and torque, in the units chosen. */
  get quantities() {
    return new Quantities(this);
  }

  /**
   * Changes how things look: colours, pixels to a CSS pixel, joined levers, gears to one scale, rate of turning, and
   * whether the half-section shows power instead of speed.
   * @param {Partial<Pick<Settings, "palette" | "scale" | "merged" | "one_module" | "rate" | "power">>} change
   */
  setLook(change) {
    const { power, merged, one_module } = this.#look;
    // Colours, sizes and turning are nobody's business but the reader's.
    const kept = this.#keepsOff("settings") ? { power, merged, one_module } : {};
    Object.assign(this.#look, change, kept);
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit("look");
  }

  get look() {
    return this.#look;
  }

  /** Skips whatever still glides. */
  settle() {
    this.ask((sandbox) => sandbox.settle());
  }

  /**
   * @param {number} width CSS pixels there are
   * @returns {import("../engine/levertrain.js").StageSize | undefined} the sizes the drawings then have
   */
  fit(width) {
    this.#look.width = width;
    return this.ask((sandbox) => this.#send(sandbox));
  }

  handles() {
    return this.ask((sandbox) => sandbox.handles()) ?? [];
  }

  /**
   * @param {"section" | "lever"} drawing
   * @param {number} x
   * @param {number} y
   */
  shaftAt(drawing, x, y) {
    const compared = drawing === "lever" && this.askPinned((engine, sandbox, pinned) => [engine.shaftAtCompared(sandbox, pinned, x, y)]);
    return compared ? compared[0] : this.ask((sandbox) => sandbox.shaftAt(drawing, x, y));
  }

  /**
   * @param {"section" | "lever"} drawing
   * @param {HTMLCanvasElement} canvas
   */
  draw(drawing, canvas) {
    const compare = (/** @type {Parameters<Parameters<typeof this.askPinned>[0]>} */ ...[engine, sandbox, pinned, legend]) => {
      engine.drawCompared(sandbox, pinned, legend, canvas);
      return true;
    };
    if (drawing === "lever" && this.askPinned(compare)) return;
    this.ask((sandbox) => sandbox.draw(drawing, canvas));
  }

  /**
   * Shows an instant of something that moves in time, or is turned by hand, in both drawings, or their steady motion again.
   * @template T
   * @param {() => T} show asks the engine for it: whether there is one
   * @param {import("./moment.js").Shower} by whoever shows it: what others showed is gone
   * @returns {T}
   */
  showInstant(show, by) {
    const shown = show();
    this.shownBy = shown ? by : undefined;
    this.#emit("instant");
    return shown;
  }

  /**
   * Lets time pass.
   * @param {number} seconds
   * @returns {boolean} whether the next frame will differ
   */
  advance(seconds) {
    return this.ask((sandbox) => sandbox.advance(seconds)) ?? false;
  }

  /** The range chart, which is that of the train whatever is applied. */
  chart() {
    const { info } = this;
    if (this.#chart?.info === info) return this.#chart?.chart;
    const chart = info && this.ask((sandbox) => sandbox.chart());
    this.#chart = info && chart && { info, chart };
    return chart;
  }

  /**
   * Tells the user what went wrong.
   * @param {unknown} error
   * @param {string} [heading] what that means for what is on screen
   * @param {Offer} [offer] what can be done about it at once
   */
  report(error, heading = say("page-heading-kept"), offer) {
    this.offer = offer;
    this.problems = problemsOf(error);
    this.failure = error instanceof Error ? error : new Problems(this.problems);
    this.heading = this.info ? heading : say("page-heading-nothing");
    this.#emit("message");
  }

  /** Takes the message away. */
  dismiss() {
    if (this.problems.length === 0) return;
    this.problems = [];
    this.failure = undefined;
    this.#emit("message");
  }

  /** Gives the sandbox's memory back. */
  free() {
    this.#gone = true;
    this.#leaveEngine();
    this.pin?.free();
    this.#sandbox?.free();
    this.#sandbox = undefined;
  }

  /**
   * What people call an element.
   * @param {string} id
   */
  elementLabel(id) {
    return this.info?.elements.find((element) => element.id === id)?.label ?? id;
  }

  /** All that is set. @returns {Settings} */
  get settings() {
    return {
      ...this.#look,
      ...this.assumptions,
      ...this.road,
      speed: this.speed,
      torque: this.torque,
      speed_unit: unitCode(this.units, "speed"),
      torque_unit: unitCode(this.units, "torque"),
    };
  }

  /**
   * Sends all that is set, in one call.
   * @param {Sandbox} sandbox
   */
  #send(sandbox) {
    const text = JSON.stringify(this.settings);
    /** @type {import("../engine/levertrain.js").StageSize} */
    const sizes = sandbox.set(text);
    const pinned = this.#pinned;
    if (pinned && isWhole(this.#engine)) {
      pinned.set(text);
      sizes.leverHeight += this.#engine.legendHeight();
    }
    this.sizes = sizes;
    return sizes;
  }

  /**
   * Asks the sandbox, for what has no name here; when the engine breaks, starts it afresh and says so.
   * @template T
   * @param {(sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  ask(question) {
    if (!this.#sandbox) return undefined;
    try {
      return question(this.#sandbox);
    } catch (error) {
      if (!isTrap(error)) throw error;
      this.#recover(/** @type {Error} */ (error));
      return undefined;
    }
  }

  /**
   * Asks the whole engine; nothing before it is there: see `becomeWhole`.
   * @template T
   * @param {(engine: import("./engine.js").WholeEngine, sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  askWhole(question) {
    const engine = this.#engine;
    return isWhole(engine) ? this.ask((sandbox) => question(engine, sandbox)) : undefined;
  }

  /** Whether it has gone on in the whole engine. */
  get isWhole() {
    return isWhole(this.#engine);
  }

  /** Goes on in the whole engine, which knows what panels show; says `whole` then. */
  becomeWhole() {
    this.#becoming ??= this.#become().finally(() => (this.#becoming = undefined));
    return this.#becoming;
  }

  async #become() {
    while (!this.#gone && !isWhole(this.#engine)) {
      const engine = await loadWholeEngine();
      const text = this.#text;
      const still = () => !this.#gone && text === this.#text && !isWhole(this.#engine);
      const prepared = text ? await prepareIn(engine, text, still) : undefined;
      if (!still()) leave(engine, prepared?.sandbox);
      else {
        this.#take(engine, prepared?.sandbox);
        if (this.info?.needless) this.mending.begin();
      }
    }
  }

  /**
   * Starts afresh in another instance of the engine, once that is there.
   * @param {Error} error
   */
  #recover(error) {
    const wreck = this.#sandbox;
    this.#sandbox = undefined;
    this.#traps += 1;
    replaceEngine(this.#engine, wreck).then(
      (engine) => this.#restart(engine, error),
      (second) => this.report(second),
    );
  }

  /**
   * Goes on as before in another instance of the engine: a neighbour broke the one we shared.
   * @param {import("./engine.js").Engine} engine
   */
  #move(engine) {
    if (!this.#sandbox) this.#engine = engine;
    else this.#take(engine);
  }

  /**
   * Goes on as before in another engine.
   * @param {import("./engine.js").Engine} engine
   * @param {Sandbox} [opened] that the scenario is open in already
   */
  #take(engine, opened) {
    const { answer, lit } = this;
    leave(this.#engine, this.#sandbox);
    this.#engine = engine;
    this.#sandbox = undefined;
    if (answer) {
      this.#sandbox = opened ?? new engine.Sandbox();
      this.ask((sandbox) => {
        if (!opened) sandbox.open(this.#text);
        sandbox.apply(answer.applied);
        sandbox.settle();
        this.#send(sandbox);
        if (lit !== undefined) sandbox.light(lit);
      });
    }
    this.#readyPin();
    if (!this.preview) {
      this.#emit("whole");
      return;
    }
    // A pack that is on its way is let go.
    this.preview = undefined;
    this.#emit("preview", "whole");
  }

  /**
   * @param {import("./engine.js").Engine} engine
   * @param {Error} error
   */
  #restart(engine, error) {
    this.#engine = engine;
    if (this.#gone) return;
    // What broke it once is tried once more, then the scenario as it opens, then nothing.
    const applied = this.#traps === 1 ? this.answer?.applied : undefined;
    const place = say("page-place-engine");
    const problem = say("page-problem-engine", { reason: error.message });
    if (this.#traps > 2 || !this.source) {
      this.report({ problems: [{ place, problem, fix: say("page-fix-engine-other") }] });
      return;
    }
    try {
      this.open(this.#text, this.source, { applied });
      this.#readyPin();
      const fix = say("page-fix-engine-again");
      this.report({ problems: [{ place, problem, fix }] }, say("page-heading-afresh"));
    } catch (second) {
      this.report(second);
    }
  }

  /** @param {...string} names */
  #emit(...names) {
    this.said += 1;
    // What is applied, tried or edited ends any other instant.
    if (names.some((name) => ENDS_INSTANT.includes(name))) this.shownBy = undefined;
    for (const name of names) this.dispatchEvent(new Event(name));
  }
}
