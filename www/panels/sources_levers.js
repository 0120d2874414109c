/** The levers, with a grip over each node that can be turned: it is dragged up and down, or moved by arrow keys. */

import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { scroller } from "../kit/table.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */

const DRAWING = "sources-levers";
/** Before the nodes there are height, rev/min of a pixel, and the least width; a node is its shaft, and where it is. */
const HEAD = 3;
const NODE = 3;
/** What keys change a speed by, in steps of rev/min. @type {Record<string, number>} */
const STEPS = { ArrowUp: 10, ArrowRight: 10, ArrowDown: -10, ArrowLeft: -10, PageUp: 100, PageDown: -100 };

export class SourcesLevers {
  #desk;
  #held;
  #drawn;
  #grips = h("div", { class: "driven-grips", role: "group", "aria-label": say("page-sources-grips") });
  /** @type {Stand | undefined} */
  #stand;
  #perPixel = 1;
  /** @type {{ pointer: number, shaft: string, y: number, speed: number, perPixel: number } | undefined} */
  #drag;

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, held, redraw, signal) {
    this.#desk = desk;
    this.#held = held;
    this.#drawn = drawing(desk, DRAWING, ["answer", "units"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.append(this.#grips);
    this.node = scroller(holder, say("page-sources-grips"), signal);
    this.node.dataset.part = "driven";
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => held.ask((sources, sandbox) => sources.svg(sandbox, "levers", width(), light)),
      paint: (picture, scale, light) => held.ask((sources, sandbox) => sources.drawPicture(sandbox, "levers", picture, scale, light)),
    });
  }

  /** @param {Stand} stand */
  show(stand) {
    this.#stand = stand;
    this.#drawn.canvas.setAttribute("aria-label", say("page-drawing-sources-levers", { train: this.#desk.info?.name ?? "" }));
    this.#drawn.changed();
  }

  draw() {
    this.#drawn.paint(
      DRAWING,
      (width) => this.#place(width),
      (canvas) => this.#held.ask((sources, sandbox) => sources.draw(sandbox, "levers", canvas)),
    );
  }

  /**
   * Puts grips where nodes are.
   * @param {number} width
   * @returns {number | undefined} the height that the drawing takes
   */
  #place(width) {
    const stand = this.#stand;
    const places = this.#held.ask((sources, sandbox) => sources.places(sandbox, width));
    if (!stand || !places) return undefined;
    const growth = growthIn(this.#drawn.holder);
    this.#perPixel = places[1] / growth;
    // Narrower the levers would be cut off: then they scroll.
    this.#drawn.holder.style.minWidth = `${Math.ceil(places[2]) * growth}px`;
    const grips = /** @type {HTMLElement[]} */ ([...this.#grips.children]);
    const wanted = [];
    /** @type {Set<string>} */
    const seen = new Set();
    for (let at = HEAD; at < places.length; at += NODE) {
      const shaft = stand.shafts[places[at]];
      if (!shaft) continue;
      const key = `${shaft.id} ${seen.has(shaft.id) ? at : ""}`;
      const grip = grips.find((known) => known.dataset.key === key) ?? this.#grip(shaft.id, key);
      // One of each shaft is enough for keys and for whoever hears the page.
      const first = !seen.has(shaft.id);
      seen.add(shaft.id);
      grip.style.left = `${places[at + 1] * growth}px`;
      grip.style.top = `${places[at + 2] * growth}px`;
      this.#describe(grip, shaft, first);
      wanted.push(grip);
    }
    if (wanted.length !== grips.length || wanted.some((grip, at) => grip !== grips[at])) this.#grips.replaceChildren(...wanted);
    return places[0];
  }

  /**
   * @param {HTMLElement} grip
   * @param {Stand["shafts"][number]} shaft
   * @param {boolean} first
   */
  #describe(grip, shaft, first) {
    const unit = unitOf(this.#desk.units, "speed");
    grip.classList.toggle("moves", shaft.moves);
    grip.classList.toggle("kept", shaft.kept);
    if (!first) {
      grip.setAttribute("aria-hidden", "true");
      return;
    }
    grip.setAttribute("role", "slider");
    grip.setAttribute("aria-orientation", "vertical");
    grip.setAttribute("aria-label", say("page-sources-speed-of", { name: shaft.label }));
    grip.setAttribute("aria-valuenow", String(Math.round(shaft.speed / unit.size)));
    grip.setAttribute("aria-valuetext", `${number(shaft.speed / unit.size)}${NO_BREAK}${unit.name}`);
    if (shaft.moves) {
      grip.tabIndex = 0;
      grip.removeAttribute("aria-disabled");
    } else {
      grip.removeAttribute("tabindex");
      grip.setAttribute("aria-disabled", "true");
    }
  }

  /** @param {string} shaft @param {string} key */
  #grip(shaft, key) {
    const grip = h("div", { class: "driven-grip", "data-key": key, "data-shaft": shaft });
    grip.addEventListener("pointerdown", (event) => this.#take(grip, shaft, event));
    grip.addEventListener("pointermove", (event) => this.#move(event));
    for (const name of ["pointerup", "pointercancel", "lostpointercapture"]) {
      grip.addEventListener(name, (event) => this.#letGo(/** @type {PointerEvent} */ (event)));
    }
    grip.addEventListener("keydown", (event) => this.#key(shaft, event));
    return grip;
  }

  /** @param {string} id */
  #shaft(id) {
    return this.#stand?.shafts.find((shaft) => shaft.id === id);
  }

  /** @param {HTMLElement} grip @param {string} shaft @param {PointerEvent} event */
  #take(grip, shaft, event) {
    const known = this.#shaft(shaft);
    if (!known || this.#drag || event.button !== 0) return;
    if (!known.moves) {
      // To say why.
      this.#held.turn(shaft, known.speed);
      return;
    }
    event.preventDefault();
    grip.focus({ preventScroll: true });
    grip.setPointerCapture(event.pointerId);
    this.#drag = { pointer: event.pointerId, shaft, y: event.clientY, speed: known.speed, perPixel: this.#perPixel };
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const drag = this.#drag;
    if (!drag || drag.pointer !== event.pointerId) return;
    const speed = drag.speed + (drag.y - event.clientY) * drag.perPixel;
    this.#held.turn(drag.shaft, rounded(speed, drag.perPixel));
  }

  /** @param {PointerEvent} event */
  #letGo(event) {
    if (this.#drag?.pointer !== event.pointerId) return;
    this.#drag = undefined;
    this.#held.change((sources) => sources.rest());
  }

  /** @param {string} shaft @param {KeyboardEvent} event */
  #key(shaft, event) {
    const known = this.#shaft(shaft);
    const by = event.key === "Home" ? 0 : STEPS[event.key];
    if (!known || by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    this.#held.turn(shaft, event.key === "Home" ? 0 : Math.round(known.speed + by));
    this.#held.change((sources) => sources.rest());
  }
}

/**
 * No more figures than a pixel tells, and standstill where that is near.
 * @param {number} speed
 * @param {number} perPixel
 */
function rounded(speed, perPixel) {
  const step = 10 ** Math.floor(Math.log10(Math.max(perPixel, 1e-6)));
  return Math.abs(speed) < 2 * perPixel ? 0 : Math.round(speed / step) * step;
}
