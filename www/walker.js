/**
 * The worker that walks over combinations, so that the page goes on meanwhile: an engine of its own, which
 * is asked for some combinations of a train at a time.
 */

import { rootedAt } from "./kit/site.js";
import { loadWholeEngine } from "./state/engine.js";

/** @typedef {import("./work/walk.js").Question & { asked: number }} Asked */
/** @typedef {import("./work/helper.js").Reply<import("./work/walk.js").Piece>} Reply */

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);

rootedAt(import.meta.url);

worker.addEventListener("message", (/** @type {MessageEvent<Asked>} */ { data }) => answer(data));

/** @param {Asked} question */
async function answer({ asked, text, from, count }) {
  /** @type {Reply} */
  const reply = { asked };
  try {
    const engine = await loadWholeEngine();
    const piece = { states: new Uint8Array(count), ratios: new Float64Array(count) };
    engine.outcomes(text, from, piece.states, piece.ratios);
    reply.piece = piece;
    worker.postMessage(reply, [piece.states.buffer, piece.ratios.buffer]);
  } catch {
    // The page does it by itself, and has the reason to tell if it cannot either.
    worker.postMessage(reply);
  }
}
