/** A search for teeth in parts: each is told what the others find, so that the finds of the first are those of all. */

import { pause } from "../kit/pieces.js";
import { Looking } from "./looking.js";
import { sums } from "./parts.js";
import { teethLooks } from "./teeth_looks.js";

/** @typedef {import("../engine/levertrain.js").Find} Find */
/** @typedef {import("../engine/levertrain.js").Finding} Finding */
/** @typedef {import("./parts.js").State<Finding, number>} State */

/** How long the page looks by itself before it draws again, in milliseconds. */
const ON_PAGE_MS = 6;

/** @returns {import("./parts.js").Kind<Finding, number>} */
export function teethParts() {
  return {
    program: "finder.js",
    here: (send) => new Looking(send, teethLooks(), ON_PAGE_MS, pause),
    told(report, before, { finds, fresh }, others) {
      const known = before?.finds ?? [];
      /** @type {(Find | number)[] | undefined} */
      const listed = finds && JSON.parse(finds);
      // What was told before is told by its place alone, and stays the same object: the table keeps its row.
      report.finds = listed ? listed.map((find) => (typeof find === "number" ? known[find] : find)) : known;
      // What one finds cuts off boxes of the others.
      if (fresh) others({ told: fresh });
    },
    // The first part's answer to what it is told comes in news of its own.
    sum: (parts) => ({ ...parts[0], ...sums(parts, ["outside", "beaten", "tried", "boxes"]), full: parts.some(({ full }) => full) }),
  };
}
