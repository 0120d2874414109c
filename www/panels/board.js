/** The panels of an element: their headings at once, what is in them when it is needed. */

import { Failure, problemsOf } from "../kit/problems.js";
import { Panel } from "../kit/panel.js";
import { addStyles } from "../kit/sheets.js";
import { takeButton } from "../kit/take.js";
import { parted, say } from "../kit/words.js";
import { whenIdle } from "../kit/pieces.js";
import { fetchWholeEngine } from "../state/engine.js";
import { follow } from "../state/follow.js";
import { offersIn } from "../stage/take_away.js";
import { PANELS } from "./registry.js";

/** @typedef {import("./registry.js").Entry} Entry */
/** @typedef {import("./registry.js").Surroundings} Surroundings */

/** The panel that is unfolded on a phone too. */
const FIRST = "chart";

export class Board {
  /** @type {Slot[]} */
  #slots;

  /**
   * @param {Surroundings} surroundings
   * @param {boolean} narrow whether only that of the ranges is unfolded
   */
  constructor(surroundings, narrow) {
    this.#slots = PANELS.map((entry) => new Slot(entry, surroundings, narrow ? entry.id === FIRST : Boolean(entry.open)));
  }

  /**
   * Which panels there are to be.
   * @param {Set<string>} wanted by their ids
   * @param {Set<string>} unfolded those that are unfolded though they usually are not
   */
  choose(wanted, unfolded) {
    for (const slot of this.#slots) slot.choose(wanted.has(slot.entry.id), unfolded.has(slot.entry.id));
  }

  /** The panels that are unfolded, by their ids. */
  unfolded() {
    return this.#slots.filter(({ panel }) => panel.open).map(({ entry }) => entry.id);
  }

  /**
   * Unfolds just these.
   * @param {string[] | undefined} ids
   */
  unfold(ids) {
    if (!ids) return;
    for (const { entry, panel } of this.#slots) panel.node.open = ids.includes(entry.id);
  }

  /**
   * Has only one panel there, and nothing to be read of the others; or all again.
   * @param {string | undefined} only its id
   */
  veil(only) {
    for (const slot of this.#slots) slot.panel.veil(only !== undefined && slot.entry.id !== only);
  }

  /**
   * Whether a column has a panel in it.
   * @param {Entry["column"]} column
   */
  has(column) {
    return this.column(column).some(({ hidden }) => !hidden);
  }

  /**
   * The heading and place of a panel, whether there is to be one, and what unfolds it and waits until it is there.
   * @param {string} id
   */
  panel(id) {
    const slot = /** @type {Slot} */ (this.#slots.find(({ entry }) => entry.id === id));
    const { node } = slot.panel;
    const unfold = () => {
      node.open = true;
      return slot.unfold();
    };
    return { node, offered: () => slot.wanted, unfold };
  }

  /** @param {Entry["column"]} column */
  column(column) {
    return this.#slots.filter(({ entry }) => entry.column === column).map(({ panel }) => panel.node);
  }

  /**
   * Fills the panels that are unfolded. By and by the others that have something to say follow, and
   * then the modules of the rest are fetched: an open page needs the network no more.
   */
  async start() {
    const slots = this.#slots.filter(({ wanted }) => wanted);
    await Promise.all(slots.filter(({ panel }) => panel.open).map((slot) => slot.unfold()));
    whenIdle(async () => {
      await Promise.all(slots.filter(({ entry }) => entry.hints).map((slot) => slot.fill()));
      for (const slot of slots) slot.fetch();
    });
  }
}

/** A panel, and what it takes to fill it. */
class Slot {
  #surroundings;
  /** @type {Promise<void> | undefined} */
  #filling;
  #filled = false;
  wanted = true;

  /**
   * @param {Entry} entry
   * @param {Surroundings} surroundings
   * @param {boolean} open
   */
  constructor(entry, surroundings, open) {
    this.entry = entry;
    this.#surroundings = surroundings;
    this.panel = new Panel(entry.id, say(entry.title), entry.wide);
    this.panel.node.open = open;
    this.panel.toggled(() => this.panel.open && this.wanted && this.unfold());
    follow(surroundings.desk, ["train"], () => this.#show());
  }

  /**
   * @param {boolean} wanted
   * @param {boolean} unfolded
   */
  choose(wanted, unfolded) {
    this.wanted = wanted;
    if (unfolded) this.panel.node.open = true;
    this.#busy(wanted && !this.#filled && (this.panel.open || Boolean(this.entry.hints)));
    this.#show();
  }

  #show() {
    const { info } = this.#surroundings.desk;
    const { needs } = this.entry;
    this.panel.node.hidden = !this.wanted || Boolean(needs && !(info && needs(info)));
  }

  /** Puts in what the panel shows, once. */
  fill() {
    this.#filling ??= this.#fill();
    return this.#filling;
  }

  /** Puts in what the panel shows, and has the engine ready for it. */
  async unfold() {
    const { desk } = this.#surroundings;
    if (this.entry.whole && !desk.isWhole) {
      this.#busy(true);
      try {
        await desk.becomeWhole();
      } catch (error) {
        this.#report(error);
        return;
      } finally {
        this.#busy(false);
      }
    }
    await this.fill();
  }

  /** Has module and engine at hand for later. That they fail is said when the panel is unfolded. */
  fetch() {
    if (this.#surroundings.signal.aborted) return;
    this.entry.load().catch(() => undefined);
    this.#dress();
    if (this.entry.whole) fetchWholeEngine();
  }

  async #fill() {
    const { desk, signal } = this.#surroundings;
    this.#busy(true);
    try {
      const [{ fill }] = await Promise.all([this.entry.load(), this.#dress()]);
      if (!signal.aborted) fill(this.panel, this.#surroundings);
      if (this.entry.takes && !this.#filled) this.#beTaken();
      this.#filled = true;
    } catch (error) {
      // Unfolded again, it tries again.
      this.#filling = undefined;
      this.#report(error);
    } finally {
      this.#busy(false);
    }
  }

  /** Puts its styles on. */
  #dress() {
    const { styles } = this.entry;
    return styles ? addStyles(/** @type {ShadowRoot} */ (this.panel.node.getRootNode()), styles) : undefined;
  }

  /** Offers its tables and figures to be taken away. */
  #beTaken() {
    const { desk } = this.#surroundings;
    const { id, title } = this.entry;
    const { node } = this.panel;
    this.panel.beside(takeButton(say(title), id, () => offersIn(desk, node), (error) => desk.report(error)));
  }

  /** @param {unknown} error */
  #report(error) {
    const reasons = parted(problemsOf(error).map(({ problem }) => problem));
    const problem = say("page-problem-panel", { reasons });
    this.#surroundings.desk.report(new Failure(say(this.entry.title), problem, say("page-fix-panel")));
  }

  /** @param {boolean} busy */
  #busy(busy) {
    if (busy) this.panel.node.setAttribute("aria-busy", "true");
    else this.panel.node.removeAttribute("aria-busy");
  }
}
