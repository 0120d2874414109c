/** How long a search will take, told as it begins, and how it is run elsewhere where that is too long. */

import { h } from "../kit/dom.js";
import { large, number } from "../kit/format.js";
import { save } from "../kit/save.js";
import { say } from "../kit/words.js";

/** How long it goes on before it is told how long it will take, in milliseconds. */
const PROBE_MS = 300;
/** What takes longer does not go on by itself, in seconds. */
const LONG = 120;
/** Units of time in seconds, the longest first. @type {[string, number][]} */
const UNITS = [
  ["years", 31557600],
  ["days", 86400],
  ["hours", 3600],
  ["minutes", 60],
  ["seconds", 1],
];
/** The command line, but for its options. */
const COMMAND = ["cargo run --release -p levertrain-core --example search --", "task.json"];

export class Ahead {
  /** When news came first, and how many boxes were looked at then. @type {{ time: number, boxes: number } | undefined} */
  #first;
  #isTold = false;
  #words = h("p", { class: "note", "data-part": "find-ahead", role: "status" });
  #elsewhere = h("div", { class: "find-elsewhere", "data-part": "find-elsewhere", hidden: true });

  /**
   * @param {() => string} train the text of the train
   * @param {() => import("../engine/levertrain.js").Ask} ask what is asked
   */
  constructor(train, ask) {
    this.node = h("div", {}, this.#words, this.#elsewhere);
    this.save = h("button", { class: "plain", type: "button", "data-part": "find-task", click: () => saveTask(train(), ask()) }, say("page-find-task"));
    const line = (/** @type {string} */ options) => h("code", {}, [...COMMAND, options].join(" "));
    this.#elsewhere.append(
      h("p", { class: "note" }, say("page-find-elsewhere")),
      h("pre", { class: "find-commands" }, line("--out finds.jsonl"), "\n", line("--shard 1/8 --out part-1.jsonl"), "\n", line("--merge part-1.jsonl,part-2.jsonl")),
    );
  }

  clear() {
    this.#first = undefined;
    this.#isTold = false;
    this.#words.textContent = "";
    this.#elsewhere.hidden = true;
  }

  /** Somebody has it go on although it is long. */
  goesOn() {
    this.#elsewhere.hidden = true;
  }

  /**
   * @param {{ boxes: number, estimate?: number, candidates: number, rests: boolean }} state how many boxes were looked at, and
   *   about how many there are
   * @returns {boolean} whether it takes so long that it should not go on by itself
   */
  hear({ boxes, estimate, candidates, rests }) {
    if (this.#isTold || rests || estimate === undefined) return false;
    const time = performance.now();
    this.#first ??= { time, boxes };
    const took = time - this.#first.time;
    if (took < PROBE_MS || boxes <= this.#first.boxes) return false;
    this.#isTold = true;
    const MS = 1000;
    const seconds = ((estimate - boxes) * took) / (boxes - this.#first.boxes) / MS;
    const isLong = seconds > LONG;
    const values = { candidates: large(candidates), boxes: large(estimate), time: duration(Math.max(seconds, 1)) };
    this.#words.textContent = say(isLong ? "page-find-long" : "page-find-ahead", values);
    this.#elsewhere.hidden = !isLong;
    return isLong;
  }
}

/** A time as people say it, with two figures. @param {number} seconds */
function duration(seconds) {
  const [unit, size] = UNITS.find(([, size]) => seconds >= 2 * size) ?? UNITS[UNITS.length - 1];
  const value = seconds / size;
  const BIG = 1000;
  return say("duration", { unit, number: value < BIG ? number(value, 2) : large(value) });
}

/**
 * Has the browser save a task file, as the command line reads it.
 * @param {string} train
 * @param {import("../engine/levertrain.js").Ask} ask
 */
function saveTask(train, ask) {
  const text = `${JSON.stringify({ format: 1, train: JSON.parse(train), ask }, undefined, 2)}\n`;
  save(new Blob([text], { type: "application/json" }), "task.json");
}
