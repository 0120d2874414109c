/** Speeds set by hand on both drawings of the stage: grips over the nodes of its levers, and a bar that says what is shown. */

import { focusedIn, h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { bothNames, SourcesGrips } from "./sources_grips.js";
import { figure } from "./sources_ports.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */

export class SourcesStage {
  #desk;
  #held;
  #grips;
  #section;
  /** @type {Stand | undefined} */
  #stand;
  /** Whether both drawings show it. */
  #shows = false;
  /** Whether somebody went back to the steady motion, or something else is shown. */
  #left = false;
  #words = h("p", { class: "timed-now", "data-part": "sources-shown" });
  #refused = h("p", { class: "source-beyond", "data-part": "sources-shown-refused", hidden: true });

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {HTMLElement} section the half-section, beside which the levers are
   * @param {() => void} toPanel brings the panel into sight
   */
  constructor(desk, held, section, toPanel) {
    this.#desk = desk;
    this.#held = held;
    this.#section = section;
    this.#grips = new SourcesGrips(desk, held, true);
    this.#grips.node.hidden = true;
    section.after(this.#grips.node);
    const button = (/** @type {string} */ part, /** @type {string} */ words, /** @type {() => void} */ click) =>
      h("button", { class: "plain", type: "button", "data-part": part, click }, words);
    this.node = h(
      "div",
      { class: "timed-bar", role: "group", "aria-label": say("page-sources-bar"), "data-part": "sources-bar", hidden: true },
      this.#words,
      this.#refused,
      h(
        "div",
        { class: "timed-bar-row" },
        button("sources-back", say("page-sources-back"), () => this.#leave()),
        button("sources-to-panel", say("page-sources-to-panel"), toPanel),
      ),
    );
    section.closest(".body")?.append(this.node);
  }

  /** @param {string} id of a shaft */
  speedOf(id) {
    return this.#stand?.shafts.find((shaft) => shaft.id === id)?.speed;
  }

  get isShown() {
    return this.#shows;
  }

  /**
   * @param {Stand | undefined} stand how it stands; nothing while the panel is folded
   * @param {string} refusal what could not be turned, and why
   */
  show(stand, refusal) {
    this.#stand = stand;
    if (this.#held.touched) this.#left = false;
    // With several sources or outputs the input alone does not say what turns how.
    const branched = stand !== undefined && stand.ports.length > 2 && stand.freedom > 1;
    const wants = stand !== undefined && !this.#desk.preview && !this.#left && (this.#held.touched || branched);
    if (wants || this.#shows) this.#put(wants);
    this.#refused.hidden = refusal === "";
    this.#refused.textContent = refusal;
    this.node.hidden = !this.#shows;
    const given = stand?.shafts.filter((shaft) => shaft.given) ?? [];
    const words = say("page-sources-shown", { given: given.map((shaft) => `${bothNames(shaft)}: ${figure(this.#desk, "speed", shaft.speed)}`).join(" · ") });
    if (this.#words.textContent !== words) this.#words.textContent = words;
    if (!stand) this.#grips.clear();
    this.#grips.node.hidden = !stand;
  }

  /** Something else is shown, or the steady motion is again. */
  gone() {
    this.#shows = false;
    this.node.hidden = true;
  }

  /** It is not to come back before something is turned. */
  leave() {
    this.#left = true;
    this.gone();
  }

  /** May show itself again, as another train or combination is there. */
  again() {
    this.#left = false;
  }

  /** Puts the grips over the nodes, wherever those have gone. */
  place() {
    const stand = this.#stand;
    const levers = this.#section.parentElement?.querySelector("canvas[data-drawing=lever]");
    if (!stand || !(levers instanceof HTMLCanvasElement)) return;
    const compared = this.#desk.pinned.ask((_engine, sandbox, pinned) => this.#held.ask((sources) => sources.placesCompared(sandbox, pinned)));
    const places = compared ?? this.#held.ask((sources, sandbox) => sources.placesOnStage(sandbox));
    if (!places) return;
    const zoom = Number(this.#section.closest(".stage")?.getAttribute("data-zoom")) || 1;
    const { node } = this.#grips;
    const top = `${levers.offsetTop}px`;
    if (node.style.top !== top) node.style.top = top;
    node.hidden = levers.hidden;
    this.#grips.place(stand, places.subarray(1), zoom, places[0] / zoom);
  }

  #leave() {
    const focused = focusedIn(this.node) !== null;
    this.#left = true;
    this.#held.reset();
    if (focused) /** @type {HTMLElement | null} */ (this.#grips.node.querySelector("[tabindex]"))?.focus({ preventScroll: true });
  }

  /** @param {boolean} shows */
  #put(shows) {
    this.#shows = this.#desk.showInstant(() => this.#held.ask((sources, sandbox) => sources.showOnStage(sandbox, shows)) ?? false, this);
  }
}
