/** The engine, loaded once for every element on the page. */

import { Failure } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";

/** @typedef {typeof import("../engine/levertrain.js")} Engine */

/** @type {Promise<Engine> | undefined} */
let loading;

/** @returns {Promise<Engine>} */
export function loadEngine() {
  loading ??= load();
  return loading;
}

async function load() {
  if (typeof WebAssembly !== "object") {
    throw new Failure(
      "browser",
      "this browser cannot run WebAssembly, or it is switched off",
      "open the page in a current browser, or switch WebAssembly on",
    );
  }
  try {
    // By its address: it stays a file of its own where the page's modules are made into one.
    const script = import(siteFile("engine/levertrain.js").href);
    // Asked for at the same time as the module that wants it.
    const compiled = fetch(siteFile("engine/levertrain_bg.wasm"));
    // Where the module fails, that is what is told.
    compiled.catch(() => undefined);
    const engine = /** @type {Engine} */ (await script);
    await engine.default({ module_or_path: compiled });
    return engine;
  } catch (error) {
    // A later try may succeed.
    loading = undefined;
    const reason = error instanceof Error ? error.message : String(error);
    throw new Failure(
      "engine",
      `the engine did not load (${reason})`,
      "reload the page; if it stays so, the folder engine/ is missing or incomplete on the host",
    );
  }
}

/**
 * Whether the engine itself broke, rather than refused what it was given.
 * @param {unknown} error
 */
export function isTrap(error) {
  return typeof WebAssembly === "object" && error instanceof WebAssembly.RuntimeError;
}
