/** A card for each source and output: its speed, its torque, whether it feeds the train, and what it is beyond. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { NO_BREAK, number } from "../kit/format.js";
import { say } from "../kit/words.js";
import { unitOf } from "../state/units.js";
import { StatedFields } from "./stated.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */
/** @typedef {import("../engine/levertrain_whole.js").SourcesPort} Port */

const KILOWATT = 1000;
/** How far a slider reaches where nothing limits what it sets, in rev/min. */
const USUAL_REACH = 6000;

export class SourcesPorts {
  #desk;
  #held;
  #signal;
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
   * @param {AbortSignal} signal
   */
  constructor(desk, held, signal) {
    this.#desk = desk;
    this.#held = held;
    this.#signal = signal;
    this.node = h("div", {}, this.#list, this.#choice, this.#electric);
  }

  /** @param {Stand} stand */
  show(stand) {
    const which = JSON.stringify(stand.ports.map(({ role, shaft, label }) => [role, shaft, label]));
    if (which !== this.#which) {
      this.#which = which;
      this.#cards = stand.ports.map((port, at) => new Card(this.#desk, this.#held, port, at, stand.shafts.find(({ id }) => id === port.shaft)?.name ?? "", this.#signal));
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
  #held;
  #port;
  #at;
  #name;
  #slider;
  #speed;
  #torque;
  #torqueText = h("span", { class: "source-torque" });
  #keep;
  #does = h("p", { class: "source-does" });
  #beyond = h("p", { class: "source-beyond", hidden: true });
  /** What was typed and is no number that can be set. */
  #wrong = h("p", { class: "source-beyond", role: "status", "data-part": "source-wrong" });
  /** Why nothing can be set. */
  #decided = h("p", { class: "note", hidden: true, "data-part": "source-decided" });
  #units = [h("span"), h("span")];
  #most = Infinity;
  #limits = h("p", { class: "note" });
  /** What its file states of its limits; an output has none. @type {StatedFields | undefined} */
  #stated;

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {Port} port
   * @param {number} at
   * @param {string} shaft what the drawings call its shaft
   * @param {AbortSignal} signal
   */
  constructor(desk, held, port, at, shaft, signal) {
    this.#desk = desk;
    this.#held = held;
    this.#port = port;
    this.#at = at;
    const name = port.label;
    this.#name = name;
    const slider = /** @type {HTMLInputElement} */ (
      h("input", {
        type: "range",
        step: 1,
        "aria-label": say("page-sources-speed-of", { name }),
        "data-part": "source-slider",
        input: () => this.#turn(Number(slider.value)),
        change: () => held.rest(),
      })
    );
    const speed = decimalField({ "aria-label": say("page-sources-speed-of", { name }), "data-part": "source-speed", change: () => this.#typed(speed, "speed", (value) => this.#turn(value, true)) });
    // An output is told by what it delivers.
    const sign = port.kind === null ? -1 : 1;
    const push = (/** @type {number} */ value) => held.change((sources) => sources.push(at, sign * value * unitOf(desk.units, "torque").size));
    const torque = decimalField({ "aria-label": say("page-sources-torque-of", { name }), "data-part": "source-torque", change: () => this.#typed(torque, "torque", push) });
    const keep = /** @type {HTMLInputElement} */ (
      h("input", { type: "checkbox", "data-part": "source-keep", change: () => held.change((sources) => sources.keep(port.shaft, keep.checked)) })
    );
    this.#slider = slider;
    this.#speed = speed;
    this.#torque = torque;
    this.#keep = keep;
    if (port.kind !== null) this.#stated = new StatedFields(desk, say("page-sources-limits-of", { name }), "source-limits", signal);
    // Drawings name the shaft, and what stands at it may have a name of its own.
    const kind = say("page-sources-kind", { kind: port.kind ?? port.role });
    const said = (/** @type {string} */ words) => name.toLowerCase().includes(words.toLowerCase());
    const notes = [said(kind) ? "" : kind, said(shaft) ? "" : say("page-sources-on-shaft", { shaft })].filter(Boolean);
    this.node = h(
      "section",
      { class: "source", "data-port": at, "data-shaft": port.shaft, "aria-label": name },
      h("h3", {}, name, " ", h("span", { class: "note" }, notes.join(", "))),
      h("div", { class: "source-row" }, h("span", {}, say("page-sources-speed")), slider, speed, this.#units[0]),
      h("label", { class: "control check" }, keep, h("span", {}, say("page-sources-keep"))),
      this.#decided,
      h("div", { class: "source-row" }, h("span", {}, say(port.kind === null ? "page-sources-delivers" : "page-sources-torque")), torque, this.#torqueText, this.#units[1]),
      this.#wrong,
      this.#does,
      this.#beyond,
      this.#limits,
      ...(this.#stated ? [h("details", { class: "timed-known" }, h("summary", {}, say("page-sources-limits-title")), this.#stated.node)] : []),
    );
  }

  /** @param {number} value in the unit on screen @param {boolean} [rests] whether nothing is dragged on */
  #turn(value, rests = false) {
    this.#accept(this.#speed);
    this.#held.turn(this.#port.shaft, value * unitOf(this.#desk.units, "speed").size, rests);
  }

  /**
   * Takes what was typed, or says why not; it stays in the field then.
   * @param {HTMLInputElement} field
   * @param {"speed" | "torque"} kind
   * @param {(value: number) => void} take
   */
  #typed(field, kind, take) {
    const { name, size } = unitOf(this.#desk.units, kind);
    const most = this.#most / size;
    const text = typedIn(field);
    const value = Number(text);
    if (text !== "" && Number.isFinite(value) && Math.abs(value) <= most) {
      this.#accept(field);
      take(value);
      return;
    }
    field.setAttribute("aria-invalid", "true");
    const to = `${number(Number(most.toPrecision(3)))}${NO_BREAK}${name}`;
    this.#wrong.textContent = say("page-sources-wrong", { what: say("page-sources-limit", { limit: kind }), name: this.#name, to });
  }

  /** @param {HTMLInputElement} field */
  #accept(field) {
    field.removeAttribute("aria-invalid");
    const others = [this.#speed, this.#torque].some((other) => other.hasAttribute("aria-invalid"));
    if (!others) this.#wrong.textContent = "";
  }

  /**
   * @param {Port} port
   * @param {Stand} stand
   */
  show(port, stand) {
    const desk = this.#desk;
    const [speed, torque] = [unitOf(desk.units, "speed"), unitOf(desk.units, "torque")];
    this.#most = stand.most;
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
    this.#decided.hidden = shaft?.moves ?? true;
    const by = shaft?.decidedBy ?? [];
    this.#decided.textContent = by.length ? say("page-sources-decided", { name: this.#name, by: by.join(", ") }) : say("page-sources-held", { name: this.#name });
    put(this.#speed, port.speed / speed.size);
    const shown = (port.kind === null ? -port.torque : port.torque) / torque.size;
    this.#torque.hidden = !port.given;
    this.#torqueText.hidden = port.given;
    put(this.#torque, shown);
    this.#torqueText.textContent = plain(shown);
    this.#limits.textContent = limits(desk, port);
    this.#stated?.show(statedOf(desk, port));
    this.node.dataset.does = port.does;
    this.#does.textContent = say("page-sources-does", { does: port.does, power: figure(desk, "power", Math.abs(port.power)) });
    this.#beyond.hidden = port.beyond.length === 0;
    const names = port.beyond.map((limit) => say("page-sources-limit", { limit }));
    this.#beyond.textContent = say("page-sources-beyond", { limits: names.join(", ") });
  }
}

/** @param {Desk} desk @param {Port} port @returns {import("./stated.js").Stated[]} */
function statedOf(desk, { role, shaft, kind, mostSpeed, mostTorque, mostPower, efficiency, assumed }) {
  const path = role === "input" ? ["sources", "input"] : ["sources", "further", shaft];
  const row = (/** @type {string} */ limit, /** @type {number | null} */ value, /** @type {import("../state/units.js").Unit} */ unit) =>
    ({ path: [...path, limit], name: say("page-sources-most-of", { limit }), unit, value, assumed: assumed.includes(limit) });
  const rows = [
    row("speed", mostSpeed, unitOf(desk.units, "speed")),
    row("torque", mostTorque, unitOf(desk.units, "torque")),
    // In the file, and here, in kilowatts.
    row("power", mostPower && mostPower / KILOWATT, { name: "kW", size: 1 }),
  ];
  return kind === "motor" ? [...rows, row("efficiency", efficiency, { name: "", size: 1 })] : rows;
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
 * Not while somebody types in it, nor where what was typed is to be mended.
 * @param {HTMLInputElement} field
 * @param {number} value
 */
function put(field, value) {
  if (field.hasAttribute("aria-invalid")) return;
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
