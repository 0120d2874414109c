/** The user's own trains: files that were opened, and what was changed, kept for a reload and for later. */

import { Failure } from "../kit/problems.js";
import { saveTrain } from "../kit/save.js";
import { say } from "../kit/words.js";
import { drafts, forgetDraft, keepDraft } from "../state/drafts.js";
import { keepFiles, keptFiles } from "../state/kept_files.js";

/** @typedef {import("../state/kept_files.js").OwnFile} OwnFile */

/** How long after an edit it is kept, in milliseconds: not with every letter. */
const KEEP_MS = 300;

export class OwnFiles {
  #desk;
  #keeps;
  /** All there were: they stay at hand, by their numbers, until the page closes. @type {OwnFile[]} */
  all;
  /** The file that the scenario of the page on screen became by being changed. @type {{ file: OwnFile, stem: string } | undefined} */
  #origin;
  /** Runs until what was edited is kept. */
  #keeping = 0;
  /** What that is. @type {{ file: OwnFile, name: string } | undefined} */
  #late;

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {boolean} keeps whether they are kept over a reload: in somebody else's page, what the
   *   browser stores is theirs
   * @param {AbortSignal} signal
   */
  constructor(desk, keeps, signal) {
    this.#desk = desk;
    this.#keeps = keeps;
    this.all = keeps ? keptFiles() : [];
    if (keeps) this.#takeDrafts();
    desk.addEventListener("edited", () => this.keepEdited());
    desk.addEventListener("train", () => {
      // What is opened anew has no way back to that scenario.
      if (!desk.editing) this.#origin = undefined;
    });
    addEventListener("pagehide", () => this.#keepLate(), { signal });
  }

  /** What was changed in other tabs, and before this one was opened, is there too. */
  #takeDrafts() {
    for (const { id, name, text, time } of drafts()) {
      const known = this.all.find(({ draft }) => draft === id);
      if (!known) this.all.push({ text, name: this.free(name), draft: id, time, changed: true });
    }
  }

  /** A train that was changed is a file of the user's own from then on. */
  keepEdited() {
    const desk = this.#desk;
    const { source, text, info } = desk;
    const name = info?.name ?? "";
    if (source && "file" in source) {
      this.all[source.file].text = text;
    } else {
      const free = this.free(name);
      const stem = source && "stem" in source ? source.stem : undefined;
      desk.source = { file: this.all.push({ text, name: free }) - 1, name: free };
      this.#origin = stem === undefined ? undefined : { file: this.all[desk.source.file], stem };
    }
    const file = this.all[/** @type {{ file: number }} */ (desk.source).file];
    file.changed = true;
    if (file === this.#origin?.file && desk.sheet?.undo === 0) {
      this.#goBack(this.#origin);
      return;
    }
    if (this.#late && this.#late.file !== file) this.#keepLate();
    this.#late = { file, name };
    clearTimeout(this.#keeping);
    this.#keeping = setTimeout(() => this.#keepLate(), KEEP_MS);
  }

  /**
   * With every change of it taken back a scenario is that of the page again.
   * @param {{ file: OwnFile, stem: string }} origin
   */
  #goBack({ file, stem }) {
    this.#origin = undefined;
    this.drop(this.all.indexOf(file));
    this.#desk.source = { stem };
  }

  /** Has a file be one no more. @param {number} key */
  drop(key) {
    clearTimeout(this.#keeping);
    this.#late = undefined;
    const file = this.all[key];
    if (file.draft) forgetDraft(file.draft);
    this.all[key] = { ...file, draft: undefined, gone: true };
    this.keep(file.name);
  }

  /** Keeps what was edited and is not kept yet. */
  #keepLate() {
    clearTimeout(this.#keeping);
    if (this.#late) this.#keepDraft(this.#late.file, this.#late.name);
    this.#late = undefined;
  }

  /**
   * @param {OwnFile} file
   * @param {string} name
   */
  async #keepDraft(file, name) {
    if (!this.#keeps) return;
    this.keep(name);
    try {
      const kept = await keepDraft(file, { name, text: file.text });
      if (!this.all.includes(file)) {
        // It was dropped meanwhile.
        forgetDraft(kept.draft);
        return;
      }
      Object.assign(file, kept);
      // With its number, so that it is known again after a reload.
      this.keep(name);
    } catch {
      this.#unkept(name);
    }
  }

  /** A name that no file has. @param {string} name */
  free(name) {
    const taken = (/** @type {string} */ name) => this.all.some((file) => file.name === name && !file.gone);
    let free = name;
    for (let count = 2; taken(free); count += 1) free = `${name} ${count}`;
    return free;
  }

  /**
   * The file of the user's own with this name and text.
   * @param {string} text
   * @param {string} name
   */
  of(text, name) {
    const known = this.all.findIndex((file) => file.name === name && file.text === text && !file.gone);
    return { file: known >= 0 ? known : this.all.push({ text, name }) - 1, name };
  }

  /** Has a reload find the files again, or says that it will not. @param {string} name */
  keep(name) {
    if (!this.#keeps) return;
    try {
      keepFiles(this.all);
    } catch {
      this.#unkept(name);
    }
  }

  /** @param {string} name */
  #unkept(name) {
    const failure = new Failure(name, say("page-problem-unkept"), say("page-fix-unkept"));
    const { text } = this.#desk;
    const offer = { words: say("page-edit-save"), take: () => saveTrain(text, name.replace(/\.json$/i, "")) };
    this.#desk.report(failure, say("page-heading-unkept", { name }), offer);
  }
}
