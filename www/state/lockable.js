/** Fields that can be locked together with what they change: seen, and read aloud, as such that cannot be used. */

import { h } from "../kit/dom.js";
import { follow } from "./follow.js";

/**
 * @param {import("./desk.js").Desk} desk
 * @param {import("./desk.js").Lock} lock
 * @param {...(Node | string | null)} fields
 */
export function lockable(desk, lock, ...fields) {
  // The browser itself disables what is in one, also what comes later. It is no group to anybody who listens.
  const node = /** @type {HTMLFieldSetElement} */ (/** @type {unknown} */ (h("fieldset", { class: "lockable", role: "none" }, ...fields)));
  follow(desk, ["lock", "veil"], () => (node.disabled = desk.isLocked(lock)));
  return node;
}

/**
 * The same for buttons that keep the focus, and with it their place in a row that arrow keys go through.
 * @param {import("./desk.js").Desk} desk
 * @param {import("./desk.js").Lock} lock
 * @param {HTMLElement} button
 */
export function markLocked(desk, lock, button) {
  button.setAttribute("aria-disabled", String(desk.isLocked(lock)));
}
