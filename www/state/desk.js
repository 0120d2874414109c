/**
 * What is on screen: the sandbox, which alone knows the truth, and the page's last reading of it.
 *
 * Views listen to its events and ask it for changes:
 * `edited` (the train was changed, which `train` tells too), `train` (another scenario), `answer` (other elements applied), `preview` (a pack is dragged, or
 * no longer), `speed`, `torque`, `units`, `assumptions` (about losses), `road` (pedal, slope and
 * lock-up), `pin` (something else is compared with, or ready to be), `light` (a member is pointed at), `instant` (both drawings show another instant of a shift), `look` (colours, sizes, turning), `veil` (a question is open, or none any more), `lock` (other things cannot be changed), `whole` (the whole engine has taken
 * over) and `message` (problems for the user).
 */

import { say } from "../kit/words.js";
import { USUAL_ASSUMPTIONS } from "./assumptions.js";
import { isWhole } from "./engine.js";
import { Mending } from "./mending.js";
import { Message } from "./message.js";
import { Pinned } from "./pinned.js";
import { Quantities } from "./quantities.js";
import { Remembered } from "./remembered.js";
import { USUAL_ROAD } from "./road.js";
import { Supervisor } from "./supervisor.js";
import { unitCode, USUAL_UNITS } from "./units.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain.js").TrainInfo} TrainInfo */
/** @typedef {import("../engine/levertrain.js").Answer} Answer */
/** @typedef {import("../engine/levertrain.js").Settings} Settings */
/** @typedef {{ stem: string } | { file: number, name: string }} Source where a scenario came from */
/** @typedef {{ id: string, answer: Answer }} Preview what changing one element over would give */
/** @typedef {import("./preparing.js").Prepared} Prepared */
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
  #text = "";
  /** What betters the drawing after an edit. @type {Mending<TrainInfo>} */
  mending = new Mending(
    () => (!this.#supervisor.isGone && this.isWhole && this.askWhole((engine, sandbox) => engine.mend(sandbox, 1))) ?? false,
    (info) => this.#mended(info),
  );
  /** @type {Pick<Settings, "palette" | "scale" | "merged" | "one_module" | "rate" | "power" | "width">} */
  #look = { palette: "light", scale: 2, merged: false, one_module: false, rate: 0, power: false, width: 800 };
  /** Counts what was said: events of one count are said together. */
  said = 0;
  /** The sheet as it was asked for last. @type {Remembered<import("../engine/levertrain_whole.js").Sheet>} */
  #sheet = new Remembered();
  /** The range chart as it was asked for last. @type {Remembered<import("../engine/levertrain.js").Chart>} */
  #chart = new Remembered();
  /** Whoever shows another instant in both drawings. @type {import("./moment.js").Shower | undefined} */
  shownBy;
  /** The sandbox, which may go on in another engine at any time. */
  #supervisor;
  /** What is pinned to compare with. */
  pinned;

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
  /** What went wrong, as long as the user has not taken it away. @type {Message | undefined} */
  message;
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

  /** @param {import("./engine.js").Engine} engine */
  constructor(engine) {
    super();
    this.#supervisor = new Supervisor(engine, {
      standing: () => this.answer && { text: this.#text, applied: this.answer.applied },
      resume: (sandbox) => {
        this.#send(sandbox);
        if (this.lit !== undefined) sandbox.light(this.lit);
      },
      moved: () => this.#moved(),
      becameWhole: () => this.#beginMending(),
      restart: (error, traps) => this.#restart(error, traps),
      report: (error) => this.report(error),
    });
    this.pinned = new Pinned(
      this,
      () => this.#supervisor.engine,
      () => {
        this.ask((sandbox) => this.#send(sandbox));
        this.#emit("pin");
      },
    );
  }

  /**
   * Makes ready to open a scenario, in pieces: to lay out a large train takes a while.
   * @param {string} text
   * @returns {Promise<Prepared | undefined>} for `open`; nothing where nobody looks any more
   */
  async prepare(text) {
    if (this.#supervisor.isGone) return undefined;
    // What is bettered meanwhile would hold it up.
    this.mending.stop();
    try {
      const prepared = await this.#supervisor.prepare(text);
      // Another engine took its place meanwhile.
      return prepared ?? this.prepare(text);
    } catch (error) {
      this.#beginMending();
      throw error;
    }
  }

  /** Betters the drawing, where shafts cross in it that need not. */
  #beginMending() {
    if (this.info?.needless) this.mending.begin();
  }

  /**
   * Opens a scenario. On a problem everything on screen stays.
   * @param {string} text
   * @param {Source} source
   * @param {{ applied?: string[], speed?: number, torque?: number, units?: import("./units.js").Units, road?: import("./road.js").Road, assumptions?: import("./assumptions.js").Assumptions, shown?: import("./shown.js").Shown }} [view]
   * @param {Prepared} [prepared] what `prepare` made of the text
   */
  open(text, source, { applied, speed, torque, units, road, assumptions, shown } = {}, prepared) {
    const { sandbox, info, answer } = this.#supervisor.open(text, applied, prepared);
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
    this.#send(sandbox);
    this.#emit("train", "answer", "speed", "torque", "units", "road", "assumptions", "look");
    this.#beginMending();
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
    this.#supervisor.wentWell();
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
    if (this.pinned.pin) this.#emit("veil", "pin");
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
      this.#change((engine, sandbox) => engine.edit(sandbox, JSON.stringify(edit), continues));
    } catch (error) {
      this.before = before;
      throw error;
    }
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
    this.#supervisor.wentWell();
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

  /** What the forms that change the train show; nothing before the whole engine is there. */
  get sheet() {
    return this.#sheet.of(this.info, () => this.askWhole((engine, sandbox) => engine.sheet(sandbox)));
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
    this.#set("speed", { speed });
  }

  /** @param {number} torque N·m */
  setTorque(torque) {
    this.#set("torque", { torque });
  }

  /** @param {Partial<import("./units.js").Units>} change */
  setUnits(change) {
    this.#set("units", { units: { ...this.units, ...change } });
  }

  /** @param {Partial<import("./assumptions.js").Assumptions>} change */
  assume(change) {
    this.#set("assumptions", { assumptions: { ...this.assumptions, ...change } });
  }

  /** @param {Partial<import("./road.js").Road>} change */
  drive(change) {
    this.#set("road", { road: { ...this.road, ...change } });
  }

  /**
   * Takes on a setting, unless it is locked: then it is told anew as it is.
   * @param {string} event
   * @param {Partial<Pick<Desk, "speed" | "torque" | "units" | "assumptions" | "road">>} change
   */
  #set(event, change) {
    if (!this.#keepsOff("settings")) Object.assign(this, change);
    this.ask((sandbox) => this.#send(sandbox));
    this.#emit(event);
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
    return this.#chart.of(this.info, () => this.ask((sandbox) => sandbox.chart()));
  }

  /**
   * Tells the user what went wrong.
   * @param {unknown} error
   * @param {string} [heading] what that means for what is on screen
   * @param {import("./message.js").Offer} [offer] what can be done about it at once
   */
  report(error, heading = say("page-heading-kept"), offer) {
    this.message = new Message(error, this.info ? heading : say("page-heading-nothing"), offer);
    this.#emit("message");
  }

  /** Takes the message away. */
  dismiss() {
    if (!this.message) return;
    this.message = undefined;
    this.#emit("message");
  }

  /** Gives the sandbox's memory back. */
  free() {
    this.pinned.free();
    this.#supervisor.free();
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
    const { engine } = this.#supervisor;
    const pinned = this.pinned.sandbox;
    if (pinned && isWhole(engine)) {
      pinned.set(text);
      sizes.leverHeight += engine.legendHeight();
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
    return this.#supervisor.ask(question);
  }

  /**
   * Asks the whole engine; nothing before it is there: see `becomeWhole`.
   * @template T
   * @param {(engine: import("./engine.js").WholeEngine, sandbox: Sandbox) => T} question
   * @returns {T | undefined}
   */
  askWhole(question) {
    return this.#supervisor.askWhole(question);
  }

  /** Whether it has gone on in the whole engine. */
  get isWhole() {
    return this.#supervisor.isWhole;
  }

  /** Goes on in the whole engine, which knows what panels show; says `whole` then. */
  becomeWhole() {
    return this.#supervisor.becomeWhole();
  }

  /** Says that it has gone on in another engine. */
  #moved() {
    this.pinned.ready();
    if (!this.preview) {
      this.#emit("whole");
      return;
    }
    // A pack that is on its way is let go.
    this.preview = undefined;
    this.#emit("preview", "whole");
  }

  /**
   * Opens what was on screen in a fresh engine, and says what happened.
   * @param {Error} error what the engine broke with
   * @param {number} traps how many times it did since the last change that went well
   */
  #restart(error, traps) {
    // What broke it once is tried once more, then the scenario as it opens, then nothing.
    const applied = traps === 1 ? this.answer?.applied : undefined;
    const place = say("page-place-engine");
    const problem = say("page-problem-engine", { reason: error.message });
    if (traps > 2 || !this.source) {
      this.report({ problems: [{ place, problem, fix: say("page-fix-engine-other") }] });
      return;
    }
    try {
      this.open(this.#text, this.source, { applied });
      this.pinned.ready();
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
