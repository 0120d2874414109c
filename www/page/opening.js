/** Opening scenarios: those that come with the page, by what a view asks for, and the user's own. */

import { unpacked } from "../address/packed.js";
import { breath } from "../kit/pieces.js";
import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { readFile, readScenario, readTrainAt } from "../state/catalogue.js";
import { OwnFiles } from "./own_files.js";
import { mended, rangeOr, settingsOf } from "./view_settings.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Prepared} Prepared */
/** @typedef {import("../address/link.js").View} View */

export class Opening {
  #desk;
  #entries;
  #usual;
  #own;
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
    this.#own = new OwnFiles(desk, keeps, signal);
  }

  /** The user's own files, by their numbers. */
  get files() {
    return this.#own.all;
  }

  /**
   * Forgets the train on screen, where it is one of the user's own, and shows the usual one.
   * @returns {Promise<(() => void) | undefined>} what brings it back
   */
  async forget() {
    const { source, text } = this.#desk;
    if (this.#desk.isLocked("train") || !source || !("file" in source)) return undefined;
    const { name } = this.files[source.file];
    this.#own.drop(source.file);
    await this.show({});
    return () => {
      this.openText(text, name);
      this.#own.keepEdited();
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
    const free = untouched?.name ?? this.#own.free(name);
    this.openText(named(free), free);
  }

  /** Opens another train like the one on screen. */
  repeat() {
    if (this.#desk.isLocked("train")) return;
    const { text, info } = this.#desk;
    this.openText(text, this.#own.free(info?.name ?? ""));
    this.#own.keepEdited();
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
    // To show it is a long task as it is.
    await breath();
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
      this.#desk.open(text, this.#own.of(text, name), {}, prepared);
      this.#desk.dismiss();
    } catch (error) {
      this.#desk.report(error, unopened(name));
      return;
    }
    this.#own.keep(name);
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
    const source = isOurs ? { stem: wanted } : this.#own.of(text, prepared.info.name);
    const open = (/** @type {string[] | undefined} */ applied, /** @type {Prepared | undefined} */ ready) =>
      this.#desk.open(text, source, { applied, ...settings }, ready);
    put(() => {
      if (applied) mended(failures, () => open(applied, prepared), () => open(undefined, undefined));
      else open(undefined, prepared);
    });
    // A link's train is the reader's own from then on: the address can say only that it is.
    if ("file" in source) this.#own.keep(source.name);
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

/** What a file is called. @param {URL} address */
function fileIn({ pathname }) {
  return pathname.slice(pathname.lastIndexOf("/") + 1);
}

/** @param {string} name of a file */
function unopened(name) {
  return say("page-heading-unopened", { name });
}
