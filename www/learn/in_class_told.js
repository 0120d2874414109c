/** What a class reads beside the drawings: range, ratio and way, and one line of words. What is hidden is not there at all. */

import { h, icon, unseen } from "../kit/dom.js";
import { ratio } from "../kit/format.js";
import { motionMark } from "../kit/motion.js";
import { listed, say } from "../kit/words.js";
import { follow } from "../state/follow.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./in_class.js").Part} Part */

/** Stands for what is hidden. */
const ASKED = "?";
/** A number, its sign, and what it is divided by. */
const NUMBER = /[−-]?\d+(?:[.,]\d+)?(?:\/\d+)?/g;
/** How long all must stand still before a screen reader is told, in milliseconds. */
const QUIET = 500;

export class Told {
  #desk;
  #hidden;
  #range = h("p", { class: "class-range", "data-part": "class-range" });
  #applied = h("p", { class: "class-applied" });
  #ratio = h("p", { class: "class-figure", "data-part": "class-answer" });
  #way = h("p", { class: "class-way", "data-part": "class-direction" });
  #words = h("p", {});
  /** @type {import("./in_class_course.js").Step | undefined} */
  #step;
  #timer = 0;
  /** What was hidden when all was told last. */
  #hides = "";
  /** Whether a member is pointed at by keys, which is said. */
  #points = false;
  top = h("div", { class: "class-top" }, h("div", { class: "class-what" }, this.#range, this.#applied), this.#ratio, this.#way);
  line = h("div", { class: "class-line", "data-part": "class-line" }, this.#words);
  status = h("p", { class: "unseen", role: "status", "data-part": "class-status" });

  /**
   * @param {Desk} desk
   * @param {Set<Part>} hidden
   * @param {AbortSignal} signal
   */
  constructor(desk, hidden, signal) {
    this.#desk = desk;
    this.#hidden = hidden;
    follow(desk, ["train", "answer", "preview", "speed", "units"], () => signal.aborted || this.update());
    desk.addEventListener("light", () => this.#line(), { signal });
    signal.addEventListener("abort", () => clearTimeout(this.#timer));
  }

  /** @param {import("./in_class_course.js").Step | undefined} step */
  tell(step) {
    this.#step = step;
    this.update();
  }

  /** Whether there is room for all words of a step. @param {import("./in_class_course.js").Step} step */
  fits(step) {
    const before = [...this.#words.childNodes];
    const lit = this.line.hasAttribute("data-lit");
    this.line.removeAttribute("data-lit");
    this.#words.textContent = say("page-walk-told", { ...step });
    const fits = this.line.scrollHeight <= this.line.clientHeight;
    this.#words.replaceChildren(...before);
    this.line.toggleAttribute("data-lit", lit);
    return fits;
  }

  /** Shows whether the member that is named stays lit. @param {boolean} kept */
  keep(kept) {
    this.line.toggleAttribute("data-kept", kept);
  }

  /** Points at the next member, or at the one before; after the last at none. @param {number} by */
  point(by) {
    const shafts = this.#desk.info?.shafts ?? [];
    const places = shafts.length + 1;
    const now = shafts.findIndex(({ id }) => id === this.#desk.lit);
    const next = (now + 1 + by + places) % places;
    this.#points = true;
    this.#desk.light(shafts[next - 1]?.id);
    this.#say();
    this.#points = false;
  }

  update() {
    const desk = this.#desk;
    const answer = desk.preview?.answer ?? desk.answer;
    if (!answer || !desk.info) return;
    const range = desk.info.ranges.find(({ id }) => id === answer.range);
    this.#range.textContent = range?.label ?? "";
    this.#applied.textContent = appliedIn(desk, answer.applied);
    const hidden = this.#hidden;
    // What is hidden from now on does not stand for half a second where a screen reader finds it.
    const hides = [...hidden].join();
    if (hides !== this.#hides) this.status.textContent = "";
    this.#hides = hides;
    if (hidden.has("ratio")) this.#ratio.replaceChildren(...asked("ratio"));
    else this.#ratio.replaceChildren(...(answer.ratio ? [ratio(answer.ratio), h("span", { class: "answer-one" }, " : 1")] : [answer.stateWords]));
    this.#ratio.toggleAttribute("data-state", !answer.ratio && !hidden.has("ratio"));
    this.#way.replaceChildren(...this.#wayOf(answer));
    this.#tighten();
    this.#line();
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#say(), QUIET);
  }

  /** Has a long name of a range, or of what is applied, take no height of the drawings. */
  #tighten() {
    const { top } = this;
    top.removeAttribute("data-tight");
    const high = /** @type {HTMLElement} */ (this.#range.parentElement).offsetHeight;
    top.toggleAttribute("data-tight", high > parseFloat(getComputedStyle(top).minHeight));
  }

  /** @param {import("../state/desk.js").Answer} answer @returns {(string | Node)[]} */
  #wayOf({ answer, ratio }) {
    if (this.#hidden.has("words") || (!ratio && this.#hidden.has("ratio"))) return [];
    const [way, pace] = answer.split(", ");
    if (!ratio) return [answer];
    const direction = ratio.decimal < 0 ? "backward" : "forward";
    // Slower or faster is a hint; as fast as the input is the ratio itself.
    const told = this.#hidden.has("ratio") ? "" : (pace ?? "");
    return [h("span", { class: `answer-way ${direction}` }, icon(direction), way), h("span", { class: "class-pace" }, told)];
  }

  /** The line: the member that is pointed at, or the step, or what the applied elements do. */
  #line() {
    const desk = this.#desk;
    const answer = desk.preview?.answer ?? desk.answer;
    if (!answer) return;
    const at = answer.shafts.findIndex(({ id }) => id === desk.lit);
    const shaft = answer.shafts[at];
    this.line.toggleAttribute("data-lit", Boolean(shaft));
    // Why it does not drive takes as many lines as it takes.
    this.line.toggleAttribute("data-long", !shaft && answer.state !== "driving");
    const asksRatio = this.#hidden.has("ratio");
    if (shaft) {
      // Which member it is is what a class is shown, whatever it is to guess.
      const speed = !shaft.speed ? "" : this.#hidden.has("numbers") || asksRatio ? ASKED : desk.quantities.text("speed", shaft.speed);
      const motion = this.#hidden.has("words") ? ASKED : motionMark(answer.motions[at]);
      this.#words.replaceChildren(h("b", {}, shaft.label), " ", h("span", { class: "figures" }, speed), " ", motion);
      return;
    }
    if (this.#hidden.has("words")) {
      this.#words.replaceChildren(...asked("words"));
      return;
    }
    // That all turns as one needs no number to be the ratio.
    if (asksRatio && Math.abs(answer.ratio?.decimal ?? 0) === 1) {
      this.#words.replaceChildren(...asked("ratio"));
      return;
    }
    const step = this.#step;
    const drives = answer.state === "driving";
    const text = step ? step.text : (answer.sentences[drives ? 0 : 1] ?? answer.sentences[0] ?? "");
    const shown = asksRatio ? withoutNumbers(desk, text) : text;
    this.#words.replaceChildren(step ? say("page-walk-told", { ...step, text: shown }) : shown);
  }

  /** Tells a screen reader what is new, and nothing twice. */
  #say() {
    const desk = this.#desk;
    const words = this.line.hasAttribute("data-lit") || this.#step ? this.#words.textContent : this.#all();
    if (this.line.hasAttribute("data-lit") && !this.#points && desk.lit !== undefined) return;
    if (words !== this.status.textContent) this.status.textContent = words;
  }

  #all() {
    const parts = [this.#range, this.#applied, this.#ratio, this.#way, this.#words];
    return parts.map(({ textContent }) => textContent).filter(Boolean).join(". ");
  }
}

/** A text with a mark for every number that is none in a name. @param {Desk} desk @param {string} text */
function withoutNumbers({ info }, text) {
  const { elements = [], shafts = [], couplings = [], ranges = [] } = info ?? {};
  const names = [...[...elements, ...shafts, ...couplings, ...ranges].map(({ label }) => label), ...elements.flatMap(({ nouns }) => nouns)];
  const known = names.filter(Boolean).sort((one, other) => other.length - one.length);
  const literal = known.map((name) => name.replace(/[\\^$.*+?()[\]{}|/-]/g, "\\$&"));
  const pieces = literal.length > 0 ? text.split(new RegExp(`(${literal.join("|")})`, "u")) : [text];
  return pieces.map((piece, at) => (at % 2 === 0 ? piece.replace(NUMBER, ASKED) : piece)).join("");
}

/** What stands for a hidden part. @param {Part} part */
function asked(part) {
  return [h("span", { "aria-hidden": "true" }, ASKED), unseen(say("page-class-hidden", { part }))];
}

/** @param {Desk} desk @param {string[]} ids */
function appliedIn(desk, ids) {
  const labels = ids.map((id) => desk.elementLabel(id));
  return labels.length > 0 ? say("page-applied", { elements: listed(labels) }) : say("page-applied-none");
}
