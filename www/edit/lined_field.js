/**
 * A text of many lines with their numbers, and marks at some of them. It begins as the plain field that
 * browsers have, and goes on as an editor once that has come: a module of the site that nobody waits for, and
 * that a site which was built without a bundler does not have.
 */

import { focusedIn, h } from "../kit/dom.js";
import { siteFile } from "../kit/site.js";
import { PlainField } from "./plain_field.js";

/**
 * What somebody does in it.
 * @typedef {object} Heard
 * @property {() => void} typed the text is another
 * @property {() => void} parts what comes next is a step of its own
 * @property {() => void} left it has the focus no longer
 * @property {() => void} entered what is typed is to be taken at once
 * @property {() => boolean} back there is nothing typed to take back: whether something else was
 * @property {() => boolean} again the same for what was taken back
 */

/** What those hear who do not see it, and the id of what says more. @typedef {{ name: string, described: string }} Named */
/** A problem in the text: both from 1, and in words. @typedef {{ line: number, column: number, words: string }} Mark */

/**
 * What the plain field and the editor can do. Places are counted in letters as browsers count them.
 * @typedef {object} Form
 * @property {Node[]} nodes
 * @property {HTMLElement} scroller
 * @property {string} text
 * @property {boolean} readOnly
 * @property {() => void} focus
 * @property {(from: number, to: number, text: string) => void} replace changes the text in the name of nobody
 * @property {() => void} settle what was typed until now is no longer its own to take back
 * @property {(marks: Mark[]) => void} mark marks what is wrong, in place of what was marked before
 * @property {(at: number) => void} select puts the cursor there, in sight
 * @property {() => void} [end]
 */

/** @typedef {{ editor?: (frame: HTMLElement, named: Named, heard: Heard) => Form }} Module */

/** The editor's module, once somebody has wanted it. @type {Promise<Module> | undefined} */
let coming;

function module() {
  coming ??= import(siteFile("editor/editor.js").href).catch(() => {
    // The plain field does. A later try may succeed.
    coming = undefined;
    return {};
  });
  return coming;
}

export class LinedField {
  #named;
  #heard;
  #signal;
  /** @type {Form} */
  #form;
  /** Whether the editor is wanted, or there. */
  #isWanted = false;
  /** What takes the form's place once nobody is in it. @type {Module["editor"]} */
  #next;
  /** @type {Mark[]} */
  #marks = [];
  #readOnly = false;
  node = h("div", { class: "file-frame" });

  /**
   * @param {Named} named
   * @param {Heard} heard
   * @param {AbortSignal} signal ends it
   */
  constructor(named, heard, signal) {
    this.#named = named;
    this.#heard = {
      ...heard,
      typed: () => {
        this.#size();
        heard.typed();
      },
      left: () => {
        heard.left();
        // The focus is still on its way to wherever it goes.
        setTimeout(() => this.#change());
      },
    };
    this.#signal = signal;
    this.#form = new PlainField(this.node, named, this.#heard);
    this.node.append(...this.#form.nodes);
  }

  /** Has the editor come, if it has not. */
  async better() {
    if (this.#isWanted) return;
    this.#isWanted = true;
    const { editor } = await module();
    this.#isWanted = editor !== undefined;
    this.#next = editor;
    this.#change();
  }

  /** Puts the editor in the place of the plain field, unless somebody types in that. */
  #change() {
    if (!this.#next || this.hasFocus || this.#signal.aborted) return;
    const before = this.#form;
    const form = this.#next(this.node, this.#named, this.#heard);
    this.#next = undefined;
    this.#form = form;
    form.replace(0, 0, before.text);
    form.settle();
    form.mark(this.#marks);
    form.readOnly = this.#readOnly;
    const { scrollTop } = before.scroller;
    this.node.replaceChildren(...form.nodes);
    form.scroller.scrollTop = scrollTop;
    this.#signal.addEventListener("abort", () => form.end?.());
  }

  get hasFocus() {
    return focusedIn(this.node) !== null;
  }

  focus() {
    this.#form.focus();
  }

  /** @param {boolean} only */
  set readOnly(only) {
    this.#readOnly = only;
    this.#form.readOnly = only;
  }

  get text() {
    return this.#form.text;
  }

  /**
   * Shows another text; what was in sight stays in sight, and so does the cursor where it was.
   * @param {string} text
   * @returns {number} where it first differs from the one before
   */
  write(text) {
    const before = this.text;
    let from = 0;
    while (from < before.length && before[from] === text[from]) from += 1;
    let [was, is] = [before.length, text.length];
    while (was > from && is > from && before[was - 1] === text[is - 1]) {
      was -= 1;
      is -= 1;
    }
    if (was > from || is > from) this.#form.replace(from, was, text.slice(from, is));
    this.#form.settle();
    this.#size();
    return from;
  }

  /** What was typed until now is a step of the train: its way back is that of all others. */
  settle() {
    this.#form.settle();
  }

  /** @param {Mark[]} marks */
  mark(marks) {
    this.#marks = marks;
    this.#form.mark(marks);
  }

  /** Puts the cursor there, in sight. @param {number} at */
  select(at) {
    this.#form.select(at);
  }

  /** The same for a line and a column in it. @param {{ line: number, column: number }} place both from 1 */
  goTo({ line, column }) {
    const before = this.text.split("\n").slice(0, line - 1);
    this.select(before.reduce((sum, { length }) => sum + length + 1, column - 1));
  }

  /** Makes room for as many lines as there are, within limits. */
  #size() {
    this.node.style.setProperty("--lines", String(this.text.split("\n").length));
  }
}
