/** The cautions: short, and one press away from everywhere. */

import { h } from "../kit/dom.js";

/** @param {boolean} landmarks whether landmarks of the page are the element's to set */
export function cautions(landmarks) {
  return h(
    landmarks ? "section" : "div",
    { class: "cautions", role: landmarks ? null : "group", id: "cautions", hidden: true, "aria-label": "Cautions", "data-part": "cautions" },
    h(
      "p",
      {},
      "Levertrain shows ideal motion and equilibrium with simple losses, for learning and early " +
        "layout. It is not a service procedure and not a strength rating: nothing in it bends, " +
        "heats or wears. ",
      "Real transmissions can injure: parts turn without warning, and springs, pressure and " +
        "raised vehicles store energy. The maker’s service information, local rules and " +
        "qualified people come first.",
    ),
  );
}
