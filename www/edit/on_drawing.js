/**
 * Changing the train in the half-section itself: lines drawn from one part to another join them, and a
 * press on a part, a set, a clutch or the room between sets opens a strip with what can be done with it.
 */

import { arrowTarget, h, keepIn, rove } from "../kit/dom.js";
import { capital, say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { doing } from "./fields.js";
import { gripsOf, middle, nearest } from "./grips.js";
import { svgLine } from "./line.js";
import { NAME } from "./name_field.js";
import { makePullable } from "./pulling.js";
import { RATIO } from "./ratio_handle.js";
import { rejoins } from "./rejoining.js";
import { goesOn } from "./steps.js";
import { toolsOf, waysToJoin } from "./tools.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./grips.js").Grip} Grip */
/** @typedef {import("./tools.js").Hands} Hands */
/** @typedef {import("../engine/levertrain_whole.js").Sheet} Sheet */

/** Room between a thing and its strip, and between the strip and the edges. */
const APART = 8;
/** Height of what stands between the drawings. */
const BETWEEN = 24;
/** Room that what sticks to the top of a small window takes. */
const STUCK = 64;
/** Milliseconds that things take to glide where they belong. */
const GLIDE = 200;
/** What stands where a set can be added. */
const PLUS = "+";
const HOUSING = "housing";

export class OnDrawing {
  #desk;
  #section;
  #layer = h("div", { class: "grips", role: "group", "aria-label": say("page-draw-grips") });
  #line = svgLine();
  #mark = h("div", { class: "grip-mark", hidden: true });
  #strip = h("div", { class: "strip", role: "group", hidden: true });
  #hint = h("p", { class: "strip-hint" });
  #bar;
  #modes;
  #undo;
  #redo;
  #range;
  /** @type {Grip[]} */
  #grips = [];
  /** @type {Map<string, HTMLElement>} */
  #buttons = new Map();
  /** @type {Sheet | undefined} */
  #sheet;
  /** The key of what the strip is for. @type {string | undefined} */
  #chosen;
  /** The key of what was taken hold of last, to which the focus goes back. @type {string | undefined} */
  #held;
  /** The ratios of the set that the strip is for. @type {import("./ratio_handle.js").Ratios | undefined} */
  #ratios;
  /** What the strip has to be told when the train has changed. @type {(() => void)[]} */
  #shows = [];
  /** What the next thing that is pressed is joined with. @type {Grip | undefined} */
  #from;
  /** What a line is being drawn from. @type {Grip | undefined} */
  #pulled;
  #shown = false;
  /** What had been said when it was brought up to date last. */
  #placed = -1;
  /** Whether an edit goes on with the one before. */
  #goesOn = goesOn(this.#strip);
  /** Whether the drawing changes the train rather than working its clutches. */
  #changes = true;

  /**
   * @param {Desk} desk
   * @param {HTMLElement} section what the half-section and its switches lie in
   * @param {() => void} makeRange makes a range of what is applied
   */
  constructor(desk, section, makeRange) {
    this.#desk = desk;
    this.#section = section;
    const modes = /** @type {const} */ ([true, false]).map((changes) =>
      doing(say(changes ? "page-draw-parts" : "page-draw-clutches"), changes ? "parts" : "clutches", () => {
        this.#changes = changes;
        this.#place();
      }),
    );
    this.#modes = modes;
    this.#undo = doing(say("page-edit-undo"), "undo", () => this.#attempt(() => desk.undo()));
    this.#redo = doing(say("page-edit-redo"), "redo", () => this.#attempt(() => desk.redo()));
    this.#range = doing(say("page-edit-add-range"), "make range", () => this.#attempt(makeRange));
    this.#bar = h(
      "div",
      { class: "strip-bar", "data-part": "on-drawing", hidden: true },
      h("span", { class: "joined", role: "group", "aria-label": say("page-draw-mode") }, ...modes),
      this.#undo,
      this.#redo,
      this.#range,
      this.#hint,
    );
    section.append(this.#line.node, this.#mark, this.#layer);
    const frame = /** @type {HTMLElement} */ (section.closest(".stage-frame"));
    frame.append(this.#strip);
    frame.before(this.#bar);
    section.addEventListener("fitted", () => this.#place());
    // Beside everything it closes what is open.
    section.addEventListener("pointerdown", (event) => {
      const inside = /** @type {HTMLElement} */ (event.target).closest(".grip");
      if (this.#shown && !inside) this.#close();
    });
    follow(desk, ["answer", "whole"], () => {
      if (this.#placed !== desk.said) this.#place();
    });
    desk.addEventListener("light", () => this.#light());
    for (const node of [this.#layer, this.#strip, this.#bar]) node.addEventListener("keydown", (event) => this.#key(event));
    this.#layer.addEventListener("keydown", (event) => {
      const target = arrowTarget(event, this.#usable(), /** @type {HTMLElement} */ (event.target));
      if (!target) return;
      event.preventDefault();
      target.focus();
    });
  }

  /** Whether a field is one of its own. @param {Node} node */
  owns(node) {
    return this.#strip.contains(node);
  }

  /** Begins or ends it. @param {boolean} shown */
  show(shown) {
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#bar.hidden = !shown;
    if (!shown) this.#close();
    this.#place();
  }

  /** Brings it up to date with the drawing. */
  #place() {
    const desk = this.#desk;
    this.#placed = desk.said;
    const at = this.#shown && desk.info && desk.isWhole;
    this.#section.toggleAttribute("data-changes", Boolean(at && this.#changes));
    for (const [index, mode] of this.#modes.entries()) mode.setAttribute("aria-pressed", String((index === 0) === this.#changes));
    const sheet = at ? desk.sheet : undefined;
    // Where nothing is yet there are no clutches to work.
    if (sheet?.sets.length === 0) this.#changes = true;
    const { answer } = desk;
    // Where clutches are worked it is always there: came and went it, the drawing would move under the finger.
    this.#range.hidden = this.#changes;
    this.#range.disabled = !answer || answer.applied.length === 0 || answer.range !== null;
    const places = sheet && desk.askWhole((engine, sandbox) => engine.grips(sandbox));
    if (!sheet || !places) return this.#clear();
    this.#sheet = sheet;
    this.#undo.disabled = sheet.undo === 0;
    this.#redo.disabled = sheet.redo === 0;
    if (!this.#changes) return this.#clear();
    const zoom = Number(/** @type {HTMLElement} */ (this.#section.closest(".stage")).dataset.zoom ?? 1);
    this.#grips = gripsOf(desk, sheet, places, zoom);
    this.#furnish();
    this.#tell();
    if (!this.#chosen) return;
    const grip = this.#grips.find(({ key }) => key === this.#chosen);
    // A handle that is being drawn stays in the hand, to which fingers give no focus, and the cursor in a name that is being typed.
    const held = [RATIO, NAME].includes(focused(this.#strip)?.dataset.key ?? "") || this.#strip.querySelector("[data-drawn]");
    if (!grip || !held) return this.#open(this.#chosen, false);
    for (const show of this.#shows) show();
    this.#title(titleOf(grip));
  }

  #clear() {
    this.#grips = [];
    this.#buttons = new Map();
    this.#layer.replaceChildren();
    this.#close();
    this.#tell();
  }

  /** Has a button for every grip, the same as before for the same. */
  #furnish() {
    const keys = [...this.#buttons.keys()];
    const same = keys.length === this.#grips.length && this.#grips.every(({ key }, index) => keys[index] === key);
    if (!same) {
      const known = this.#buttons;
      const at = focused(this.#layer)?.dataset.key;
      this.#buttons = new Map(this.#grips.map((grip) => [grip.key, known.get(grip.key) ?? this.#makeButton(grip)]));
      keepIn(this.#layer, [...this.#buttons.values()]);
      const again = at === undefined ? undefined : this.#buttons.get(at);
      this.#rove(again);
      again?.focus({ preventScroll: true });
    }
    let moves = false;
    for (const { key, kind, label, area, box, shaft } of this.#grips) {
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
    if (moves && this.#desk.editing && !this.#desk.still) this.#layer.animate({ opacity: [0, 0, 1] }, GLIDE);
    this.#light();
  }

  /** The buttons that are in sight just now. */
  #usable() {
    const from = this.#from;
    const used = this.#grips.filter((grip) => (from ? joins(from, grip) : grip.kind !== "housing"));
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
  #makeButton({ key, kind }) {
    const sign = kind === "gap" ? PLUS : "";
    const face = h("span", { class: "grip-face" }, sign);
    const button = h("button", { type: "button", class: "grip", "data-key": key, "data-kind": kind }, face);
    const grip = () => /** @type {Grip} */ (this.#grips.find((grip) => grip.key === key));
    button.addEventListener("click", (event) => this.#press(grip(), event.detail === 0));
    button.addEventListener("focus", () => {
      this.#rove(button);
      this.#point(grip());
    });
    button.addEventListener("pointerenter", () => this.#point(grip()));
    button.addEventListener("pointerleave", () => this.#desk.light(undefined));
    if (kind === "member" || kind === "end") makePullable(button, this.#section, () => this.#pullLine(grip()));
    if (kind === "set" || kind === "element") makePullable(button, this.#section, () => this.#pullAlong(grip()));
    return button;
  }

  /** @param {Grip} grip */
  #point({ kind, id, at, shaft }) {
    if (kind === "member") this.#desk.light(shaft, { coupling: id, index: at });
  }

  #light() {
    const { lit } = this.#desk;
    for (const { key, kind, shaft } of this.#grips) {
      const member = kind === "member" || kind === "end";
      this.#buttons.get(key)?.toggleAttribute("data-lit", member && lit !== undefined && shaft === lit);
    }
  }

  /** @param {Grip} grip @param {boolean} byKey */
  #press(grip, byKey) {
    const from = this.#from;
    if (from) {
      this.#from = undefined;
      this.#tell();
      if (joins(from, grip)) this.#join(from, grip, byKey);
      return;
    }
    if (this.#chosen === grip.key) this.#close();
    else this.#open(grip.key, byKey);
  }

  /** Has only that in sight which may be joined with a thing. @param {Grip | undefined} from */
  #aimFrom(from) {
    if (from) this.#section.dataset.joins = from.kind;
    else delete this.#section.dataset.joins;
  }

  /** Draws a line from a thing. @param {Grip} from */
  #pullLine(from) {
    this.#close();
    this.#pulled = from;
    this.#aimFrom(from);
    const start = middle(from.area);
    const aims = () => this.#grips.filter((grip) => joins(from, grip));
    /** @type {Grip | undefined} */
    let aim;
    const take = (/** @type {Grip | undefined} */ next) => {
      if (aim) this.#buttons.get(aim.key)?.removeAttribute("data-aim");
      aim = next;
      if (aim) this.#buttons.get(aim.key)?.setAttribute("data-aim", "");
      this.#tell(aim ? say("page-draw-pair", { one: from.label, other: aim.label }) : undefined);
    };
    return {
      move: (/** @type {number} */ x, /** @type {number} */ y) => {
        this.#line.draw(start, { x, y });
        const next = nearest(aims(), { x, y });
        if (next?.key !== aim?.key) take(next);
      },
      drop: (/** @type {number} */ x, /** @type {number} */ y) => {
        const to = nearest(aims(), { x, y });
        if (to) this.#join(from, to, false, { x, y });
      },
      end: () => {
        this.#line.hide();
        this.#pulled = undefined;
        take(undefined);
      },
    };
  }

  /** Moves a set or an element along the axis. @param {Grip} grip */
  #pullAlong({ kind, id, at }) {
    this.#close();
    const gaps = this.#grips.filter((grip) => grip.kind === "gap");
    const gapAt = (/** @type {number} */ x) =>
      gaps.reduce((best, gap) => (Math.abs(middle(gap.area).x - x) < Math.abs(middle(best.area).x - x) ? gap : best));
    return {
      move: (/** @type {number} */ x) => {
        this.#mark.hidden = false;
        this.#mark.style.left = `${middle(gapAt(x).area).x}px`;
      },
      drop: (/** @type {number} */ x) => {
        const gap = gapAt(x).at;
        if (kind === "element") {
          if (gap !== at) this.#edit({ edit: "gap", element: id, gap });
          return;
        }
        const own = this.#sheet?.sets.findIndex((set) => set.id === id) ?? 0;
        const to = gap > own ? gap - 1 : gap;
        if (to !== own) this.#edit({ edit: "move-set", set: id, at: to });
      },
      end: () => (this.#mark.hidden = true),
    };
  }

  /**
   * Joins two things by what is chosen.
   * @param {Grip} from
   * @param {Grip} to
   * @param {boolean} byKey
   * @param {{ x: number, y: number }} [place] where the line ended
   */
  #join(from, to, byKey, place) {
    const hands = this.#hands();
    this.#chosen = undefined;
    this.#held = from.key;
    const label = capital(say("page-draw-pair", { one: from.label, other: to.label }));
    this.#fill(label, waysToJoin(from, to, hands), place ? { left: place.x, top: place.y, width: 0, height: 0 } : to.area);
    this.#focusStrip(byKey || place === undefined);
  }

  /** Opens the strip of a thing. @param {string} key @param {boolean} focus */
  #open(key, focus) {
    const fresh = key !== this.#chosen;
    if (fresh) this.#ratios = undefined;
    const grip = this.#grips.find((grip) => grip.key === key);
    if (!grip) return this.#close();
    const at = focused(this.#strip)?.dataset.key;
    this.#shows = [];
    const tools = toolsOf(grip, this.#hands());
    this.#chosen = this.#held = key;
    this.#fill(titleOf(grip), tools, grip.area, fresh);
    for (const [known, button] of this.#buttons) button.toggleAttribute("data-chosen", known === key);
    this.#focusStrip(focus);
    if (at === undefined || focus) return;
    const again = /** @type {HTMLElement | null} */ (this.#strip.querySelector(`[data-key="${at}"]`));
    again?.focus({ preventScroll: true });
  }

  /** @param {boolean} focus */
  #focusStrip(focus) {
    if (!focus) return;
    const first = /** @type {HTMLElement | null} */ (this.#strip.querySelector("button:not(.strip-close):not(:disabled), input"));
    first?.focus({ preventScroll: true });
  }

  /**
   * @param {string} label
   * @param {Node[]} tools
   * @param {import("./grips.js").Area} area what it stands beside
   * @param {boolean} [fresh] whether it was not there, and is to be seen
   */
  #fill(label, tools, area, fresh = true) {
    const strip = this.#strip;
    const close = doing("×", "close", () => this.#close(true), say("page-draw-close"));
    close.classList.add("strip-close");
    strip.replaceChildren(h("b"), close, h("div", { class: "strip-tools" }, ...tools));
    this.#title(label);
    strip.hidden = false;
    // Never beyond what is in sight.
    const stage = /** @type {HTMLElement} */ (this.#section.closest(".stage"));
    strip.style.maxWidth = `${stage.clientWidth - 2 * APART}px`;
    strip.style.left = "0px";
    const [width, height] = [strip.offsetWidth, strip.offsetHeight];
    const middle = area.left + area.width / 2 - stage.scrollLeft;
    strip.style.left = `${Math.max(APART, Math.min(middle - width / 2, stage.clientWidth - APART - width))}px`;
    // Under the whole half-section, so that it hides nothing of what it is for, where both fit into the window.
    const { offsetHeight: tall } = this.#section;
    const beside = area.top + area.height + APART - stage.scrollTop;
    strip.style.top = `${tall + height + STUCK > innerHeight ? beside : tall + BETWEEN - stage.scrollTop}px`;
    // What somebody presses again and again stays where it is.
    if (fresh) strip.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** @param {string} label what the strip is for */
  #title(label) {
    this.#strip.setAttribute("aria-label", label);
    const title = this.#strip.querySelector("b");
    if (title) title.textContent = label;
  }

  /** @param {boolean} [back] whether the focus goes back to what it was for */
  #close(back = false) {
    const inside = focused(this.#strip) !== null;
    this.#chosen = undefined;
    this.#from = undefined;
    this.#strip.hidden = true;
    this.#strip.replaceChildren();
    for (const button of this.#buttons.values()) button.removeAttribute("data-chosen");
    this.#tell();
    if (!back && !inside) return;
    const known = (this.#held === undefined ? undefined : this.#buttons.get(this.#held)) ?? this.#buttons.values().next().value;
    known?.focus({ preventScroll: true });
  }

  /** @returns {Hands} */
  #hands() {
    return {
      desk: this.#desk,
      sheet: () => /** @type {Sheet} */ (this.#sheet),
      edit: (edit, continues) => this.#edit(edit, continues),
      ratios: (found) => (this.#ratios = found ?? this.#ratios),
      shows: (show) => {
        this.#shows.push(show);
        show();
      },
      pick: (from) => {
        this.#close();
        this.#from = from;
        this.#tell();
        const first = this.#grips.find((grip) => joins(from, grip));
        if (first) this.#buttons.get(first.key)?.focus({ preventScroll: true });
      },
      choose: (key) => (key === undefined ? this.#close() : this.#open(key, focused(this.#strip) !== null)),
    };
  }

  /** @param {import("./tools.js").Edit} edit @param {boolean} [continues] */
  #edit(edit, continues = false) {
    return this.#attempt(() => this.#desk.edit(edit, this.#goesOn(continues)));
  }

  /** @param {() => void} change */
  #attempt(change) {
    try {
      change();
      this.#desk.dismiss();
      return true;
    } catch (error) {
      this.#desk.report(error, say("page-edit-refused"));
      return false;
    }
  }

  /** Says what to do next. @param {string} [words] */
  #tell(words) {
    const from = this.#from;
    const usual = !this.#changes ? say("page-draw-hint-clutches") : from ? say("page-draw-hint-join", { what: from.label }) : say("page-draw-hint");
    const hint = words ?? usual;
    // Only what comes of doing something is news.
    this.#hint.setAttribute("aria-live", from || words ? "polite" : "off");
    if (this.#hint.textContent !== hint) this.#hint.textContent = hint;
    this.#aimFrom(from ?? this.#pulled);
    for (const [key, button] of this.#buttons) button.toggleAttribute("data-from", key === from?.key);
    this.#rove(this.#usable().find((button) => button.tabIndex === 0));
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.key === "Escape" && (this.#chosen || this.#from || !this.#strip.hidden)) {
      event.stopPropagation();
      this.#close(true);
    }
  }
}

/** Whether a line may lead from one thing to another. @param {Grip} from @param {Grip} to */
function joins(from, to) {
  const kinds = [from.kind, to.kind].sort().join(" ");
  // An end is on one shaft at a time, and that is free to turn.
  if (kinds === "end member") return from.shaft !== to.shaft && ![from.shaft, to.shaft].includes(HOUSING);
  return from.key !== to.key && (kinds === "member member" || kinds === "housing member" || rejoins(from, to));
}

/** What the strip of a thing says that it is for. @param {Grip} grip */
function titleOf({ kind, label }) {
  return kind === "gap" ? say("page-draw-new-set") : capital(label);
}

/** What in a node has the focus. @param {HTMLElement} node @returns {HTMLElement | null} */
function focused(node) {
  const root = /** @type {ShadowRoot | Document} */ (node.getRootNode());
  const active = /** @type {HTMLElement | null} */ (root.activeElement);
  return active && node.contains(active) ? active : null;
}
