/** What the user is told went wrong, and what can be done about it at once. */

import { Problems, problemsOf } from "../kit/problems.js";

/** @typedef {{ words: string, take: () => void }} Offer a button */

export class Message {
  /**
   * @param {unknown} error what the problems came as
   * @param {string} heading what they mean for what is on screen
   * @param {Offer} [offer] what can be done about them at once
   */
  constructor(error, heading, offer) {
    this.problems = problemsOf(error);
    this.failure = error instanceof Error ? error : new Problems(this.problems);
    this.heading = heading;
    this.offer = offer;
  }
}
