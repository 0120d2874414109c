/** What SCORM 1.2 (Run-Time Environment, section 3.4) keeps of a lesson. */

import { Calls } from "./calls.js";
import { timeOfDay, timespan } from "./times.js";

/** @typedef {import("./keeper.js").Keeper} Keeper */

/** The name of its run-time. */
export const RUNTIME = "API";

const NAMES = { prefix: "LMS", begin: "Initialize", end: "Finish" };
/** Longest response (CMIFeedback of a performance) in characters. */
const LONGEST = 255;
/** Ways to open a lesson in which nothing of it is to be kept. */
const LOOKING = ["browse", "review"];

/** @implements {Keeper} */
export class Scorm12 {
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
    this.#isLooking = LOOKING.includes(calls.get("cmi.core.lesson_mode"));
    this.#answers = Number(calls.get("cmi.interactions._count")) || 0;
    const status = calls.get("cmi.core.lesson_status");
    if (!this.#isLooking && (status === "" || status === "not attempted")) {
      calls.set({ "cmi.core.lesson_status": "incomplete" });
      calls.keep();
    }
    return calls.get("cmi.suspend_data") || undefined;
  }

  /** @param {import("./keeper.js").Score} score @param {string} progress */
  answered({ share, done, question }, progress) {
    if (this.#isLooking) return;
    const calls = this.#calls;
    const { id, answer, credit, seconds } = question;
    const at = `cmi.interactions.${this.#answers}`;
    calls.set({
      [`${at}.id`]: id,
      [`${at}.time`]: timeOfDay(new Date()),
      [`${at}.type`]: "performance",
      [`${at}.student_response`]: answer.join(",").slice(0, LONGEST),
      [`${at}.result`]: credit === 1 ? "correct" : credit === 0 ? "wrong" : credit.toFixed(2),
      [`${at}.latency`]: timespan(seconds),
    });
    this.#answers += 1;
    calls.set({ "cmi.core.score.min": 0, "cmi.core.score.max": 100, "cmi.core.score.raw": Math.round(share * 10_000) / 100, "cmi.suspend_data": progress });
    if (done) calls.set({ "cmi.core.lesson_status": this.#pass === undefined ? "completed" : share * 100 >= this.#pass ? "passed" : "failed" });
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
      calls.set({ "cmi.core.session_time": timespan(seconds), "cmi.core.exit": done ? "" : "suspend" });
      calls.keep();
    }
    calls.end();
  }
}
