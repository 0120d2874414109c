/**
 * Changing the train in the half-section itself: lines drawn from one part to another join them, and a
 * press on a part, a set, a clutch or the room between sets opens a strip with what can be done with it.
 */

import { h } from "../kit/dom.js";
import { capital, say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { doing } from "./fields.js";
import { GripButtons } from "./grip_buttons.js";
import { gripsOf, middle, nearest } from "./grips.js";
import { joins } from "./joins.js";
import { svgLine } from "./line.js";
import { NAME } from "./name_field.js";
import { RATIO } from "./ratio_handle.js";
import { goesOn } from "./steps.js";
import { Strip } from "./strip.js";
import { toolsOf, waysToJoin } from "./tools.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./grips.js").Grip} Grip */
/** @typedef {import("./tools.js").Hands} Hands */
/** @typedef {import("../engine/levertrain_whole.js").Sheet} Sheet */

export class OnDrawing {
  #desk;
  #section;
  #buttons;
  #line = svgLine();
  #mark = h("div", { class: "grip-mark", hidden: true });
  #strip;
  #hint = h("p", { class: "strip-hint" });
  #bar;
  #modes;
  #undo;
  #redo;
  #range;
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
  #goesOn;
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
    this.#buttons = new GripButtons(desk, section, {
      press: (grip, byKey) => this.#press(grip, byKey),
      pullLine: (grip) => this.#pullLine(grip),
      pullAlong: (grip) => this.#pullAlong(grip),
    });
    this.#strip = new Strip(section, () => this.#close(true));
    this.#goesOn = goesOn(this.#strip.node);
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
    section.append(this.#line.node, this.#mark, this.#buttons.node);
    const frame = /** @type {HTMLElement} */ (section.closest(".stage-frame"));
    frame.append(this.#strip.node);
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
    for (const node of [this.#buttons.node, this.#strip.node, this.#bar]) node.addEventListener("keydown", (event) => this.#key(event));
  }

  /** Whether a field is one of its own. @param {Node} node */
  owns(node) {
    return this.#strip.node.contains(node);
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
    this.#buttons.show(gripsOf(desk, sheet, places, zoom));
    this.#tell();
    if (!this.#chosen) return;
    const grip = this.#buttons.gripOf(this.#chosen);
    // A handle that is being drawn stays in the hand, to which fingers give no focus, and the cursor in a name that is being typed.
    const held = [RATIO, NAME].includes(this.#strip.focused ?? "") || this.#strip.isDrawn;
    if (!grip || !held) return this.#open(this.#chosen, false);
    for (const show of this.#shows) show();
    this.#strip.title(titleOf(grip));
  }

  #clear() {
    this.#buttons.clear();
    this.#close();
    this.#tell();
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
    const aims = () => this.#buttons.grips.filter((grip) => joins(from, grip));
    /** @type {Grip | undefined} */
    let aim;
    const take = (/** @type {Grip | undefined} */ next) => {
      if (aim) this.#buttons.aim(aim.key, false);
      aim = next;
      if (aim) this.#buttons.aim(aim.key, true);
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
    const gaps = this.#buttons.grips.filter((grip) => grip.kind === "gap");
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
    this.#strip.fill(label, waysToJoin(from, to, hands), place ? { left: place.x, top: place.y, width: 0, height: 0 } : to.area);
    if (byKey || place === undefined) this.#strip.focusFirst();
  }

  /** Opens the strip of a thing. @param {string} key @param {boolean} focus */
  #open(key, focus) {
    const fresh = key !== this.#chosen;
    if (fresh) this.#ratios = undefined;
    const grip = this.#buttons.gripOf(key);
    if (!grip) return this.#close();
    const at = this.#strip.focused;
    this.#shows = [];
    const tools = toolsOf(grip, this.#hands());
    this.#chosen = this.#held = key;
    this.#strip.fill(titleOf(grip), tools, grip.area, fresh);
    this.#buttons.choose(key);
    if (focus) this.#strip.focusFirst();
    else if (at !== undefined) this.#strip.focus(at);
  }

  /** @param {boolean} [back] whether the focus goes back to what it was for */
  #close(back = false) {
    const inside = this.#strip.hasFocus;
    this.#chosen = undefined;
    this.#from = undefined;
    this.#strip.empty();
    this.#buttons.choose(undefined);
    this.#tell();
    if (back || inside) this.#buttons.focus(this.#held);
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
        const first = this.#buttons.grips.find((grip) => joins(from, grip));
        if (first) this.#buttons.focus(first.key);
      },
      choose: (key) => (key === undefined ? this.#close() : this.#open(key, this.#strip.hasFocus)),
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
    this.#buttons.offer(from);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.key === "Escape" && (this.#chosen || this.#from || !this.#strip.node.hidden)) {
      event.stopPropagation();
      this.#close(true);
    }
  }
}

/** What the strip of a thing says that it is for. @param {Grip} grip */
function titleOf({ kind, label }) {
  return kind === "gap" ? say("page-draw-new-set") : capital(label);
}
