/** What SCORM 1.2 (Run-Time Environment, section 3.4) keeps of a lesson. */

import { Scorm, percent } from "./scorm.js";
import { timeOfDay, timespan } from "./times.js";

/** @typedef {import("./keeper.js").Keeper} Keeper */

/** The name of its run-time. */
export const RUNTIME = "API";

/** @type {import("./scorm.js").Names} */
const NAMES = {
  calls: { prefix: "LMS", begin: "Initialize", end: "Finish" },
  mode: "cmi.core.lesson_mode",
  time: "cmi.core.session_time",
  exit: "cmi.core.exit",
  finished: "",
  written: timespan,
};
/** Longest response (CMIFeedback of a performance) in characters. */
const LONGEST = 255;

/** @implements {Keeper} */
export class Scorm12 extends Scorm {
  /** @param {any} runtime @param {import("./keeper.js").About} about */
  constructor(runtime, about) {
    super(runtime, about, NAMES);
  }

  async begin() {
    return this.start("cmi.core.lesson_status", ["", "not attempted"]);
  }

  /** @param {import("./keeper.js").Score} score @param {string} progress */
  answered({ share, done, question }, progress) {
    const { id, answer, credit, seconds } = question;
    const at = `cmi.interactions.${this.answers}`;
    this.answers += 1;
    /** @type {Record<string, string | number>} */
    const fields = {
      [`${at}.id`]: id,
      [`${at}.time`]: timeOfDay(new Date()),
      [`${at}.type`]: "performance",
      [`${at}.student_response`]: answer.join(",").slice(0, LONGEST),
      [`${at}.result`]: credit === 1 ? "correct" : credit === 0 ? "wrong" : credit.toFixed(2),
      [`${at}.latency`]: timespan(seconds),
      "cmi.core.score.min": 0,
      "cmi.core.score.max": 100,
      "cmi.core.score.raw": percent(share),
      "cmi.suspend_data": progress,
    };
    if (done) fields["cmi.core.lesson_status"] = this.pass === undefined ? "completed" : share * 100 >= this.pass ? "passed" : "failed";
    this.tell(fields);
  }

  /** @param {import("./keeper.js").Passed} passed */
  walked({ done }) {
    if (done) this.tell({ "cmi.core.lesson_status": "completed" });
  }
}
