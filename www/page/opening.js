/** Opening scenarios: those that come with the page, by what a view asks for, and the user's own. */

import { Failure } from "../kit/problems.js";
import { saveTrain } from "../kit/save.js";
import { MOST_SPEED, MOST_TORQUE } from "../kit/format.js";
import { say } from "../kit/words.js";
import { assumptionsFrom, USUAL_ASSUMPTIONS } from "../state/assumptions.js";
import { readFile, readScenario, readTrainAt } from "../state/catalogue.js";
import { isTrap } from "../state/engine.js";
import { unpacked } from "../address/packed.js";
import { drafts, forgetDraft, keepDraft } from "../state/drafts.js";
import { keepFiles, keptFiles } from "../state/kept_files.js";
import { roadFrom, USUAL_ROAD } from "../state/road.js";
import { shownFrom } from "../state/shown.js";
import { unitsFrom, USUAL_UNITS } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Prepared} Prepared */
/** @typedef {import("../address/link.js").View} View */

/** How long after an edit it is kept, in milliseconds: not with every letter. */
const KEEP_MS = 300;

export class Opening {
  #desk;
  #entries;
  #usual;
  #keeps;
  /** Files the user opened: they stay at hand until the page closes. */
  /** @type {import("../address/history.js").OwnFile[]} */
  files;
  /** The file that the scenario of the page on screen became by being changed. @type {{ file: import("../address/history.js").OwnFile, stem: string } | undefined} */
  #origin;
  /** Runs until what was edited is kept. */
  #keeping = 0;
  /** What that is. @type {{ file: import("../address/history.js").OwnFile, name: string } | undefined} */
  #late;
  /** Counts openings, so that a slow one that was overtaken is dropped. */
  #count = 0;

  /**
   * @param {Desk} desk
   * @param {import("../state/catalogue.js").Entry[]} entries the scenarios that come with the page
   * @param {() => string | null} usual the scenario of whoever asks for none, where one is named
   * @param {boolean} keeps whether files are kept over a reload: in somebody else's page, what the
   *   browser stores is theirs
   * @param {AbortSignal} signal
   */
  constructor(desk, entries, usual, keeps, signal) {
    this.#desk = desk;
    this.#entries = entries;
    this.#usual = usual;
    this.#keeps = keeps;
    this.files = keeps ? keptFiles() : [];
    if (keeps) this.#takeDrafts();
    desk.addEventListener("edited", () => this.#keepEdited());
    desk.addEventListener("train", () => {
      // What is opened anew has no way back to that scenario.
      if (!desk.editing) this.#origin = undefined;
    });
    addEventListener("pagehide", () => this.#keepLate(), { signal });
  }

  /** What was changed in other tabs, and before this one was opened, is there too. */
  #takeDrafts() {
    for (const { id, name, text, time } of drafts()) {
      const known = this.files.find(({ draft }) => draft === id);
      if (!known) this.files.push({ text, name: this.#free(name), draft: id, time, changed: true });
    }
  }

  /** A train that was changed is a file of the user's own from then on. */
  #keepEdited() {
    const desk = this.#desk;
    const { source, text, info } = desk;
    const name = info?.name ?? "";
    if (source && "file" in source) {
      this.files[source.file].text = text;
    } else {
      const free = this.#free(name);
      const stem = source && "stem" in source ? source.stem : undefined;
      desk.source = { file: this.files.push({ text, name: free }) - 1, name: free };
      this.#origin = stem === undefined ? undefined : { file: this.files[desk.source.file], stem };
    }
    const file = this.files[/** @type {{ file: number }} */ (desk.source).file];
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
   * @param {{ file: import("../address/history.js").OwnFile, stem: string }} origin
   */
  #goBack({ file, stem }) {
    clearTimeout(this.#keeping);
    this.#late = undefined;
    this.#origin = undefined;
    this.#drop(this.files.indexOf(file));
    this.#desk.source = { stem };
  }

  /** Has a file be one no more. @param {number} key */
  #drop(key) {
    const file = this.files[key];
    if (file.draft) forgetDraft(file.draft);
    this.files[key] = { ...file, draft: undefined, gone: true };
    this.#keep(file.name);
  }

  /** Keeps what was edited and is not kept yet. */
  #keepLate() {
    clearTimeout(this.#keeping);
    if (this.#late) this.#keepDraft(this.#late.file, this.#late.name);
    this.#late = undefined;
  }

  /**
   * @param {import("../address/history.js").OwnFile} file
   * @param {string} name
   */
  async #keepDraft(file, name) {
    if (!this.#keeps) return;
    this.#keep(name);
    try {
      const kept = await keepDraft(file, { name, text: file.text });
      if (!this.files.includes(file)) {
        // It was dropped meanwhile.
        forgetDraft(kept.draft);
        return;
      }
      Object.assign(file, kept);
      // With its number, so that it is known again after a reload.
      this.#keep(name);
    } catch {
      this.#unkept(name);
    }
  }

  /**
   * Forgets the train on screen, where it is one of the user's own, and shows the usual one.
   * @returns {Promise<(() => void) | undefined>} what brings it back
   */
  async forget() {
    const { source, text } = this.#desk;
    if (this.#desk.isLocked("train") || !source || !("file" in source)) return undefined;
    clearTimeout(this.#keeping);
    this.#late = undefined;
    const { name } = this.files[source.file];
    this.#drop(source.file);
    await this.show({});
    return () => {
      this.openText(text, name);
      this.#keepEdited();
    };
  }

  /**
   * Opens a train to begin with, which takes the place of none that was changed.
   * @param {string} text
   * @param {string} name
   */
  begin(text, name) {
    if (this.#desk.isLocked("train")) return;
    // The train is called as its file is.
    const named = (/** @type {string} */ name) => JSON.stringify({ ...JSON.parse(text), name });
    const untouched = this.files.find((file) => file.text === named(file.name) && !file.changed && !file.gone);
    const free = untouched?.name ?? this.#free(name);
    this.openText(named(free), free);
  }

  /** Opens another train like the one on screen. */
  repeat() {
    if (this.#desk.isLocked("train")) return;
    const { text, info } = this.#desk;
    this.openText(text, this.#free(info?.name ?? ""));
    this.#keepEdited();
  }

  /** A name that no file has. @param {string} name */
  #free(name) {
    const taken = (/** @type {string} */ name) => this.files.some((file) => file.name === name && !file.gone);
    let free = name;
    for (let count = 2; taken(free); count += 1) free = `${name} ${count}`;
    return free;
  }

  /**
   * Opens what a view asks for; on a problem everything on screen stays.
   * @param {View} view
   */
  async show(view) {
    try {
      if (await this.open(view)) this.#desk.dismiss();
    } catch (error) {
      this.#desk.report(error, view.from && unopened(fileIn(view.from)));
    }
  }

  /**
   * Opens a file of the user's own.
   * @param {File} file
   */
  async openFile(file) {
    if (this.#desk.isLocked("train")) return;
    this.overtake();
    const opening = this.#count;
    try {
      const text = await readFile(file);
      const prepared = await this.#prepare(text, opening);
      if (prepared) this.openText(text, file.name, prepared);
    } catch (error) {
      this.#desk.report(error, unopened(file.name));
    }
  }

  /**
   * Makes ready to open a scenario; nothing when that was overtaken on its way.
   * @param {string} text
   * @param {number} opening which of the openings it is
   */
  async #prepare(text, opening) {
    const prepared = opening === this.#count ? await this.#desk.prepare(text) : undefined;
    if (opening === this.#count) return prepared;
    prepared?.sandbox.free();
    return undefined;
  }

  /**
   * @param {string} text
   * @param {string} name
   * @param {Prepared} [prepared]
   */
  openText(text, name, prepared) {
    this.overtake();
    try {
      this.#desk.open(text, this.#own(text, name), {}, prepared);
      this.#desk.dismiss();
    } catch (error) {
      this.#desk.report(error, unopened(name));
      return;
    }
    this.#keep(name);
  }

  /**
   * The file of the user's own with this name and text.
   * @param {string} text
   * @param {string} name
   */
  #own(text, name) {
    const known = this.files.findIndex((file) => file.name === name && file.text === text && !file.gone);
    return { file: known >= 0 ? known : this.files.push({ text, name }) - 1, name };
  }

  /** Has a reload find the files again, or says that it will not. @param {string} name */
  #keep(name) {
    if (!this.#keeps) return;
    try {
      keepFiles(this.files);
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

  /** Opens once more, as it opens by itself, a file that was opened before. @param {number} key */
  pick(key) {
    if (this.#desk.isLocked("train")) return;
    const { text, name } = this.files[key];
    this.openText(text, name);
  }

  /**
   * Opens a file that was opened before with these elements applied.
   * @param {number} key
   * @param {string[]} applied
   * @param {import("../address/history.js").Put} put
   */
  reopen(key, applied, put) {
    this.overtake();
    const { text, name } = this.files[key];
    put(() => this.#desk.open(text, { file: key, name }, { applied }));
  }

  /** Drops an opening that is still on its way. */
  overtake() {
    this.#count += 1;
  }

  /**
   * Opens what a view asks for; false when it was overtaken on its way.
   * @param {View} view
   * @param {import("../address/history.js").Put} [put]
   */
  async open(view, put = (open) => open()) {
    const { stem, from, range, failures } = view;
    this.overtake();
    const opening = this.#count;
    const settings = settingsOf(view);
    const wanted = stem ?? this.#usualStem();
    const isOurs = view.train === undefined && from === undefined;
    if (isOurs && !this.#knows(wanted)) {
      throw new Failure("scenario", say("page-problem-scenario", { stem: wanted }), say("page-fix-scenario"));
    }
    const text = isOurs ? await readScenario(wanted) : from ? await readTrainAt(from) : await unpacked(view.train ?? "");
    const prepared = await this.#prepare(text, opening);
    if (!prepared) return false;
    const applied = range === undefined ? view.applied : rangeOr(prepared.info, range, () => prepared.sandbox.free());
    const source = isOurs ? { stem: wanted } : this.#own(text, prepared.info.name);
    const open = (/** @type {string[] | undefined} */ applied, /** @type {Prepared | undefined} */ ready) =>
      this.#desk.open(text, source, { applied, ...settings }, ready);
    put(() => {
      if (applied) mended(failures, () => open(applied, prepared), () => open(undefined, undefined));
      else open(undefined, prepared);
    });
    // A link's train is the reader's own from then on: the address can say only that it is.
    if ("file" in source) this.#keep(source.name);
    return true;
  }

  /**
   * Changes what is on screen in what a view speaks of; on a problem nothing changes.
   * @param {View} view
   */
  change(view) {
    const desk = this.#desk;
    try {
      const { speed, torque, units, road, assumptions, shown } = settingsOf(view);
      const applied = view.range !== undefined && desk.info ? rangeOr(desk.info, view.range) : view.applied;
      if (applied) desk.apply(applied);
      if (speed !== undefined) desk.setSpeed(speed);
      if (torque !== undefined) desk.setTorque(torque);
      if (units) desk.setUnits(units);
      if (road) desk.drive(road);
      if (assumptions) desk.assume(assumptions);
      if (shown) desk.setLook(shown);
      desk.dismiss();
    } catch (error) {
      desk.report(error);
    }
  }

  /** The scenario of whoever asks for none: the one the page names, or the first. */
  #usualStem() {
    const named = this.#usual();
    return named && this.#knows(named) ? named : this.#entries[0].stem;
  }

  /** @param {string} stem */
  #knows(stem) {
    return this.#entries.some((entry) => entry.stem === stem);
  }
}

/**
 * The elements of a range.
 * @param {import("../state/desk.js").TrainInfo} train
 * @param {string} id
 * @param {() => void} [otherwise] what is to be done before it is said that there is none
 */
function rangeOr({ ranges }, id, otherwise) {
  const found = ranges.find((range) => range.id === id);
  if (found) return found.applied;
  otherwise?.();
  const known = ranges.map(({ id }) => id).join(", ");
  throw new Failure("range", say("page-problem-range", { id }), known ? say("page-fix-known", { known }) : say("page-fix-no-range"));
}

/**
 * What a view says beside the scenario and its elements.
 * @param {View} view
 */
function settingsOf(view) {
  const { speed, torque, failures } = view;
  if (speed !== undefined && !(speed >= 0 && speed <= MOST_SPEED)) {
    throw new Failure("speed", say("page-problem-speed", { value: speed }), say("page-fix-speed", { most: MOST_SPEED }));
  }
  if (torque !== undefined && !(torque >= 0 && torque <= MOST_TORQUE)) {
    throw new Failure("torque", say("page-problem-torque", { value: torque }), say("page-fix-torque", { most: MOST_TORQUE }));
  }
  return {
    speed,
    torque,
    units: read(failures, view.units, unitsFrom, USUAL_UNITS),
    road: read(failures, view.road, roadFrom, USUAL_ROAD),
    assumptions: read(failures, view.losses, assumptionsFrom, USUAL_ASSUMPTIONS),
    shown: read(failures, view.shows, shownFrom, shownFrom([])),
  };
}

/**
 * What a part of a view asks for; where it is wrong and failures are collected, the usual.
 * @template T
 * @param {unknown[] | undefined} failures
 * @param {() => T} asked
 * @param {() => T} usual
 */
function mended(failures, asked, usual) {
  try {
    return asked();
  } catch (error) {
    if (!failures || isTrap(error)) throw error;
    failures.push(error);
    return usual();
  }
}

/**
 * Reads what a view says of one thing, where it says anything; in its place the usual, as `mended`.
 * @template C, T
 * @param {unknown[] | undefined} failures
 * @param {C | undefined} code
 * @param {(code: C) => T} from
 * @param {Readonly<T>} usual
 * @returns {T | undefined}
 */
function read(failures, code, from, usual) {
  return code === undefined ? undefined : mended(failures, () => from(code), () => ({ ...usual }));
}

/** What a file is called. @param {URL} address */
function fileIn({ pathname }) {
  return pathname.slice(pathname.lastIndexOf("/") + 1);
}

/** @param {string} name of a file */
function unopened(name) {
  return say("page-heading-unopened", { name });
}
