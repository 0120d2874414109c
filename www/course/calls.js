/**
 * Calls of the run-time that a course system puts into a page around the lesson: found as the standards say, and each
 * answer looked at. Nothing here throws: a lesson goes on, whatever becomes of its score.
 */

/** Most windows to look through on the way out, as SCORM 2004 (RTE 3.2.1) has it. */
const MOST = 500;

/** Codes that say that there is nothing, and not that something is wrong: a part that need not be there, or has no value yet. */
const NOTHING = ["0", "401", "402", "403"];

/**
 * The run-time of this name: in a window around the page, or around the one that has opened it.
 * @param {string} name
 * @param {Window} from
 * @returns {any}
 */
export function findRuntime(name, from = window) {
  return around(name, from.parent) ?? around(name, openerOf(from)) ?? around(name, openerOf(from.top));
}

/** @param {string} name @param {Window | null | undefined} from */
function around(name, from) {
  let at = from;
  for (let count = 0; at && count < MOST; count += 1) {
    const found = inside(at, name);
    if (found) return found;
    if (at.parent === at) break;
    at = at.parent;
  }
  return undefined;
}

/** A window of somebody else may not be looked into. @param {any} there @param {string} name */
function inside(there, name) {
  try {
    return there[name] ?? undefined;
  } catch {
    return undefined;
  }
}

/** @param {Window | null} from @returns {Window | undefined} */
function openerOf(from) {
  return inside(from, "opener");
}

export class Calls {
  #runtime;
  #prefix;
  #begin;
  #end;
  #failed;
  #isOpen = false;

  /**
   * @param {any} runtime
   * @param {{ prefix: string, begin: string, end: string }} names what the standard calls its functions
   * @param {(reason: string) => void} failed
   */
  constructor(runtime, { prefix, begin, end }, failed) {
    this.#runtime = runtime;
    this.#prefix = prefix;
    this.#begin = begin;
    this.#end = end;
    this.#failed = failed;
  }

  begin() {
    this.#isOpen = this.#call(this.#begin, "") !== undefined;
  }

  /** What stands in a field; nothing where there is none. @param {string} field @returns {string} */
  get(field) {
    return (this.#isOpen ? this.#call("GetValue", field) : undefined) ?? "";
  }

  /** @param {Record<string, string | number>} fields */
  set(fields) {
    if (!this.#isOpen) return;
    for (const [field, value] of Object.entries(fields)) this.#call("SetValue", field, String(value));
  }

  /** Has all of it kept for good. */
  keep() {
    if (this.#isOpen) this.#call("Commit", "");
  }

  end() {
    if (this.#isOpen) this.#call(this.#end, "");
    this.#isOpen = false;
  }

  /** @param {string} name @param {...string} values @returns {string | undefined} nothing where it failed */
  #call(name, ...values) {
    const runtime = this.#runtime;
    try {
      const answer = String(runtime[this.#prefix + name](...values));
      const code = String(runtime[`${this.#prefix}GetLastError`]());
      if (code === "0") return answer;
      if (!NOTHING.includes(code)) this.#failed(`${name} ${values[0]}: ${code} ${runtime[`${this.#prefix}GetErrorString`](code)}`.trim());
    } catch (error) {
      this.#failed(`${name}: ${error}`);
    }
    return undefined;
  }
}
