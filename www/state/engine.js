/**
 * The engines, and the catalogue that they and the page speak from. The page opens with the first one,
 * which is small; the whole one knows also what panels show, and takes its place when that is wanted. The
 * program of each is compiled once for the page, and all elements share one instance of it, until it breaks:
 * then a fresh one takes its place for all of them, as nobody knows what is still right in it.
 */

import { hostAnswered, noEngine, noWebAssembly, noWords, strangeEngine } from "../kit/before.js";
import { Problems } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { speakWith } from "../kit/words.js";
import { language } from "./language.js";

/** What every engine can do. @typedef {typeof import("../engine/levertrain.js")} Engine */
/** @typedef {typeof import("../engine/levertrain_whole.js")} WholeEngine */

/** The text of the catalogue. @type {Promise<string> | undefined} */
let words;

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

/** The program of an engine, and the instance of it that all share. */
class Program {
  #script;
  #file;
  #started = 0;
  /** @type {Promise<WebAssembly.Module> | undefined} */
  #compiled;
  /** The instance for whoever comes next. @type {Promise<Engine> | undefined} */
  instance;

  /**
   * @param {() => URL} script where its JavaScript side is
   * @param {() => URL} file where it is itself
   */
  constructor(script, file) {
    this.#script = script;
    this.#file = file;
  }

  /** @returns {Promise<Engine>} */
  run() {
    this.instance ??= this.start().catch((error) => {
      this.instance = words = undefined;
      throw error;
    });
    return this.instance;
  }

  /** Has all of it at hand for later. */
  fetch() {
    return Promise.all([this.#module(), this.#program()]);
  }

  #program() {
    this.#compiled ??= fetch(this.#file())
      .then(compile)
      .catch((error) => {
        // A later try may succeed.
        this.#compiled = undefined;
        throw error;
      });
    return this.#compiled;
  }

  /** @returns {Promise<Engine>} */
  #module() {
    // By its address: it stays a file of its own where the page's modules are made into one. Under
    // another address it is another module, with an instance of its own.
    const address = this.#script();
    if (this.#started > 0) address.search = `again=${this.#started}`;
    return import(address.href);
  }

  /** Starts an instance. @returns {Promise<Engine>} */
  async start() {
    if (typeof WebAssembly !== "object") {
      throw new Problems([noWebAssembly()]);
    }
    try {
      const script = this.#module();
      this.#started += 1;
      // Asked for at the same time as the module that wants it.
      const program = this.#program();
      words ??= fetch(siteFile(`words/${language()}.ftl`)).then(textOf);
      // Where the module fails, that is what is told.
      for (const late of [program, words]) late.catch(() => undefined);
      const engine = await script;
      await engine.default({ module_or_path: program });
      engine.speak(await words.catch(speechless));
      speakWith(engine);
      return engine;
    } catch (error) {
      if (error instanceof Problems) throw error;
      const told = error instanceof WebAssembly.CompileError ? strangeEngine : noEngine;
      throw new Problems([told(reasonOf(error))]);
    }
  }
}

const first = new Program(() => siteFile("engine/levertrain.js"), () => siteFile("engine/levertrain_bg.wasm"));
const whole = new Program(() => siteFile("engine/levertrain_whole.js"), () => siteFile("engine/levertrain_whole_bg.wasm"));

/** The engine to begin with: the first one, or the whole one where that is there already. */
export function loadEngine() {
  return whole.instance ?? first.run();
}

/** The engine that knows all. @returns {Promise<WholeEngine>} */
export async function loadWholeEngine() {
  return /** @type {WholeEngine} */ (await whole.run());
}

/** Has the whole engine at hand for later. That it fails is said when it is wanted. */
export function fetchWholeEngine() {
  whole.fetch().catch(() => undefined);
}

/**
 * @param {Engine} engine
 * @returns {engine is WholeEngine}
 */
export function isWhole(engine) {
  return "drawPanel" in engine;
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
  if (wreck) wrecks.push(wreck);
  let fresh = replaced.get(broken);
  if (!fresh) {
    const program = isWhole(broken) ? whole : first;
    fresh = program.start();
    replaced.set(broken, fresh);
    program.instance = fresh;
    fresh.then(
      (engine) => users.forEach((move) => move(broken, engine)),
      () => {
        replaced.delete(broken);
        program.instance = undefined;
      },
    );
  }
  return fresh;
}

/**
 * Gives the memory of a sandbox back, unless its engine broke.
 * @param {Engine} engine
 * @param {{ free(): void }} [sandbox]
 */
export function leave(engine, sandbox) {
  if (replaced.has(engine)) wrecks.push(sandbox);
  else sandbox?.free();
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
