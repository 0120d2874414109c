/** The steps of a walkthrough: a list with a current step, buttons and keys that go through it, and playing. */

import { arrowTarget, h, icon, rove, unseen } from "../kit/dom.js";
import { fraction, NONE, number } from "../kit/format.js";
import { table } from "../kit/table.js";
import { capital, listed, say } from "../kit/words.js";
import { WalkBar } from "./walk_bar.js";

/** @typedef {import("../engine/levertrain_whole.js").WalkStep} WalkStep */
/** @typedef {import("../engine/levertrain_whole.js").Exact} Exact */
/** @typedef {import("../state/desk.js").TrainInfo} TrainInfo */

/** Seconds a step. */
const PACES = [4, 7, 12];
const USUAL_PACE = 7;

export class Steps {
  #light;
  /** @type {WalkStep[]} */
  #steps = [];
  /** @type {TrainInfo | undefined} */
  #info;
  /** Which step is current; none before the first. */
  #at = -1;
  /** @type {ReturnType<typeof setInterval> | undefined} */
  #playing;
  #list = h("ol", { class: "walk-steps", "data-part": "walk-steps", "aria-label": say("page-walk-steps") });
  #previous = h("button", { class: "plain", type: "button", "data-part": "walk-previous", click: () => this.#go(this.#at - 1) }, say("page-walk-previous"));
  #next = h("button", { class: "plain", type: "button", "data-part": "walk-next", click: () => this.#go(this.#at + 1) }, say("page-walk-next"));
  #play = h("button", { class: "plain", type: "button", "data-part": "walk-play", click: () => this.#toggle() });
  #pace = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      { change: () => this.#restart() },
      ...PACES.map((seconds) => h("option", { value: seconds, selected: seconds === USUAL_PACE }, say("page-walk-seconds", { seconds }))),
    )
  );
  /** Says the current step where the focus does not. */
  #told = h("p", { class: "unseen", role: "status", "data-part": "walk-told" });
  #known = h("p", { class: "note", "data-part": "walk-known" });
  #parts;

  #bar;

  /**
   * @param {(step: WalkStep | undefined) => void} light
   * @param {HTMLElement} section the half-section
   * @param {AbortSignal} signal
   * @param {string} name what ids begin with, each by itself on a page
   */
  constructor(light, section, signal, name) {
    this.#light = light;
    this.#pace.id = `${name}-pace`;
    this.#bar = new WalkBar(section, { go: (by) => this.#go(this.#at + by), end: () => this.#end() }, signal);
    this.bar = this.#bar.node;
    const heads = ["page-walk-member", "page-walk-does", "page-per-input-turn", "page-walk-torque"].map((key) => say(key));
    this.#parts = table(say("page-walk-parts"), heads, [2, 3]);
    this.#list.addEventListener("keydown", (event) => this.#key(event));
    this.node = h(
      "section",
      { "aria-labelledby": `${name}-flow` },
      h("h3", { id: `${name}-flow` }, say("page-walk-flow")),
      h(
        "div",
        { class: "walk-controls" },
        this.#previous,
        this.#next,
        this.#play,
        h("span", { class: "walk-pace" }, h("label", { for: this.#pace.id }, say("page-walk-pace")), h("span", { class: "select" }, this.#pace)),
      ),
      this.#told,
      this.#list,
      this.#known,
      h("div", { class: "scroll" }, this.#parts.node),
    );
    this.#mark();
  }

  /**
   * Begins anew with other steps.
   * @param {WalkStep[]} steps
   * @param {TrainInfo | undefined} info
   */
  show(steps, info) {
    this.#info = info;
    if (JSON.stringify(steps) === JSON.stringify(this.#steps)) return;
    this.#steps = steps;
    this.#at = -1;
    this.#told.textContent = "";
    this.#list.replaceChildren(
      ...steps.map(({ sentences }, at) =>
        h(
          "li",
          {},
          h(
            "button",
            { class: "bare", type: "button", "data-step": at, click: () => this.#go(at, false) },
            ...sentences.map((sentence) => h("span", {}, `${sentence} `)),
          ),
        ),
      ),
    );
    this.stop();
    this.#light(undefined);
  }

  /**
   * Says what follows the steps, to be gone on to from the last one where the list is out of sight.
   * @param {string} words
   * @param {() => boolean} goOn says whether there are steps again
   */
  leads(words, goOn) {
    this.#bar.leads(words, () => goOn() && this.#go(0));
  }

  /** Leaves the steps, and lights nothing more. */
  #end() {
    this.#at = -1;
    this.#light(undefined);
    this.#told.textContent = "";
    this.stop();
    this.#next.focus();
  }

  /** Plays no more. */
  stop() {
    clearInterval(this.#playing);
    this.#playing = undefined;
    this.#mark();
  }

  #toggle() {
    if (this.#playing !== undefined) {
      this.stop();
      return;
    }
    this.#go(this.#at + 1 < this.#steps.length ? this.#at + 1 : 0);
    this.#playing = setInterval(() => this.#advance(), Number(this.#pace.value) * 1000);
    this.#advance(0);
  }

  /** Which step is current, from 0; −1 before the first. */
  get at() {
    return this.#at;
  }

  set at(at) {
    this.#go(at, false);
  }

  /** Goes on with another pace. */
  #restart() {
    if (this.#playing === undefined) return;
    clearInterval(this.#playing);
    this.#playing = setInterval(() => this.#advance(), Number(this.#pace.value) * 1000);
  }

  /** @param {number} by */
  #advance(by = 1) {
    if (by > 0) this.#go(this.#at + by);
    if (this.#at + 1 >= this.#steps.length) this.stop();
    else this.#mark();
  }

  /**
   * @param {number} at
   * @param {boolean} tells whether it is said to those who do not see it
   */
  #go(at, tells = true) {
    const step = this.#steps[at];
    if (!step) return;
    this.#at = at;
    this.#light(step);
    if (tells) this.#told.textContent = stepWords(at, this.#steps);
    this.#mark();
  }

  /** Shows which step is current, and what it is about. */
  #mark() {
    const buttons = this.#buttons();
    const current = buttons[this.#at];
    for (const button of buttons) {
      if (button === current) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    }
    rove(buttons, current);
    // They keep the focus of whoever has just pressed them.
    this.#previous.setAttribute("aria-disabled", String(this.#at <= 0));
    this.#next.setAttribute("aria-disabled", String(this.#at + 1 >= this.#steps.length));
    const plays = this.#playing !== undefined;
    this.#play.replaceChildren(icon(plays ? "pause" : "play"), say(plays ? "page-walk-stop" : "page-walk-play"));
    const step = this.#steps[this.#at];
    this.#detail(step);
    this.#bar.show(step && stepWords(this.#at, this.#steps), this.#at <= 0, this.#at + 1 >= this.#steps.length);
  }

  /** @param {WalkStep | undefined} step */
  #detail(step) {
    const label = (/** @type {string} */ id) => this.#info?.shafts.find((shaft) => shaft.id === id)?.label ?? id;
    this.#known.textContent = step ? say("page-walk-known", { shafts: listed(step.known.map(label)) }) : "";
    this.#parts.node.hidden = !step || step.parts.length === 0;
    const several = new Set(step?.parts.map(({ set }) => set)).size > 1;
    this.#parts.body.replaceChildren(
      ...(step?.parts ?? []).map(({ set, role, part, speed, torque }) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, capital(role), several ? h("span", { class: "does" }, set) : null),
          h("td", {}, part),
          figure(speed),
          figure(torque),
        ),
      ),
    );
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const target = arrowTarget(event, this.#buttons(), /** @type {HTMLElement} */ (event.target));
    if (!target) return;
    event.preventDefault();
    // What is focused is read out by that.
    this.#go(Number(target.dataset.step), false);
    target.focus();
  }

  #buttons() {
    return /** @type {HTMLElement[]} */ ([...this.#list.querySelectorAll("button")]);
  }
}

/** @param {number} at @param {WalkStep[]} steps */
function stepWords(at, steps) {
  return say("page-walk-told", { at: at + 1, of: steps.length, text: steps[at].sentences.join(" ") });
}

/** @param {Exact | null} value */
export function figure(value) {
  const title = value ? fraction(value) : null;
  return h("td", { class: "figure", title }, value ? plain(value) : NONE, value ? null : unseen(say("page-free")));
}

/** @param {Exact} value */
function plain(value) {
  return value.fraction.includes("/") ? number(value.decimal) : fraction(value);
}
