/** Buttons over all that can be taken hold of in the half-section, of which arrow keys go from one to the next. */

import { arrowTarget, focusedIn, h, keepIn, rove } from "../kit/dom.js";
import { capital, say } from "../kit/words.js";
import { joins } from "./joins.js";
import { makePullable } from "./pulling.js";

/** @typedef {import("./grips.js").Grip} Grip */
/**
 * What comes of taking hold of something.
 * @typedef {object} Takes
 * @property {(grip: Grip, byKey: boolean) => void} press
 * @property {(grip: Grip) => import("./pulling.js").Pull} pullLine draws a line from it
 * @property {(grip: Grip) => import("./pulling.js").Pull} pullAlong moves it along the axis
 */

/** Milliseconds that things take to glide where they belong. */
const GLIDE = 200;
/** What stands where a set can be added. */
const PLUS = "+";

export class GripButtons {
  #desk;
  #section;
  #takes;
  node = h("div", { class: "grips", role: "group", "aria-label": say("page-draw-grips") });
  /** @type {Grip[]} */
  grips = [];
  /** @type {Map<string, HTMLElement>} */
  #buttons = new Map();
  /** What the next thing that is pressed is joined with: only what it may be joined with is used then. @type {Grip | undefined} */
  #from;

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {HTMLElement} section what the half-section and its switches lie in
   * @param {Takes} takes
   */
  constructor(desk, section, takes) {
    this.#desk = desk;
    this.#section = section;
    this.#takes = takes;
    desk.addEventListener("light", () => this.#light());
    this.node.addEventListener("keydown", (event) => {
      const target = arrowTarget(event, this.#usable(), /** @type {HTMLElement} */ (event.target));
      if (!target) return;
      event.preventDefault();
      target.focus();
    });
  }

  /** @param {string | undefined} key */
  gripOf(key) {
    return this.grips.find((grip) => grip.key === key);
  }

  /** Has a button for every grip, the same as before for the same. @param {Grip[]} grips */
  show(grips) {
    this.grips = grips;
    const keys = [...this.#buttons.keys()];
    const same = keys.length === grips.length && grips.every(({ key }, index) => keys[index] === key);
    if (!same) {
      const known = this.#buttons;
      const at = focusedIn(this.node)?.dataset.key;
      this.#buttons = new Map(grips.map((grip) => [grip.key, known.get(grip.key) ?? this.#make(grip)]));
      keepIn(this.node, [...this.#buttons.values()]);
      const again = at === undefined ? undefined : this.#buttons.get(at);
      this.#rove(again);
      again?.focus({ preventScroll: true });
    }
    let moves = false;
    for (const { key, kind, label, area, box, shaft } of grips) {
      const button = /** @type {HTMLElement} */ (this.#buttons.get(key));
      const left = `${box.left}px`;
      if (button.style.left !== left) moves = true;
      button.style.left = left;
      button.style.top = `${box.top}px`;
      button.style.width = `${box.width}px`;
      button.style.height = `${box.height}px`;
      const inner = /** @type {HTMLElement} */ (button.firstElementChild);
      inner.style.inset = `${area.top - box.top}px ${box.left + box.width - area.left - area.width}px ${box.top + box.height - area.top - area.height}px ${area.left - box.left}px`;
      const name = kind === "member" ? this.#memberName(label, shaft) : capital(label);
      button.setAttribute("aria-label", name);
    }
    // They are where they belong at once, and are seen when the drawing has come there too.
    if (moves && this.#desk.editing && !this.#desk.still) this.node.animate({ opacity: [0, 0, 1] }, GLIDE);
    this.#light();
  }

  clear() {
    this.grips = [];
    this.#buttons = new Map();
    this.node.replaceChildren();
  }

  /** Uses all, or only what may be joined with a thing. @param {Grip | undefined} from */
  offer(from) {
    this.#from = from;
    for (const [key, button] of this.#buttons) button.toggleAttribute("data-from", key === from?.key);
    this.#rove(this.#usable().find((button) => button.tabIndex === 0));
  }

  /** Marks the one that something is open of. @param {string | undefined} chosen */
  choose(chosen) {
    for (const [key, button] of this.#buttons) button.toggleAttribute("data-chosen", key === chosen);
  }

  /** Marks the one that a line would end at, or none any more. @param {string} key @param {boolean} aimed */
  aim(key, aimed) {
    this.#buttons.get(key)?.toggleAttribute("data-aim", aimed);
  }

  /** Goes to one of them; to the first where that is not there. @param {string | undefined} key */
  focus(key) {
    const known = (key === undefined ? undefined : this.#buttons.get(key)) ?? this.#buttons.values().next().value;
    known?.focus({ preventScroll: true });
  }

  /** The buttons that are in sight just now. */
  #usable() {
    const from = this.#from;
    const used = this.grips.filter((grip) => (from ? joins(from, grip) : grip.kind !== "housing"));
    return used.flatMap(({ key }) => this.#buttons.get(key) ?? []);
  }

  /** @param {HTMLElement} [current] */
  #rove(current) {
    for (const button of this.#buttons.values()) button.tabIndex = -1;
    const usable = this.#usable();
    rove(usable, current);
    // Who is to choose one of them goes from each to the next by the tabulator too, rather than away from all.
    if (this.#from) for (const button of usable) button.tabIndex = 0;
  }

  /** @param {string} label @param {string} shaft */
  #memberName(label, shaft) {
    const info = this.#desk.info;
    const known = info?.shafts.find(({ id }) => id === shaft);
    return say("page-draw-on", { member: capital(label), shaft: known ? known.label : (info?.housing ?? "") });
  }

  /** @param {Grip} grip */
  #make({ key, kind }) {
    const sign = kind === "gap" ? PLUS : "";
    const face = h("span", { class: "grip-face" }, sign);
    const button = h("button", { type: "button", class: "grip", "data-key": key, "data-kind": kind }, face);
    const grip = () => /** @type {Grip} */ (this.gripOf(key));
    button.addEventListener("click", (event) => this.#takes.press(grip(), event.detail === 0));
    button.addEventListener("focus", () => {
      this.#rove(button);
      this.#point(grip());
    });
    button.addEventListener("pointerenter", () => this.#point(grip()));
    button.addEventListener("pointerleave", () => this.#desk.light(undefined));
    if (kind === "member" || kind === "end") makePullable(button, this.#section, () => this.#takes.pullLine(grip()));
    if (kind === "set" || kind === "element") makePullable(button, this.#section, () => this.#takes.pullAlong(grip()));
    return button;
  }

  /** @param {Grip} grip */
  #point({ kind, id, at, shaft }) {
    if (kind === "member") this.#desk.light(shaft, { coupling: id, index: at });
  }

  #light() {
    const { lit } = this.#desk;
    for (const { key, kind, shaft } of this.grips) {
      const member = kind === "member" || kind === "end";
      this.#buttons.get(key)?.toggleAttribute("data-lit", member && lit !== undefined && shaft === lit);
    }
  }
}
