/** The worker that looks for layouts: one part of a search, with an engine of its own. */

import { rootedAt } from "./kit/site.js";
import { LayoutsLooking } from "./search/layouts_looking.js";

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);

rootedAt(import.meta.url);

const looking = new LayoutsLooking((news) => worker.postMessage(news));
worker.addEventListener("message", (/** @type {MessageEvent<import("./search/layouts_looking.js").Order>} */ { data }) => looking.hear(data));
