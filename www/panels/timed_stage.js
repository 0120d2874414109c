/** Plays a shift in time, slowly, on both drawings of the stage: a bar that stays in sight while they show it. */

import { h, icon } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { phaseName } from "./timed_figures.js";
import { timeWords } from "./timed_grip.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./timed_run.js").TimedRun} TimedRun */

/** So many seconds are one of the shift. */
const SLOWNESS = 8;
/** The step of the slider in seconds. */
const STEP = 0.005;

export class TimedStage {
  #desk;
  #run;
  #tell;
  #back;
  #section;
  #name = "";
  #until = 1;
  #time = 0;
  /** Whether both drawings show it. */
  #shows = false;
  /** When the last frame was, while it plays. @type {number | undefined} */
  #before;
  #words = h("p", { class: "timed-now", "data-part": "timed-now" });
  #slider = /** @type {HTMLInputElement} */ (
    h("input", { type: "range", min: 0, step: STEP, "aria-label": say("page-timed-time"), "data-part": "timed-bar-time", input: () => this.#seek() })
  );
  #play = h("button", { class: "plain play", type: "button", "data-part": "timed-play", click: () => this.#turn() });
  #end = h("button", { class: "plain", type: "button", "data-part": "timed-back", click: () => this.#leave() }, say("page-timed-back"));
  node = h(
    "div",
    { class: "timed-bar", role: "group", "aria-label": say("page-timed-bar"), "data-part": "timed-bar", hidden: true },
    this.#words,
    h("div", { class: "timed-bar-row" }, this.#play, this.#slider, this.#end),
  );

  /**
   * @param {Desk} desk
   * @param {TimedRun} run
   * @param {HTMLElement} section the half-section, which comes into sight with it
   * @param {(seconds: number) => void} tell what to do when another time is read
   * @param {() => void} back brings the plot into sight
   */
  constructor(desk, run, section, tell, back) {
    this.#back = back;
    this.#desk = desk;
    this.#run = run;
    this.#section = section;
    this.#tell = tell;
    this.#label();
  }

  /** @param {string} name what the shift is called @param {number} until */
  about(name, until) {
    this.#name = name;
    this.#until = until;
    this.#slider.max = String(until);
  }

  /** Begins to play, with both drawings in sight. */
  start() {
    if (this.#time >= this.#until) this.#go(0);
    this.#show(true);
    this.#before = performance.now();
    this.#label();
    this.#section.scrollIntoView({ block: "start", behavior: "instant" });
    this.#play.focus({ preventScroll: true });
    requestAnimationFrame((now) => this.#frame(now));
  }

  /** Has both drawings show what is known now, where they show it. @param {number} time */
  read(time) {
    this.#time = time;
    if (this.#shows) this.#show(true);
    else this.#say();
  }

  /** Goes back to the plot. */
  #leave() {
    this.end();
    this.#back();
  }

  /** Has both drawings show the steady motion again. */
  end() {
    this.#stop();
    if (this.#shows) this.#show(false);
  }

  /** The steady motion is shown again already. */
  gone() {
    this.#stop();
    this.#shows = false;
    this.node.hidden = true;
  }

  /** @param {string} shaft */
  speedOf(shaft) {
    const at = this.#desk.info?.shafts.findIndex(({ id }) => id === shaft) ?? -1;
    return this.#run.ask((shift) => shift.reading(this.#time))?.speeds[at];
  }

  get isShown() {
    return this.#shows;
  }

  #turn() {
    if (this.#before === undefined) this.start();
    else this.#stop();
  }

  #stop() {
    this.#before = undefined;
    this.#label();
  }

  #seek() {
    this.#stop();
    this.#go(Number(this.#slider.value));
  }

  /** @param {number} time */
  #go(time) {
    this.#time = time;
    this.#tell(time);
    if (this.#shows) this.#show(true);
  }

  /** @param {number} now */
  #frame(now) {
    if (this.#before === undefined || !this.#shows) return;
    const time = Math.min(this.#time + (now - this.#before) / 1000 / SLOWNESS, this.#until);
    this.#before = now;
    this.#go(time);
    if (time >= this.#until) this.#stop();
    else requestAnimationFrame((next) => this.#frame(next));
  }

  /** @param {boolean} shows */
  #show(shows) {
    const time = shows ? this.#time : undefined;
    const shown = this.#desk.showInstant(() => this.#run.ask((shift, sandbox) => shift.showOnStage(sandbox, time)), this);
    this.#shows = Boolean(shown);
    this.node.hidden = !this.#shows;
    this.#say();
  }

  #say() {
    const reading = this.#run.ask((shift) => shift.reading(this.#time));
    const values = { shift: this.#name, time: timeWords(this.#time) };
    const words = reading?.phase ? say("page-timed-now-phase", { ...values, phase: phaseName(reading.phase) }) : say("page-timed-now", values);
    this.#words.textContent = words;
    this.#slider.value = String(this.#time);
    this.#slider.setAttribute("aria-valuetext", words);
  }

  #label() {
    const plays = this.#before !== undefined;
    this.#play.replaceChildren(icon(plays ? "pause" : "play"), plays ? say("page-timed-pause") : say("page-timed-play"));
  }
}
