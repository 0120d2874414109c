/** One element's workings: the views around one desk, and the frames they are drawn in. */

import { Address } from "../address/history.js";
import { assumptionsFrom, USUAL_ASSUMPTIONS } from "../state/assumptions.js";
import { readFile, readScenario } from "../state/catalogue.js";
import { isTrap } from "../state/engine.js";
import { Failure } from "../kit/faults.js";
import { MOST_SPEED, MOST_TORQUE } from "../kit/format.js";
import { Frames } from "../kit/frames.js";
import { acceptDrops } from "../kit/drop.js";
import { roadFrom, USUAL_ROAD } from "../state/road.js";
import { shownFrom } from "../state/shown.js";
import { unitsFrom, USUAL_UNITS } from "../state/units.js";
import { onSystemChange, paletteFor, rememberChoice, rememberedChoice, wantsStillness } from "../state/theme.js";
import { answerBand } from "../stage/answer.js";
import { bearings } from "../panels/bearings.js";
import { capacity } from "../panels/capacity.js";
import { caption } from "../stage/caption.js";
import { cautions } from "./cautions.js";
import { chart } from "../panels/chart.js";
import { combinations } from "../panels/combinations.js";
import { controls } from "../stage/controls.js";
import { effort } from "../panels/effort.js";
import { endView } from "../panels/end_view.js";
import { flow } from "../panels/flow.js";
import { header } from "./header.js";
import { losses } from "../panels/losses.js";
import { members } from "../panels/members.js";
import { messages } from "./messages.js";
import { operating } from "../panels/operating.js";
import { ranges } from "../stage/ranges.js";
import { share } from "../panels/share.js";
import { shownQuantity } from "../stage/shown_quantity.js";
import { slips } from "../panels/slips.js";
import { stage } from "../stage/stage.js";
import { teeth } from "../panels/teeth.js";
import { working } from "../panels/working.js";
import { h } from "../kit/dom.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../address/link.js").View} View */

/** Container width in CSS pixels under which the side column starts folded. */
const PHONE = 640;

export class Bench {
  #host;
  #entries;
  #theme = rememberedChoice();
  #frames;
  #stage;
  #end;
  #flow;
  #header;
  #address;
  /** Files the user opened: they stay at hand until the page closes. */
  /** @type {import("../address/history.js").OwnFile[]} */
  #files = [];
  #drawn = 0;
  /** Counts openings, so that a slow one that was overtaken is dropped. */
  #opening = 0;

  /**
   * @param {HTMLElement} host
   * @param {Desk} desk
   * @param {import("../state/catalogue.js").Entry[]} entries
   * @param {AbortSignal} signal
   */
  constructor(host, desk, entries, signal) {
    this.#host = host;
    this.desk = desk;
    this.#entries = entries;
    this.#frames = new Frames((seconds) => this.#frame(seconds), signal);
    const redraw = () => this.redraw();
    // Inside someone else's page the main part and the first heading are theirs.
    const ownPage = host.hasAttribute("address");

    const warning = cautions();
    this.#header = header(
      desk,
      entries,
      this.#theme,
      {
        pick: (stem) => this.show({ stem }),
        pickFile: (key) => this.openText(this.#files[key].text, this.#files[key].name),
        openFile: (file) => this.openFile(file),
        chooseTheme: (choice) => this.#chooseTheme(choice),
      },
      warning,
      ownPage ? "h1" : "p",
    );
    this.#end = endView(desk, redraw, signal);
    this.#flow = flow(desk, redraw, signal);
    const road = operating(desk, redraw, signal);
    const alsoDraw = () => {
      this.#end.draw();
      this.#flow.draw();
      road.draw();
    };
    this.#stage = stage(desk, { drawn: () => this.#count(), redraw, alsoDraw }, signal);
    const side = [
      chart(desk),
      members(desk),
      effort(desk),
      losses(desk),
      teeth(desk),
      combinations(desk),
      share(desk),
    ];
    const below = [
      working(desk, signal),
      this.#flow.node,
      road.node,
      capacity(desk),
      this.#end.node,
      slips(desk),
      bearings(desk, signal),
    ];
    if (host.clientWidth < PHONE) {
      for (const part of [...side, ...below]) part.open = part === side[0];
    }
    const answer = answerBand(desk);
    const about = h("p", { class: "about", "data-part": "about" });
    this.nodes = [
      this.#header.node,
      warning,
      messages(desk),
      h(
        ownPage ? "main" : "div",
        { class: "body" },
        answer.node,
        ranges(desk, shownQuantity(desk)),
        h(
          "div",
          { class: "columns" },
          h("div", { class: "stage-column" }, this.#stage.node, caption(desk), answer.rest, controls(desk), about),
          h("div", { class: "side" }, ...side),
          h("div", { class: "below" }, ...below),
        ),
      ),
    ];

    this.#address = ownPage ? new Address(desk, this.#files, (view) => this.#open(view), signal) : undefined;
    acceptDrops(this.#address ? document.documentElement : host, host, (file) => this.openFile(file), signal);
    desk.addEventListener("train", () => (about.textContent = desk.info?.about ?? ""));
    desk.addEventListener("answer", () => {
      const detail = desk.answer;
      host.dispatchEvent(new CustomEvent("levertrain-change", { detail, bubbles: true, composed: true }));
    });
    for (const event of ["answer", "preview", "speed", "units", "light", "look"]) {
      desk.addEventListener(event, redraw);
    }
    onSystemChange(() => this.#applyTheme(), signal);
    addEventListener("beforeprint", () => this.#print("light"), { signal });
    addEventListener("afterprint", () => this.#print(paletteFor(this.#theme)), { signal });
    this.#applyTheme();
  }

  /**
   * Opens what the address or the attributes ask for; the usual scenario where they fail.
   * @param {View} wishes
   */
  async start(wishes) {
    if (this.#address) await this.#address.start(wishes);
    else await this.show(wishes);
    if (!this.desk.info) {
      const { faults } = this.desk;
      await this.show({});
      const heading = "What the link asks for cannot be shown; here is another scenario instead.";
      if (faults.length > 0) this.desk.report({ faults }, heading);
    }
  }

  /**
   * Opens what a view asks for; on a fault everything on screen stays.
   * @param {View} view
   */
  async show(view) {
    try {
      await this.#open(view);
      this.desk.dismiss();
    } catch (error) {
      this.desk.report(error);
      this.#header.restore();
    }
  }

  /**
   * Opens a file of the user's own.
   * @param {File} file
   */
  async openFile(file) {
    try {
      this.openText(await readFile(file), file.name);
    } catch (error) {
      this.desk.report(error, unopened(file.name));
    }
  }

  /**
   * @param {string} text
   * @param {string} name
   */
  openText(text, name) {
    this.#opening += 1;
    try {
      const known = this.#files.findIndex((file) => file.name === name && file.text === text);
      const key = known >= 0 ? known : this.#files.push({ text, name }) - 1;
      this.desk.open(text, { file: key, name });
      this.desk.dismiss();
    } catch (error) {
      this.desk.report(error, unopened(name));
      this.#header.restore();
    }
  }

  /** Asks for a frame. */
  redraw() {
    this.#frames.request();
  }

  /** @param {View} view */
  async #open(view) {
    const { stem, applied, speed, torque, failures } = view;
    this.#opening += 1;
    const opening = this.#opening;
    if (speed !== undefined && !(speed >= 0 && speed <= MOST_SPEED)) {
      throw new Failure("speed", `${speed} is not a speed`, `use 0 to ${MOST_SPEED} rev/min`);
    }
    if (torque !== undefined && !(torque >= 0 && torque <= MOST_TORQUE)) {
      throw new Failure("torque", `${torque} is not a torque`, `use 0 to ${MOST_TORQUE} N·m`);
    }
    const units = read(failures, view.units, unitsFrom, USUAL_UNITS);
    const road = read(failures, view.road, roadFrom, USUAL_ROAD);
    const assumptions = read(failures, view.losses, assumptionsFrom, USUAL_ASSUMPTIONS);
    const shown = read(failures, view.shows, shownFrom, shownFrom([]));
    const wanted = stem ?? this.#usualStem();
    if (!this.#knows(wanted)) {
      throw new Failure(
        "scenario",
        `there is no scenario "${wanted}"`,
        "choose one from the list of scenarios",
      );
    }
    const text = await readScenario(wanted);
    if (opening !== this.#opening) return;
    const open = (/** @type {string[] | undefined} */ applied) =>
      this.desk.open(text, { stem: wanted }, { applied, speed, torque, units, road, assumptions, shown });
    if (applied) mended(failures, () => open(applied), () => open(undefined));
    else open(undefined);
  }

  /** The scenario of whoever asks for none: the one the page names, or the first. */
  #usualStem() {
    const named = this.#host.getAttribute("scenario");
    return named && this.#knows(named) ? named : this.#entries[0].stem;
  }

  /** @param {string} stem */
  #knows(stem) {
    return this.#entries.some((entry) => entry.stem === stem);
  }

  /** @param {number} seconds */
  #frame(seconds) {
    const { desk } = this;
    if (!desk.info) return false;
    const moving = desk.advance(seconds);
    this.#stage.draw();
    return moving;
  }

  #count() {
    this.#drawn += 1;
    this.#host.dataset.frame = String(this.#drawn);
  }

  /** @param {import("../state/theme.js").Choice} choice */
  #chooseTheme(choice) {
    this.#theme = choice;
    rememberChoice(choice);
    this.#applyTheme();
  }

  #applyTheme() {
    const { desk } = this;
    desk.still = wantsStillness();
    desk.setLook({ palette: paletteFor(this.#theme), ...(desk.still ? { rate: 0 } : {}) });
    if (desk.still) desk.settle();
    // The element that has the page to itself colours the ground around it as well.
    for (const node of this.#address ? [this.#host, document.documentElement] : [this.#host]) {
      if (this.#theme === "auto") node.removeAttribute("data-theme");
      else node.setAttribute("data-theme", this.#theme);
    }
  }

  /** @param {string} palette */
  #print(palette) {
    this.desk.setLook({ palette });
    this.#stage.draw();
  }
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

/** @param {string} name of a file */
function unopened(name) {
  return `${name} cannot be opened. What was on screen is still there.`;
}
