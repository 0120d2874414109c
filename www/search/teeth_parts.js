/** A search for teeth in parts: each is told what the others find, so that the finds of the first are those of all. */

import { keyOf } from "./finds_columns.js";
import { Looking } from "./looking.js";
import { sums } from "./parts.js";

/** @typedef {import("../engine/levertrain.js").Finding} Finding */
/** @typedef {import("./parts.js").State<Finding, number>} State */

/** How long the page looks by itself before it draws again, in milliseconds. */
const ON_PAGE_MS = 6;

/** @returns {import("./parts.js").Kind<Finding, number>} */
export function teethParts() {
  /** The finds that all parts know of, or were told. @type {Set<string>} */
  const shared = new Set();
  return {
    program: "finder.js",
    here: (send) => new Looking(send, ON_PAGE_MS),
    begins: () => shared.clear(),
    told(report, before, { same }, others) {
      if (same) report.finds = before?.finds ?? [];
      const fresh = same ? [] : report.finds.filter((find) => !shared.has(keyOf(find)));
      fresh.forEach((find) => shared.add(keyOf(find)));
      // What one finds cuts off boxes of the others.
      if (fresh.length > 0) others({ told: JSON.stringify(fresh) });
    },
    // The first part's answer to what it is told comes in news of its own.
    sum: (parts) => ({ ...parts[0], ...sums(parts, ["outside", "beaten", "tried", "boxes"]), full: parts.some(({ full }) => full) }),
  };
}
