/** The worker that looks for teeth: one part of a search, with an engine of its own. */

import { rootedAt } from "./kit/site.js";
import { Looking } from "./search/looking.js";

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);

rootedAt(import.meta.url);

const looking = new Looking((news) => worker.postMessage(news));
worker.addEventListener("message", (/** @type {MessageEvent<import("./search/looking.js").Order>} */ { data }) => looking.hear(data));
