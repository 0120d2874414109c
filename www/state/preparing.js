/** Opening a scenario out of sight: to lay out a large train takes a while. */

import { inPieces } from "../kit/pieces.js";
import { isTrap, leave, replaceEngine } from "./engine.js";

/** @typedef {import("../engine/levertrain.js").Sandbox} Sandbox */
/** @typedef {import("../engine/levertrain.js").TrainInfo} TrainInfo */
/**
 * A sandbox that a scenario is open in already.
 * @typedef {{ sandbox: Sandbox, info: TrainInfo, engine: import("./engine.js").Engine }} Prepared
 */

/** Steps of opening taken at once: one of the largest train takes some 15 ms. */
const STEPS = 1;

/**
 * Opens a scenario in a sandbox of its own, in pieces.
 * @param {import("./engine.js").Engine} engine
 * @param {string} text
 * @param {() => boolean} wanted whether it still is
 * @returns {Promise<Prepared | undefined>} nothing once it is not
 */
export async function prepareIn(engine, text, wanted) {
  const sandbox = new engine.Sandbox();
  try {
    sandbox.begin(text);
    const info = await inPieces(() => (wanted() ? sandbox.arrange(STEPS) : null));
    if (info) return { sandbox, info, engine };
  } catch (error) {
    if (isTrap(error)) replaceEngine(engine, sandbox).catch(() => undefined);
    else sandbox.free();
    throw error;
  }
  leave(engine, sandbox);
  return undefined;
}
