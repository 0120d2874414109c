/** What the output can do within all limits, and how the power of the input divides over the ratio. */

import { h } from "../kit/dom.js";
import { tell, tellHeadings } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { tellFigure } from "../stage/take_away.js";
import { unitOf } from "../state/units.js";
import { figure, plain } from "./sources_ports.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */
/** @typedef {[string, import("../state/units.js").Unit]} Head what a column is called, and its unit */

export class SourcesPlots {
  #desk;
  #held;
  #region;
  #shares;

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, held, redraw, signal) {
    this.#desk = desk;
    this.#held = held;
    const plot = (/** @type {"region" | "shares"} */ name, /** @type {string} */ title) => {
      const drawn = drawing(desk, `sources-${name}`, ["units"], redraw, signal);
      const { canvas, holder } = drawn;
      canvas.setAttribute("aria-label", title);
      const width = () => canvas.width / desk.look.scale;
      tellFigure(canvas, {
        svg: (light) => held.ask((sources, sandbox) => sources.svg(sandbox, name, width(), light)),
        paint: (picture, scale, light) => held.ask((sources, sandbox) => sources.drawPicture(sandbox, name, picture, scale, light)),
      });
      const words = h("p", { class: "note", "data-part": `sources-${name}-words` });
      const numbers = new Numbers(title, signal);
      return { name, drawn, holder, words, numbers, part: h("section", {}, h("h3", {}, title), holder, words, numbers.node) };
    };
    this.#region = plot("region", say("page-sources-region"));
    this.#shares = plot("shares", say("page-sources-shares"));
    this.node = h("div", { class: "sources-plots" }, this.#region.part, this.#shares.part);
  }

  /** @param {Stand} stand */
  show(stand) {
    const desk = this.#desk;
    const [speed, torque] = [unitOf(desk.units, "speed"), unitOf(desk.units, "torque")];
    const now = say("page-sources-now");
    const region = this.#held.ask((sources) => {
      const words = [say("page-sources-across", { unit: speed.name }), say("page-sources-up", { unit: torque.name }), say("page-sources-within"), now];
      sources.plotRegion(words, speed.size, torque.size);
      return sources.region();
    });
    const others = stand.shafts.filter(({ given, id }) => given && id !== stand.ports.find(({ role }) => role === "output")?.shaft);
    const given = others.map(({ label, speed: turns }) => `${label} ${figure(desk, "speed", turns)}`).join(", ");
    if (region) {
      this.#region.holder.hidden = region.refused !== null;
      this.#region.words.textContent = region.refused
        ? say("page-sources-no-region", { why: region.refused, name: region.about ?? "" })
        : say("page-sources-region-note", { given, count: region.edges.length });
      this.#region.drawn.changed();
      const heads = [[say("page-sources-speed"), speed], [say("page-sources-least"), torque], [say("page-sources-most"), torque]];
      this.#region.numbers.show(/** @type {Head[]} */ (heads), region.edges);
    }
    const shares = this.#held.ask((sources) => {
      const found = sources.shares();
      const names = stand.ports.map(({ label }) => label);
      if (found.balanced) names.push(say("page-sources-out-of-in"));
      const marks = stand.standstills.map(({ label }) => say("page-sources-rests", { name: label }));
      sources.plotShares([say("page-sources-ratio"), say("page-sources-share"), now], names, marks);
      return found;
    });
    if (shares) {
      this.#shares.holder.hidden = shares.refused !== null;
      this.#shares.words.textContent = shares.refused ? say("page-sources-no-shares", { why: shares.refused }) : say("page-sources-shares-note", { balanced: String(shares.balanced) });
      this.#shares.drawn.changed();
      const plainly = { name: "", size: 1 };
      const names = [say("page-sources-ratio"), ...stand.ports.map(({ label }) => label)];
      if (shares.balanced) names.push(say("page-sources-out-of-in"));
      const rows = shares.points.map(({ ratio, powers, efficiency }) => [ratio, ...powers, ...(efficiency === null ? [] : [efficiency])]);
      this.#shares.numbers.show(names.map((name) => /** @type {Head} */ ([name, plainly])), rows);
    }
  }

  draw() {
    for (const { name, drawn, holder } of [this.#region, this.#shares]) {
      if (holder.hidden) continue;
      drawn.paint(
        `sources-${name}`,
        (width) => this.#held.ask((sources) => sources.height(name, width)),
        (canvas) => this.#held.ask((sources, sandbox) => sources.draw(sandbox, name, canvas)),
      );
    }
  }
}

/** The numbers of a plot as a table, which is filled while it is unfolded. */
class Numbers {
  #title;
  #signal;
  #place = h("div");
  /** @type {{ heads: Head[], rows: number[][] } | undefined} */
  #shown;

  /** @param {string} title @param {AbortSignal} signal */
  constructor(title, signal) {
    this.#title = title;
    this.#signal = signal;
    this.node = /** @type {HTMLDetailsElement} */ (h("details", { class: "sources-numbers", hidden: true, toggle: () => this.#fill() }, h("summary", {}, say("page-sources-numbers")), this.#place));
  }

  /** @param {Head[]} heads @param {number[][]} rows */
  show(heads, rows) {
    this.#shown = { heads, rows };
    this.node.hidden = rows.length === 0;
    this.#fill();
  }

  #fill() {
    if (!this.node.open || !this.#shown) return;
    const { heads, rows } = this.#shown;
    const names = heads.map(([name, unit]) => [name, unit.name].filter(Boolean).join(", "));
    const { node, body } = table(this.#title, names, names.map((_, at) => at));
    tellHeadings(node, names.map((name) => () => ({ name })));
    body.append(
      ...rows.map((row) =>
        h("tr", {}, ...row.map((value, at) => tell(h("td", { class: "figure" }, plain(value / heads[at][1].size)), value / heads[at][1].size))),
      ),
    );
    const [box] = this.#place.children;
    if (box instanceof HTMLElement && box.firstElementChild) box.firstElementChild.replaceWith(node);
    else this.#place.append(scroller(node, this.#title, this.#signal));
  }
}
