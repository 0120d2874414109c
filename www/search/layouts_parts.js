/** A search for layouts in parts: each has layouts of its own. */

import { pause } from "../kit/pieces.js";
import { layoutsLooks } from "./layouts_looks.js";
import { Looking } from "./looking.js";
import { sums } from "./parts.js";

/** @typedef {import("../engine/levertrain.js").LayoutsReport} LayoutsReport */
/** @typedef {import("./layouts_looks.js").Estimate} Estimate */
/** @typedef {import("./parts.js").State<LayoutsReport, Estimate>} State */

/** How long the page looks by itself before it draws again, in milliseconds. */
const ON_PAGE_MS = 6;

/** @type {import("./parts.js").Kind<LayoutsReport, Estimate>} */
export const LAYOUTS_PARTS = {
  program: "layouter.js",
  here: (send) => new Looking(send, layoutsLooks(), ON_PAGE_MS, pause),
  sum(parts) {
    const all = sums(parts, ["progress", "frames", "crossing", "given_up", "layouts", "useless", "toothless", "unended", "count"]);
    return {
      ...all,
      progress: all.progress / parts.length,
      unreached: parts[0].unreached.filter((range) => parts.every(({ unreached }) => unreached.includes(range))),
      full: parts.some(({ full }) => full),
      found: parts.flatMap(({ found }) => found),
    };
  },
};
