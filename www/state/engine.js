/**
 * The engine, and the catalogue that it and the page speak from. Its program is compiled once for the page,
 * and all elements share one instance of it, until it breaks: then a fresh one takes its place for all of
 * them, as nobody knows what is still right in it.
 */

import { hostAnswered, noEngine, noWebAssembly, noWords } from "../kit/before.js";
import { Problems } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { speakWith } from "../kit/words.js";

/** @typedef {typeof import("../engine/levertrain.js")} Engine */

/** @type {Promise<WebAssembly.Module> | undefined} */
let program;

/** The text of the catalogue. @type {Promise<string> | undefined} */
let words;

/** The instance for whoever comes next. @type {Promise<Engine> | undefined} */
let current;
let started = 0;

/** What takes the place of a broken one. @type {Map<Engine, Promise<Engine>>} */
const replaced = new Map();

/** Whoever is to be told of it. @type {Set<(broken: Engine, fresh: Engine) => void>} */
const users = new Set();

/**
 * What was made in a broken instance. The browser would have the engine clear it away once nobody holds
 * it, and break it again.
 * @type {unknown[]}
 */
const wrecks = [];

/** @returns {Promise<Engine>} */
export function loadEngine() {
  current ??= start().catch((error) => {
    // A later try may succeed.
    current = program = words = undefined;
    throw error;
  });
  return current;
}

/**
 * Calls back whenever an instance has been replaced.
 * @param {(broken: Engine, fresh: Engine) => void} move
 * @returns {() => void} ends it
 */
export function useEngine(move) {
  users.add(move);
  return () => users.delete(move);
}

/**
 * Starts a fresh instance in place of one that broke, for all who use it.
 * @param {Engine} broken
 * @param {unknown} wreck what it broke in
 */
export function replaceEngine(broken, wreck) {
  abandon(wreck);
  let fresh = replaced.get(broken);
  if (!fresh) {
    fresh = start();
    replaced.set(broken, fresh);
    current = fresh;
    fresh.then(
      (engine) => users.forEach((move) => move(broken, engine)),
      () => {
        replaced.delete(broken);
        current = undefined;
      },
    );
  }
  return fresh;
}

/** @param {unknown} wreck something of a broken instance */
export function abandon(wreck) {
  if (wreck) wrecks.push(wreck);
}

/** @returns {Promise<Engine>} */
async function start() {
  if (typeof WebAssembly !== "object") {
    throw new Problems([noWebAssembly()]);
  }
  try {
    // By its address: it stays a file of its own where the page's modules are made into one. Under
    // another address it is another module, with an instance of its own.
    const address = siteFile("engine/levertrain.js");
    if (started > 0) address.search = `again=${started}`;
    started += 1;
    const script = import(address.href);
    // Asked for at the same time as the module that wants it.
    program ??= fetch(siteFile("engine/levertrain_bg.wasm")).then(compile);
    words ??= fetch(siteFile("words/en.ftl")).then(textOf);
    // Where the module fails, that is what is told.
    for (const late of [program, words]) late.catch(() => undefined);
    const engine = /** @type {Engine} */ (await script);
    await engine.default({ module_or_path: program });
    engine.speak(await words.catch(speechless));
    speakWith(engine);
    return engine;
  } catch (error) {
    throw error instanceof Problems ? error : new Problems([noEngine(reasonOf(error))]);
  }
}

/** @param {unknown} error @returns {never} */
function speechless(error) {
  throw new Problems([noWords(reasonOf(error))]);
}

/** @param {unknown} error */
function reasonOf(error) {
  return error instanceof Error ? error.message : String(error);
}

/** @param {Response} response */
async function textOf(response) {
  if (!response.ok) throw new Error(hostAnswered(response.status));
  return response.text();
}

/** @param {Response} response */
async function compile(response) {
  if (!response.ok) throw new Error(hostAnswered(response.status));
  // While it comes, where the host says what it is; some do not.
  const named = response.headers.get("Content-Type") === "application/wasm";
  return named ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}

/**
 * Whether the engine itself broke, rather than refused what it was given.
 * @param {unknown} error
 */
export function isTrap(error) {
  return typeof WebAssembly === "object" && error instanceof WebAssembly.RuntimeError;
}
