/** Grips over the nodes of levers, by which members are turned: dragged up and down, or moved by arrow keys. */

import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */

/** Of each node there is the place of its shaft in the report, and where it is. */
const NODE = 3;
/** What keys change a speed by, in steps of rev/min. @type {Record<string, number>} */
const STEPS = { ArrowUp: 10, ArrowRight: 10, ArrowDown: -10, ArrowLeft: -10, PageUp: 100, PageDown: -100 };

export class SourcesGrips {
  #desk;
  #held;
  #spoken;
  /** @type {Stand | undefined} */
  #stand;
  #perPixel = 1;
  /** @type {{ pointer: number, shaft: string, y: number, speed: number, perPixel: number } | undefined} */
  #drag;

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {boolean} spoken whether they take keys and are heard: once on a page is enough
   */
  constructor(desk, held, spoken) {
    this.#desk = desk;
    this.#held = held;
    this.#spoken = spoken;
    this.node = h("div", spoken ? { class: "driven-grips", role: "group", "aria-label": say("page-sources-grips") } : { class: "driven-grips", "aria-hidden": "true" });
  }

  /**
   * Puts grips where nodes are.
   * @param {Stand} stand
   * @param {Float64Array} nodes
   * @param {number} zoom CSS pixels to those that they are in
   * @param {number} perPixel rev/min of a CSS pixel upwards
   */
  place(stand, nodes, zoom, perPixel) {
    this.#stand = stand;
    this.#perPixel = perPixel;
    const grips = /** @type {HTMLElement[]} */ ([...this.node.children]);
    const wanted = [];
    /** @type {Set<string>} */
    const seen = new Set();
    for (let at = 0; at < nodes.length; at += NODE) {
      const shaft = stand.shafts[nodes[at]];
      if (!shaft) continue;
      const key = `${shaft.id} ${seen.has(shaft.id) ? at : ""}`;
      const grip = grips.find((known) => known.dataset.key === key) ?? this.#grip(shaft.id, key);
      // One of each shaft is enough for keys and for whoever hears the page.
      const first = !seen.has(shaft.id);
      seen.add(shaft.id);
      const [left, top] = [`${nodes[at + 1] * zoom}px`, `${nodes[at + 2] * zoom}px`];
      if (grip.style.left !== left) grip.style.left = left;
      if (grip.style.top !== top) grip.style.top = top;
      this.#describe(grip, shaft, first);
      wanted.push(grip);
    }
    if (wanted.length !== grips.length || wanted.some((grip, at) => grip !== grips[at])) this.node.replaceChildren(...wanted);
  }

  /** Takes all away. */
  clear() {
    this.#drag = undefined;
    this.node.replaceChildren();
  }

  /**
   * @param {HTMLElement} grip
   * @param {Stand["shafts"][number]} shaft
   * @param {boolean} first
   */
  #describe(grip, shaft, first) {
    grip.classList.toggle("moves", shaft.moves);
    grip.classList.toggle("kept", shaft.kept);
    if (!this.#spoken) return;
    if (!first) {
      grip.setAttribute("aria-hidden", "true");
      return;
    }
    const unit = unitOf(this.#desk.units, "speed");
    grip.setAttribute("role", "slider");
    grip.setAttribute("aria-orientation", "vertical");
    grip.setAttribute("aria-label", say("page-sources-speed-of", { name: bothNames(shaft) }));
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
    // They lie over what would say which member is pointed at.
    grip.addEventListener("pointerenter", () => this.#desk.light(shaft));
    grip.addEventListener("pointerleave", (event) => event.pointerType === "touch" || this.#desk.light(undefined));
    if (this.#spoken) {
      grip.addEventListener("keydown", (event) => this.#key(shaft, event));
      grip.addEventListener("focus", () => this.#desk.light(shaft));
      grip.addEventListener("blur", () => this.#desk.light(undefined));
    }
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
    if (!drag || drag.pointer !== event.pointerId || event.clientY === drag.y) return;
    const speed = drag.speed + (drag.y - event.clientY) * drag.perPixel;
    this.#held.turn(drag.shaft, rounded(speed, drag.perPixel));
  }

  /** @param {PointerEvent} event */
  #letGo(event) {
    if (this.#drag?.pointer !== event.pointerId) return;
    this.#drag = undefined;
    this.#held.rest();
  }

  /** @param {string} shaft @param {KeyboardEvent} event */
  #key(shaft, event) {
    const known = this.#shaft(shaft);
    const by = event.key === "Home" ? 0 : STEPS[event.key];
    if (!known || by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    this.#held.turn(shaft, event.key === "Home" ? 0 : Math.round(known.speed + by), true);
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

/**
 * What stands at a shaft, and what the drawings call it.
 * @param {Stand["shafts"][number]} shaft
 */
export function bothNames({ label, name }) {
  return label === name ? label : say("page-sources-both-names", { label, shaft: name });
}
