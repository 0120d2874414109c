/** Choosing the unit of a quantity, where its number stands. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { UNITS } from "../state/units.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {import("../state/units.js").Quantity} quantity
 */
export function unitChoice(desk, quantity) {
  const select = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      {
        "aria-label": say("page-unit-of", { quantity }),
        "data-unit": quantity,
        change: () => desk.setUnits({ [quantity]: select.value }),
      },
      ...Object.entries(UNITS[quantity]).map(([code, { name }]) => h("option", { value: code }, name)),
    )
  );
  follow(desk, ["units"], () => (select.value = desk.units[quantity]));
  follow(desk, ["lock"], () => (select.disabled = desk.isLocked("settings")));
  return h("span", { class: "select unit-choice" }, select);
}
