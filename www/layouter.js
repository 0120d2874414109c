/** The worker that looks for layouts: one part of a search, with an engine of its own. */

import { turn } from "./kit/pieces.js";
import { rootedAt } from "./kit/site.js";
import { layoutsLooks } from "./search/layouts_looks.js";
import { Looking } from "./search/looking.js";

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);

rootedAt(import.meta.url);

/** How long it goes on without looking whether anything was said, in milliseconds. */
const PIECE_MS = 12;

const looking = new Looking((news) => worker.postMessage(news), layoutsLooks(), PIECE_MS, turn);
worker.addEventListener("message", (/** @type {MessageEvent<import("./search/looking.js").Order>} */ { data }) => looking.hear(data));
