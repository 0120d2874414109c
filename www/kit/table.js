/** Tables, and boxes that scroll what is too wide. */

import { h } from "./dom.js";
import { tellMore } from "./more.js";

/**
 * A table.
 * @param {string} label
 * @param {(Node | string)[]} heads what its columns are called
 * @param {number[]} figures which of them hold numbers
 */
export function table(label, heads, figures) {
  const body = h("tbody");
  const cells = heads.map((head, index) =>
    h("th", { scope: "col", class: figures.includes(index) ? "figure" : null }, head),
  );
  const node = h("table", { "aria-label": label }, h("thead", {}, h("tr", {}, ...cells)), body);
  return { node, body };
}

/**
 * A box in which what is too wide, or too tall for the height it is given, scrolls, with the keyboard as well; what fits takes no stop.
 * @param {HTMLElement} content
 * @param {string} label
 * @param {AbortSignal} signal
 */
export function scroller(content, label, signal) {
  const box = h("div", { class: "scroller", role: "group", "aria-label": label }, content);
  // Measured by the observer: asking at every change would lay the page out each time.
  const observer = new ResizeObserver(() => {
    const spills = box.scrollWidth > box.clientWidth + 1 || box.scrollHeight > box.clientHeight + 1;
    if (spills) box.tabIndex = 0;
    else box.removeAttribute("tabindex");
    tellMore(box, box);
  });
  observer.observe(box);
  observer.observe(content);
  box.addEventListener("scroll", () => tellMore(box, box), { passive: true });
  signal.addEventListener("abort", () => observer.disconnect());
  return box;
}
