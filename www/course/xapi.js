/** A store of statements (LRS) as the keeper of a lesson, by the Experience API's own requests. */

import { answerStatement, lessonResult, statement } from "./statement.js";
import { duration } from "./times.js";

/** @typedef {import("./statement.js").Launch} Launch */
/** @typedef {import("./keeper.js").Keeper} Keeper */

/** The version that is spoken: what stores of the later ones understand, too. */
const VERSION = "1.0.3";
/** What the state of a lesson is kept under. */
const STATE = "progress";
/** How long a store may take to say where somebody was, in milliseconds. */
const PATIENCE = 10_000;

/**
 * What a page is opened with, where all of it is there; nothing elsewhere.
 * @param {string} search
 * @returns {Launch | undefined}
 */
export function launchOf(search) {
  const given = new URLSearchParams(search);
  const [endpoint, auth, actor, activity] = ["endpoint", "auth", "actor", "activity_id"].map((name) => given.get(name));
  if (!endpoint || !auth || !actor || !activity || !URL.canParse(endpoint)) return undefined;
  const registration = given.get("registration") ?? undefined;
  try {
    const who = JSON.parse(actor);
    return who && typeof who === "object" ? { endpoint: endpoint.replace(/\/?$/, "/"), auth, actor: who, activity, registration } : undefined;
  } catch {
    return undefined;
  }
}

/** @implements {Keeper} */
export class Statements {
  #launch;
  #about;
  #began = performance.now();
  /** What all of it has earned, once something has. @type {import("./keeper.js").Score | undefined} */
  #score;

  /** @param {Launch} launch @param {import("./keeper.js").About} about */
  constructor(launch, about) {
    this.#launch = launch;
    this.#about = about;
  }

  async begin() {
    const { begun } = this;
    this.#tell([begun]);
    try {
      const response = await fetch(this.#stateAddress(), { headers: this.#headers(), signal: AbortSignal.timeout(PATIENCE) });
      if (response.ok) return (await response.text()) || undefined;
      // A lesson that nobody has begun has no state.
      if (response.status !== 404) throw new Error(String(response.status));
    } catch (error) {
      this.#about.failed(String(error));
    }
    return undefined;
  }

  get begun() {
    return statement(this.#launch, this.#about, stamp(), "initialized");
  }

  /** @param {import("./keeper.js").Score} score @param {string} progress */
  answered(score, progress) {
    const { pass } = this.#about;
    /** @type {object[]} */
    const told = [answerStatement(this.#launch, this.#about, stamp(), score.question)];
    this.#score = score;
    if (score.done) {
      const result = lessonResult(score, this.#seconds());
      told.push(statement(this.#launch, this.#about, stamp(), "completed", { ...result, completion: true }));
      if (pass !== undefined) {
        const success = score.share * 100 >= pass;
        told.push(statement(this.#launch, this.#about, stamp(), success ? "passed" : "failed", { ...result, success }));
      }
    }
    this.#tell(told);
    this.#keep(progress);
  }

  /** @param {import("./keeper.js").Passed} passed */
  walked({ done }) {
    const result = { completion: true, duration: duration(this.#seconds()) };
    if (done) this.#tell([statement(this.#launch, this.#about, stamp(), "completed", result)]);
  }

  /** @param {string} progress */
  hold(progress) {
    this.#keep(progress);
  }

  /** @param {{ seconds: number, progress?: string, done: boolean }} left */
  end({ seconds, progress, done }) {
    if (progress !== undefined && !done) this.#keep(progress);
    const result = this.#score ? lessonResult(this.#score, seconds) : undefined;
    this.#tell([statement(this.#launch, this.#about, stamp(), "terminated", result)]);
  }

  #seconds() {
    return (performance.now() - this.#began) / 1000;
  }

  /** @param {object[]} statements */
  #tell(statements) {
    this.#send("POST", new URL("statements", this.#launch.endpoint), "application/json", JSON.stringify(statements));
  }

  /** @param {string} progress */
  #keep(progress) {
    this.#send("PUT", this.#stateAddress(), "text/plain", progress);
  }

  #stateAddress() {
    const { endpoint, activity, actor, registration } = this.#launch;
    const address = new URL("activities/state", endpoint);
    const asked = { activityId: activity, agent: JSON.stringify(actor), stateId: STATE, ...(registration ? { registration } : {}) };
    for (const [name, value] of Object.entries(asked)) address.searchParams.set(name, value);
    return address;
  }

  #headers() {
    return { Authorization: this.#launch.auth, "X-Experience-API-Version": VERSION };
  }

  /** @param {string} method @param {URL} address @param {string} type @param {string} body */
  async #send(method, address, type, body) {
    try {
      // Also once the page is closed.
      const response = await fetch(address, { method, headers: { ...this.#headers(), "Content-Type": type }, body, keepalive: true });
      if (!response.ok) throw new Error(String(response.status));
    } catch (error) {
      this.#about.failed(String(error));
    }
  }
}

/** What a statement is known by, and when it was made. */
function stamp() {
  return { id: uuid(), time: new Date() };
}

/** A UUID of version 4 (RFC 9562, 5.4); browsers make one by themselves only for pages of secure hosts. */
function uuid() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const digits = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
