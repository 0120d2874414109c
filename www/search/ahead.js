/** How long a search will take, told as it begins, and how it is run elsewhere where that is too long. */

import { h } from "../kit/dom.js";
import { large, number } from "../kit/format.js";
import { save } from "../kit/save.js";
import { say } from "../kit/words.js";

/** What takes longer does not go on by itself, in seconds. */
export const LONG = 120;
/** Units of time in seconds, the longest first. @type {[string, number][]} */
const UNITS = [
  ["years", 31557600],
  ["days", 86400],
  ["hours", 3600],
  ["minutes", 60],
  ["seconds", 1],
];

export class Ahead {
  #words;
  #elsewhere;

  /**
   * @param {string} what which of the searches it is, as its parts are named
   * @param {string[]} commands how its task is run elsewhere
   * @param {() => object} task a task file, but for its format
   */
  constructor(what, commands, task) {
    this.#words = h("p", { class: "note", "data-part": `${what}-ahead`, role: "status" });
    const lines = commands.flatMap((command) => ["\n", h("code", {}, command)]).slice(1);
    this.#elsewhere = h("div", { class: "find-elsewhere", "data-part": `${what}-elsewhere`, hidden: true }, h("p", { class: "note" }, say("page-find-elsewhere")), h("pre", { class: "find-commands" }, ...lines));
    this.node = h("div", {}, this.#words, this.#elsewhere);
    this.save = h("button", { class: "plain", type: "button", "data-part": `${what}-task`, click: () => saveTask(task()) }, say("page-find-task"));
  }

  clear() {
    this.#words.textContent = "";
    this.#elsewhere.hidden = true;
  }

  /** Somebody has it go on although it is long: that it rests for that is true no more. */
  goesOn() {
    if (!this.#elsewhere.hidden) this.clear();
  }

  /**
   * @param {number} seconds how long it will take
   * @param {number} figures how many figures of that are told
   * @param {{ short: string, long: string }} messages what is said where that is short, and where it is long
   * @param {Record<string, string>} values what they say besides
   * @returns {boolean} whether it takes so long that it should not go on by itself
   */
  tell(seconds, figures, { short, long }, values) {
    const isLong = seconds > LONG;
    this.#words.textContent = say(isLong ? long : short, { ...values, time: duration(Math.max(seconds, 1), figures) });
    this.#elsewhere.hidden = !isLong;
    return isLong;
  }
}

/** A time as people say it. @param {number} seconds @param {number} figures */
export function duration(seconds, figures) {
  const [unit, size] = UNITS.find(([, size]) => seconds >= 2 * size) ?? UNITS[UNITS.length - 1];
  const value = seconds / size;
  const BIG = 1000;
  return say("duration", { unit, number: value < BIG ? number(value, figures) : large(value) });
}

/** Has the browser save a task file, as the command line reads it. @param {object} task */
function saveTask(task) {
  const text = `${JSON.stringify({ format: 1, ...task }, undefined, 2)}\n`;
  save(new Blob([text], { type: "application/json" }), "task.json");
}
