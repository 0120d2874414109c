/** A card for each source and output: its speed, its torque, whether it feeds the train, and what it is beyond. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */
/** @typedef {import("../engine/levertrain_whole.js").SourcesPort} Port */

/** How far a slider reaches where nothing limits what it sets, in rev/min. */
const USUAL_REACH = 6000;

export class SourcesPorts {
  #desk;
  #held;
  /** @type {Card[]} */
  #cards = [];
  #which = "";
  #list = h("div", { class: "sources-ports" });
  #balance = /** @type {HTMLInputElement} */ (
    h("input", { type: "checkbox", "data-part": "sources-balance", change: () => this.#held.change((sources) => sources.balance(this.#balance.checked)) })
  );
  #choice = h("label", { class: "control check", hidden: true }, this.#balance, h("span", {}, say("page-sources-balance")));
  #electric = h("p", { class: "note", "data-part": "sources-electric" });

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   */
  constructor(desk, held) {
    this.#desk = desk;
    this.#held = held;
    this.node = h("div", {}, this.#list, this.#choice, this.#electric);
  }

  /** @param {Stand} stand */
  show(stand) {
    const which = JSON.stringify(stand.ports.map(({ role, shaft, label }) => [role, shaft, label]));
    if (which !== this.#which) {
      this.#which = which;
      this.#cards = stand.ports.map((port, at) => new Card(this.#desk, this.#held, port, at));
      this.#list.replaceChildren(...this.#cards.map(({ node }) => node));
    }
    this.#cards.forEach((card, at) => card.show(stand.ports[at], stand));
    this.#choice.hidden = stand.balanced === null;
    this.#balance.checked = stand.balanced === true;
    const motors = stand.ports.some(({ kind }) => kind === "motor");
    this.#electric.hidden = !motors;
    const largest = Math.max(...stand.ports.map(({ power }) => Math.abs(power)), 1e-9);
    const none = Math.abs(stand.electric) <= 1e-9 * largest;
    const way = none ? "none" : stand.electric > 0 ? "takes" : "gives";
    this.#electric.textContent = say("page-sources-electric", { way, power: figure(this.#desk, "power", Math.abs(stand.electric)) });
  }
}

class Card {
  #desk;
  #slider;
  #speed;
  #torque;
  #torqueText = h("span", { class: "source-torque" });
  #keep;
  #does = h("p", { class: "source-does" });
  #beyond = h("p", { class: "source-beyond", hidden: true });
  #units = [h("span"), h("span")];

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {Port} port
   * @param {number} at
   */
  constructor(desk, held, port, at) {
    this.#desk = desk;
    const name = port.label;
    const unit = (/** @type {"speed" | "torque"} */ kind) => unitOf(desk.units, kind);
    const turn = (/** @type {HTMLInputElement} */ field) => {
      const value = Number(typedIn(field));
      if (typedIn(field) !== "" && Number.isFinite(value)) held.turn(port.shaft, value * unit("speed").size);
    };
    const rest = () => held.change((sources) => sources.rest());
    const slider = /** @type {HTMLInputElement} */ (
      h("input", { type: "range", step: 1, "aria-label": say("page-sources-speed-of", { name }), "data-part": "source-slider", input: () => turn(slider), change: rest })
    );
    const speed = decimalField({ "aria-label": say("page-sources-speed-of", { name }), "data-part": "source-speed", change: () => (turn(speed), rest()) });
    const torque = decimalField({ "aria-label": say("page-sources-torque-of", { name }), "data-part": "source-torque", change: () => push() });
    function push() {
      const value = Number(typedIn(torque));
      if (typedIn(torque) === "" || !Number.isFinite(value)) return;
      // An output is told by what it delivers.
      const sign = port.kind === null ? -1 : 1;
      held.change((sources) => sources.push(at, sign * value * unit("torque").size));
    }
    const keep = /** @type {HTMLInputElement} */ (
      h("input", { type: "checkbox", "data-part": "source-keep", change: () => held.change((sources) => sources.keep(port.shaft, keep.checked)) })
    );
    this.#slider = slider;
    this.#speed = speed;
    this.#torque = torque;
    this.#keep = keep;
    const kind = say("page-sources-kind", { kind: port.kind ?? port.role });
    this.node = h(
      "section",
      { class: "source", "data-port": at, "data-shaft": port.shaft, "aria-label": name },
      h("h3", {}, name, " ", h("span", { class: "note" }, kind)),
      h("div", { class: "source-row" }, h("span", {}, say("page-sources-speed")), slider, speed, this.#units[0]),
      h("label", { class: "control check" }, keep, h("span", {}, say("page-sources-keep"))),
      h("div", { class: "source-row" }, h("span", {}, say(port.kind === null ? "page-sources-delivers" : "page-sources-torque")), torque, this.#torqueText, this.#units[1]),
      this.#does,
      this.#beyond,
      h("p", { class: "note" }, limits(desk, port)),
    );
  }

  /**
   * @param {Port} port
   * @param {Stand} stand
   */
  show(port, stand) {
    const desk = this.#desk;
    const [speed, torque] = [unitOf(desk.units, "speed"), unitOf(desk.units, "torque")];
    this.#units[0].textContent = speed.name;
    this.#units[1].textContent = torque.name;
    const reach = (port.mostSpeed ?? Math.max(USUAL_REACH, ...stand.ports.map(({ mostSpeed }) => mostSpeed ?? 0))) / speed.size;
    this.#slider.min = String(port.kind === "engine" ? 0 : Math.round(-reach));
    this.#slider.max = String(Math.round(reach));
    this.#slider.value = String(port.speed / speed.size);
    this.#slider.setAttribute("aria-valuetext", figure(desk, "speed", port.speed));
    const shaft = stand.shafts.find(({ id }) => id === port.shaft);
    this.#keep.checked = shaft?.kept ?? false;
    this.#slider.disabled = this.#speed.disabled = !shaft?.moves;
    put(this.#speed, port.speed / speed.size);
    const shown = (port.kind === null ? -port.torque : port.torque) / torque.size;
    this.#torque.hidden = !port.given;
    this.#torqueText.hidden = port.given;
    put(this.#torque, shown);
    this.#torqueText.textContent = plain(shown);
    this.node.dataset.does = port.does;
    this.#does.textContent = say("page-sources-does", { does: port.does, power: figure(desk, "power", Math.abs(port.power)) });
    this.#beyond.hidden = port.beyond.length === 0;
    const names = port.beyond.map((limit) => say("page-sources-limit", { limit }));
    this.#beyond.textContent = say("page-sources-beyond", { limits: names.join(", ") });
  }
}

/** @param {Desk} desk @param {Port} port */
function limits(desk, { kind, mostSpeed, mostTorque, mostPower, efficiency, assumed }) {
  if (kind === null || mostSpeed === null || mostTorque === null) return "";
  const parts = [figure(desk, "speed", mostSpeed), figure(desk, "torque", mostTorque)];
  if (mostPower !== null) parts.push(figure(desk, "power", mostPower));
  if (efficiency !== null) parts.push(say("page-sources-efficiency", { part: number(efficiency) }));
  const known = say("page-sources-limits", { limits: parts.join(" · ") });
  const names = assumed.map((limit) => say("page-sources-limit", { limit }));
  return names.length ? `${known} ${say("page-sources-assumed", { what: names.join(", ") })}` : known;
}

/**
 * Not while somebody types in it.
 * @param {HTMLInputElement} field
 * @param {number} value
 */
function put(field, value) {
  const root = /** @type {ShadowRoot | Document} */ (field.getRootNode());
  if (root.activeElement !== field || Math.abs(Number(typedIn(field)) - value) > 0.005 * Math.max(1, Math.abs(value))) {
    putIn(field, String(Number(value.toFixed(Math.abs(value) < 10 ? 3 : 1))));
  }
}

/** @param {number} value */
export function plain(value) {
  return Math.abs(value) < 1e-9 ? "0" : number(value);
}

/**
 * @param {Desk} desk
 * @param {import("../state/units.js").Quantity} kind
 * @param {number} value
 */
export function figure(desk, kind, value) {
  const unit = unitOf(desk.units, kind);
  return `${plain(value / unit.size)}${NO_BREAK}${unit.name}`;
}
