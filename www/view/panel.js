/** A part of the side column: a heading that folds what is under it. */

import { h } from "../dom.js";

/**
 * @param {string} title
 * @param {string} part
 * @param {boolean} open
 * @param {...(Node | string)} content
 */
export function panel(title, part, open, ...content) {
  return /** @type {HTMLDetailsElement} */ (
    h(
      "details",
      { class: "panel", "data-part": part, open },
      h("summary", {}, h("h2", {}, title)),
      h("div", { class: "panel-body" }, ...content),
    )
  );
}

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
