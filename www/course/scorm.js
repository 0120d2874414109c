/** What both SCORMs have in common: where somebody is, how long it took, and that nothing is kept where a lesson is only looked at. */

import { Calls } from "./calls.js";

/**
 * What a standard calls them, and how it writes a length of time.
 * @typedef {object} Names
 * @property {{ prefix: string, begin: string, end: string }} calls its functions
 * @property {string} mode the field that says what a lesson is opened for
 * @property {string} time
 * @property {string} exit
 * @property {string} finished what stands there for a lesson that is through
 * @property {(seconds: number) => string} written
 */

/** Ways to open a lesson in which nothing of it is to be kept. */
const LOOKING = ["browse", "review"];

export class Scorm {
  calls;
  pass;
  isLooking = false;
  /** How many answers were told of. */
  answers = 0;
  #names;

  /** @param {any} runtime @param {import("./keeper.js").About} about @param {Names} names */
  constructor(runtime, { pass, failed }, names) {
    this.calls = new Calls(runtime, names.calls, failed);
    this.pass = pass;
    this.#names = names;
  }

  /** Begins, and says that it is under way where a field has one of these values yet. @param {string} field @param {string[]} fresh */
  start(field, fresh) {
    const { calls } = this;
    calls.begin();
    this.isLooking = LOOKING.includes(calls.get(this.#names.mode));
    this.answers = Number(calls.get("cmi.interactions._count")) || 0;
    if (fresh.includes(calls.get(field))) this.tell({ [field]: "incomplete" });
    return calls.get("cmi.suspend_data") || undefined;
  }

  /** Tells all of it, and has it kept for good. @param {Record<string, string | number>} fields */
  tell(fields) {
    if (this.isLooking) return;
    this.calls.set(fields);
    this.calls.keep();
  }

  /** @param {string} progress */
  hold(progress) {
    this.tell({ "cmi.suspend_data": progress });
  }

  /** @param {{ seconds: number, progress?: string, done: boolean }} left */
  end({ seconds, progress, done }) {
    const { time, exit, finished, written } = this.#names;
    /** @type {Record<string, string>} */
    const fields = { [time]: written(seconds), [exit]: done ? finished : "suspend" };
    if (progress !== undefined) fields["cmi.suspend_data"] = progress;
    this.tell(fields);
    this.calls.end();
  }
}

/** A share as both are told it: in percent, of which 100 are all. @param {number} share */
export function percent(share) {
  return Math.round(share * 10_000) / 100;
}
