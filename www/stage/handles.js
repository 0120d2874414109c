/** The switches that lie over the plate packs of the half-section drawing. */

import { arrowTarget, focusedIn, h, rove } from "../kit/dom.js";
import { makeDraggable } from "../kit/drag.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { markLocked } from "../state/lockable.js";
import { takeDigits } from "./digits.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../kit/drag.js").Handle} Handle */

/** Smallest side of what a finger can hit, in CSS pixels. */
const SMALLEST = 44;

/**
 * @param {Desk} desk
 * @param {(event: Event) => void} drawNow draws at once and measures from the event
 */
export function handles(desk, drawNow) {
  const node = h("div", { class: "handles", role: "group", "aria-label": say("page-elements") });
  /** @type {Map<string, Handle>} */
  let places = new Map();
  /** @type {HTMLElement[]} */
  let buttons = [];

  node.addEventListener("keydown", (event) => {
    const target = arrowTarget(event, buttons, /** @type {HTMLElement} */ (event.target));
    if (!target) return;
    event.preventDefault();
    rove(buttons, target);
    target.focus();
  });

  takeDigits(desk, node);

  /**
   * Puts the switches where the packs are, in drawing order.
   * @param {number} zoom how much larger the drawing is shown than it is drawn
   */
  function place(zoom) {
    const found = (desk.ask((sandbox) => sandbox.handles()) ?? []).map((handle) => zoomed(handle, zoom));
    found.sort((a, b) => a.left - b.left || a.top - b.top);
    const same =
      found.length === buttons.length &&
      found.every(({ id }, index) => buttons[index].dataset.elementId === id);
    places = new Map(found.map((handle) => [handle.id, handle]));
    if (!same) {
      // Those that were there before keep the focus, where their order is another.
      const known = new Map(buttons.map((button) => [button.dataset.elementId, button]));
      const focused = focusedIn(node);
      buttons = found.map(({ id }) => known.get(id) ?? makeSwitch(id));
      node.replaceChildren(...buttons);
      const still = buttons.find((button) => button === focused);
      rove(buttons, still);
      still?.focus({ preventScroll: true });
      update();
    }
    for (const button of buttons) {
      const handle = places.get(button.dataset.elementId ?? "");
      if (!handle) continue;
      // Large enough for a finger, but never over the middle of another.
      const room = Math.min(SMALLEST, ...found.filter((other) => other !== handle).map((other) => apart(handle, other)));
      const [width, height] = [Math.max(handle.width, room), Math.max(handle.height, room)];
      button.style.left = `${handle.left - (width - handle.width) / 2}px`;
      button.style.top = `${handle.top - (height - handle.height) / 2}px`;
      button.style.width = `${width}px`;
      button.style.height = `${height}px`;
    }
  }

  /** @param {string} id */
  function makeSwitch(id) {
    const button = h("button", { type: "button", role: "switch", class: "handle", "data-element-id": id });
    makeDraggable(button, {
      handle: () => /** @type {Handle} */ (places.get(id)),
      applied: () => desk.answer?.applied.includes(id) ?? false,
      move: (closure, event) => {
        desk.drag(id, closure);
        drawNow(event);
      },
      end: (change, event) => {
        if (change) desk.toggle(id);
        else desk.endDrag();
        drawNow(event);
      },
    });
    button.addEventListener("click", (event) => {
      desk.toggle(id);
      drawNow(event);
    });
    button.addEventListener("focus", () => rove(buttons, button));
    return button;
  }

  function update() {
    for (const button of buttons) {
      const id = button.dataset.elementId ?? "";
      const applied = desk.answer?.applied.includes(id) ?? false;
      button.setAttribute("aria-checked", String(applied));
      button.setAttribute("aria-label", name(id, applied ? "applied" : "open"));
      button.title = say(applied ? "page-sign-applied" : "page-sign-open", { element: desk.elementLabel(id) });
      markLocked(desk, "elements", button);
      button.toggleAttribute("data-fights", desk.answer?.fight?.elements.includes(id) ?? false);
    }
    mark();
  }

  /** Rings the elements that something is told of. */
  function mark() {
    const { elements } = desk.told;
    for (const button of buttons) button.toggleAttribute("data-told", elements.includes(button.dataset.elementId ?? ""));
  }

  /**
   * @param {string} id
   * @param {"applied" | "open"} state
   */
  function name(id, state) {
    const element = desk.info?.elements.find((known) => known.id === id);
    if (!element) return id;
    const { kind, label, nouns } = element;
    const [first, second] = nouns;
    return say("page-switch", { element: label, kind, first, second, state });
  }

  follow(desk, ["answer", "lock", "veil"], update);
  desk.addEventListener("light", mark);
  return { node, place };
}

/**
 * @param {Handle} handle
 * @param {number} zoom
 * @returns {Handle}
 */
function zoomed(handle, zoom) {
  const { left, top, width, height, travel } = handle;
  const [across, down] = [width * zoom, height * zoom];
  return { ...handle, left: left * zoom, top: top * zoom, width: across, height: down, travel: travel * zoom };
}

/**
 * How far apart the middles of two handles of one size are, in the direction in which they are further.
 * @param {Handle} one
 * @param {Handle} other
 */
function apart(one, other) {
  return Math.max(Math.abs(one.left - other.left), Math.abs(one.top - other.top));
}
