/** What SCORM 2004 (4th Edition, Run-Time Environment, section 4.2) keeps of a lesson. */

import { Scorm, percent } from "./scorm.js";
import { duration, moment } from "./times.js";

/** @typedef {import("./keeper.js").Keeper} Keeper */

/** The name of its run-time. */
export const RUNTIME = "API_1484_11";

/** @type {import("./scorm.js").Names} */
const NAMES = {
  calls: { prefix: "", begin: "Initialize", end: "Terminate" },
  mode: "cmi.mode",
  time: "cmi.session_time",
  exit: "cmi.exit",
  finished: "normal",
  written: duration,
};
/** Longest response of another kind, and longest description, in characters. */
const LONGEST = 4000;
const LONGEST_DESCRIPTION = 250;

/** @implements {Keeper} */
export class Scorm2004 extends Scorm {
  /** @param {any} runtime @param {import("./keeper.js").About} about */
  constructor(runtime, about) {
    super(runtime, about, NAMES);
  }

  async begin() {
    return this.start("cmi.completion_status", ["", "unknown", "not attempted", "incomplete"]);
  }

  /** @param {import("./keeper.js").Score} score @param {string} progress */
  answered({ of, share, done, question }, progress) {
    const { id, number, answer, credit, seconds, text } = question;
    const at = `cmi.interactions.${this.answers}`;
    this.answers += 1;
    /** @type {Record<string, string | number>} */
    const fields = {
      [`${at}.id`]: id,
      [`${at}.type`]: "other",
      [`${at}.timestamp`]: moment(new Date()),
      [`${at}.description`]: text.slice(0, LONGEST_DESCRIPTION),
      [`${at}.learner_response`]: answer.join(",").slice(0, LONGEST),
      [`${at}.result`]: credit === 1 ? "correct" : credit === 0 ? "incorrect" : credit.toFixed(4),
      [`${at}.latency`]: duration(seconds),
      "cmi.score.min": 0,
      "cmi.score.max": 100,
      "cmi.score.raw": percent(share),
      "cmi.score.scaled": share.toFixed(4),
      "cmi.progress_measure": (number / of).toFixed(4),
      "cmi.suspend_data": progress,
    };
    if (done) fields["cmi.completion_status"] = "completed";
    if (done && this.pass !== undefined) fields["cmi.success_status"] = share * 100 >= this.pass ? "passed" : "failed";
    this.tell(fields);
  }

  /** @param {import("./keeper.js").Passed} passed */
  walked({ at, of, done }) {
    /** @type {Record<string, string>} */
    const fields = { "cmi.progress_measure": (at / of).toFixed(4) };
    if (done) fields["cmi.completion_status"] = "completed";
    this.tell(fields);
  }
}
