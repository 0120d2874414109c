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
 * A table whose columns are named by `heads`.
 * @param {string} label
 * @param {(Node | string)[]} heads
 */
export function table(label, heads) {
  const body = h("tbody");
  const row = h("tr", {}, ...heads.map((head) => h("th", { scope: "col" }, head)));
  const head = h("thead", {}, row);
  const node = h("table", { "aria-label": label }, head, body);
  return { node, head: row, body };
}
