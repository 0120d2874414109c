/** What SCORM 2004 (4th Edition, Run-Time Environment, section 4.2) keeps of a lesson. */

import { Calls } from "./calls.js";
import { duration, moment } from "./times.js";

/** @typedef {import("./keeper.js").Keeper} Keeper */

/** The name of its run-time. */
export const RUNTIME = "API_1484_11";

const NAMES = { prefix: "", begin: "Initialize", end: "Terminate" };
/** Longest response of another kind, and longest description, in characters. */
const LONGEST = 4000;
const LONGEST_DESCRIPTION = 250;
/** Ways to open a lesson in which nothing of it is to be kept. */
const LOOKING = ["browse", "review"];

/** @implements {Keeper} */
export class Scorm2004 {
  #calls;
  #pass;
  #isLooking = false;
  #answers = 0;

  /** @param {any} runtime @param {import("./keeper.js").About} about */
  constructor(runtime, { pass, failed }) {
    this.#calls = new Calls(runtime, NAMES, failed);
    this.#pass = pass;
  }

  async begin() {
    const calls = this.#calls;
    calls.begin();
    this.#isLooking = LOOKING.includes(calls.get("cmi.mode"));
    this.#answers = Number(calls.get("cmi.interactions._count")) || 0;
    const status = calls.get("cmi.completion_status");
    if (!this.#isLooking && status !== "completed") {
      calls.set({ "cmi.completion_status": "incomplete" });
      calls.keep();
    }
    return calls.get("cmi.suspend_data") || undefined;
  }

  /** @param {import("./keeper.js").Score} score @param {string} progress */
  answered({ points, of, share, done, question }, progress) {
    if (this.#isLooking) return;
    const calls = this.#calls;
    const { id, number, answer, credit, seconds, text } = question;
    const at = `cmi.interactions.${this.#answers}`;
    calls.set({
      [`${at}.id`]: id,
      [`${at}.type`]: "other",
      [`${at}.timestamp`]: moment(new Date()),
      [`${at}.description`]: text.slice(0, LONGEST_DESCRIPTION),
      [`${at}.learner_response`]: answer.join(",").slice(0, LONGEST),
      [`${at}.result`]: credit === 1 ? "correct" : credit === 0 ? "incorrect" : credit.toFixed(4),
      [`${at}.latency`]: duration(seconds),
    });
    this.#answers += 1;
    calls.set({
      "cmi.score.min": 0,
      "cmi.score.max": of,
      "cmi.score.raw": points.toFixed(4),
      "cmi.score.scaled": share.toFixed(4),
      "cmi.progress_measure": (number / of).toFixed(4),
      "cmi.suspend_data": progress,
    });
    if (done) {
      calls.set({ "cmi.completion_status": "completed" });
      if (this.#pass !== undefined) calls.set({ "cmi.success_status": share * 100 >= this.#pass ? "passed" : "failed" });
    }
    calls.keep();
  }

  /** @param {string} progress */
  hold(progress) {
    if (this.#isLooking) return;
    this.#calls.set({ "cmi.suspend_data": progress });
    this.#calls.keep();
  }

  /** @param {{ seconds: number, progress?: string, done: boolean }} left */
  end({ seconds, progress, done }) {
    const calls = this.#calls;
    if (!this.#isLooking) {
      if (progress !== undefined) calls.set({ "cmi.suspend_data": progress });
      calls.set({ "cmi.session_time": duration(seconds), "cmi.exit": done ? "normal" : "suspend" });
      calls.keep();
    }
    calls.end();
  }
}
