/** The cautions: short, and one press away from everywhere. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** @param {boolean} landmarks whether landmarks of the page are the element's to set */
export function cautions(landmarks) {
  return h(
    landmarks ? "section" : "div",
    { class: "cautions", role: landmarks ? null : "group", id: "cautions", hidden: true, "aria-label": say("page-cautions"), "data-part": "cautions" },
    h("p", {}, say("page-cautions-text")),
  );
}
