/** The switch that shows a train whole where it is wider than its place, and marks of what is cut off. */

import { h } from "../kit/dom.js";
import { tellMore } from "../kit/more.js";
import { say } from "../kit/words.js";

/**
 * @param {HTMLElement} scroller
 * @param {() => void} changed
 */
export function wholeSwitch(scroller, changed) {
  const button = h(
    "button",
    { class: "plain", type: "button", "aria-pressed": "false", "data-part": "whole", hidden: true, click: press },
    say("page-whole"),
  );
  const frame = h("div", { class: "stage-frame" }, scroller, mark("left"), mark("right"));
  scroller.addEventListener("scroll", point, { passive: true });
  let on = false;
  /** Whether there is more than is in sight. */
  let scrolls = false;

  function press() {
    on = !on;
    button.setAttribute("aria-pressed", String(on));
    changed();
  }

  /**
   * Follows what has changed about the size.
   * @param {boolean} wide whether the train is wider than its place
   * @param {boolean} near whether both are seen from nearer
   */
  function update(wide, near) {
    button.hidden = !wide;
    scrolls = (wide && !on) || near;
    if (scrolls) scroller.tabIndex = 0;
    else scroller.removeAttribute("tabindex");
    scroller.setAttribute("aria-label", scrolls ? say("page-drawings-scroll") : say("page-drawings"));
    point();
  }

  /** Marks the sides on which there is more. */
  function point() {
    tellMore(frame, scroller, scrolls);
  }

  return { button, frame, update, on: () => on };
}

/** @param {"left" | "right"} side */
function mark(side) {
  return h("div", { class: `more more-${side}`, "aria-hidden": "true" });
}
