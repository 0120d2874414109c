/** Every speed and torque in those that are given, exactly, and the ratios at which something stands still. */

import { h } from "../kit/dom.js";
import { fraction, MINUS, NONE, ratio } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { unitOf } from "../state/units.js";
import { bothNames } from "./sources_grips.js";
import { plain } from "./sources_ports.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */
/** @typedef {import("../engine/levertrain_whole.js").SourcesPart} Part */
/** @typedef {import("../engine/levertrain_whole.js").SourcesPort} Port */

export class SourcesTables {
  #desk;
  #members;
  #torques;
  #still;
  #stillPart;

  /** @param {Desk} desk @param {AbortSignal} signal */
  constructor(desk, signal) {
    this.#desk = desk;
    const made = (/** @type {string} */ name, /** @type {string[]} */ heads, /** @type {number[]} */ figures, /** @type {(import("../state/units.js").Quantity | undefined)[]} */ kinds) => {
      const built = table(say(name), heads, figures);
      tellHeadings(built.node, kinds.map((kind, at) => () => kind && { name: `${heads[at]}, ${unitOf(desk.units, kind).name}` }));
      return { ...built, part: h("section", {}, h("h3", {}, say(name)), scroller(built.node, say(name), signal)) };
    };
    this.#members = made(
      "page-sources-members",
      [say("page-sources-member"), say("page-sources-speed"), say("page-sources-by-speeds")],
      [1],
      [undefined, "speed", undefined],
    );
    this.#torques = made(
      "page-sources-torques",
      [say("page-sources-at"), say("page-sources-torque"), say("page-sources-power"), say("page-sources-by-torques")],
      [1, 2],
      [undefined, "torque", "power", undefined],
    );
    this.#still = table(say("page-sources-standstills"), [say("page-sources-at"), say("page-sources-ratio"), say("page-sources-power")], [1]);
    tellHeadings(this.#still.node, [() => undefined, () => ({ name: say("page-sources-ratio"), exact: say("page-take-exact", { what: say("page-sources-ratio") }) }), () => undefined]);
    this.#stillPart = h("section", { hidden: true }, h("h3", {}, say("page-sources-standstills")), scroller(this.#still.node, say("page-sources-standstills"), signal));
    this.#members.node.dataset.part = "sources-members";
    this.#torques.node.dataset.part = "sources-torques";
    this.#still.node.dataset.part = "sources-standstills";
    this.node = h("div", { class: "sources-tables" }, this.#members.part, this.#torques.part, this.#stillPart);
  }

  /** @param {Stand} stand */
  show(stand) {
    const unit = (/** @type {import("../state/units.js").Quantity} */ kind) => unitOf(this.#desk.units, kind);
    const cell = (/** @type {import("../state/units.js").Quantity} */ kind, /** @type {number | null} */ value) => {
      const shown = value === null ? null : value / unit(kind).size;
      return tell(h("td", { class: "figure" }, shown === null ? NONE : `${plain(shown)} ${unit(kind).name}`), shown);
    };
    this.#members.body.replaceChildren(
      ...stand.shafts.map((shaft) =>
        h(
          "tr",
          { "data-shaft": shaft.id, "data-given": shaft.given, "data-moves": shaft.moves },
          h("th", { scope: "row" }, bothNames(shaft)),
          cell("speed", shaft.speed),
          h("td", {}, shaft.given ? say(shaft.kept ? "page-sources-is-kept" : "page-sources-is-given") : sum(shaft.formula, "page-sources-is-held")),
        ),
      ),
    );
    const labels = stand.ports.map((port) =>
      h(
        "tr",
        { "data-role": port.role },
        h("th", { scope: "row" }, port.label),
        cell("torque", port.torque),
        cell("power", port.power),
        h("td", {}, torqueWords(port, stand)),
      ),
    );
    const passed = stand.elements.map(({ id, label, torque }) =>
      h("tr", { "data-element": id }, h("th", { scope: "row" }, label), cell("torque", torque), h("td", { class: "figure" }, NONE), h("td", {}, torque === null ? say("page-sources-undecided") : "")),
    );
    this.#torques.body.replaceChildren(...labels, ...passed);
    this.#stillPart.hidden = stand.standstills.length === 0;
    this.#still.body.replaceChildren(
      ...stand.standstills.map((still) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, still.label),
          tell(h("td", { class: "figure", title: fraction(still.ratio) }, ratio(still.ratio)), still.ratio.decimal, still.ratio.fraction),
          h("td", {}, still.motor ? say("page-sources-mechanical") : ""),
        ),
      ),
    );
  }
}

/**
 * @param {Port} port
 * @param {Stand} stand
 */
function torqueWords(port, stand) {
  if (port.given) return say("page-sources-is-given");
  if (port.role === "input" && stand.balanced) return say("page-sources-is-balanced");
  return sum(port.formula, "page-sources-no-torque");
}

/**
 * A sum of parts, such as 58/17 Engine − 41/17 Output.
 * @param {Part[]} parts
 * @param {string} none the message where there are none
 */
function sum(parts, none) {
  if (parts.length === 0) return say(none);
  return parts
    .map(({ factor, label }, at) => {
      const exact = fraction(factor);
      const size = exact.replace(MINUS, "");
      const sign = exact.startsWith(MINUS) ? MINUS : at ? "+" : "";
      const times = size === "1" ? label : `${size} × ${label}`;
      return at ? `${sign} ${times}` : `${sign}${times}`;
    })
    .join(" ");
}
