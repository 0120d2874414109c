/** The worker that reckons a shift with many timings, so that the page goes on meanwhile: an engine of its own. */

import { rootedAt } from "./kit/site.js";
import { loadWholeEngine } from "./state/engine.js";
import { timedShift } from "./work/timed.js";

/** @typedef {import("./work/timed.js").Commanded & import("./work/timed.js").Offsets & { asked: number }} Asked */
/** @typedef {import("./work/helper.js").Reply<Float64Array>} Reply */

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);

rootedAt(import.meta.url);

worker.addEventListener("message", (/** @type {MessageEvent<Asked>} */ { data }) => answer(data));

/** @param {Asked} question */
async function answer({ asked, releases, applies, ...commanded }) {
  /** @type {Reply} */
  const reply = { asked };
  try {
    const shift = timedShift(await loadWholeEngine(), commanded);
    reply.piece = shift.timings(releases, applies);
    shift.free();
    worker.postMessage(reply, [reply.piece.buffer]);
  } catch {
    // The page does it by itself, and has the reason to tell if it cannot either.
    worker.postMessage(reply);
  }
}
