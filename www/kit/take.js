/** The quiet button beside a figure or a table: what it can be taken away as. */

import { h, icon } from "./dom.js";
import { say } from "./words.js";

/** @typedef {{ id: string, name: string, take: () => Promise<string | void> }} Offer what one button does; it may say what came of it */
/** @typedef {{ what: string, offers: Offer[] }} Offers all that one figure or table can be taken away as */

/** How long a button says what came of it, in milliseconds. */
const SAID = 2000;
/** Least distance from the edges of the window, in CSS pixels. */
const EDGE = 8;

/**
 * @param {string} what the figure, the table or the panel of several
 * @param {string} id what page and tests know it by
 * @param {() => Offers[]} offers asked for as it is opened
 * @param {(error: unknown) => void} failed
 */
export function takeButton(what, id, offers, failed) {
  const list = h("div", { class: "take-list", popover: "auto", role: "group", "aria-label": say("page-take-of", { what }) });
  const button = h(
    "button",
    { class: "bare take", type: "button", "data-take": id, title: say("page-take"), "aria-label": say("page-take-of", { what }), "aria-expanded": "false" },
    icon("take"),
  );
  button.popoverTargetElement = list;

  list.addEventListener("beforetoggle", (event) => {
    const opens = /** @type {ToggleEvent} */ (event).newState === "open";
    button.setAttribute("aria-expanded", String(opens));
    if (opens) list.replaceChildren(...offers().map(group));
    // What is in it cannot be focused any more.
    else if (list.matches(":focus-within")) button.focus({ preventScroll: true });
  });
  list.addEventListener("toggle", (event) => {
    if (/** @type {ToggleEvent} */ (event).newState === "open") place();
  });

  /** Under the button, or above it where there is more room. */
  function place() {
    const from = button.getBoundingClientRect();
    const { offsetWidth: width, offsetHeight: height } = list;
    const below = from.bottom + height + EDGE <= innerHeight || from.top < height + EDGE;
    const left = Math.min(Math.max(from.right - width, EDGE), innerWidth - width - EDGE);
    list.style.left = `${left}px`;
    list.style.top = `${below ? from.bottom : from.top - height}px`;
  }

  /** @param {Offers} offers */
  function group({ what, offers }) {
    const buttons = offers.map(({ id, name, take }) => {
      const button = h("button", { class: "plain", type: "button", "data-as": id, click }, name);
      async function click() {
        try {
          button.textContent = (await take()) ?? name;
          setTimeout(() => (button.textContent = name), SAID);
        } catch (error) {
          failed(error);
        }
      }
      return button;
    });
    return h("div", { class: "take-group", role: "group", "aria-label": what }, h("p", { class: "note" }, what), h("div", { class: "row" }, ...buttons));
  }

  return h("span", { class: "takes" }, button, list);
}
