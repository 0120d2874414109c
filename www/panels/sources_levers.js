/** The levers of the stage once more beside the numbers, where those of the stage are out of sight. Keys are taken there. */

import { scroller } from "../kit/table.js";
import { say } from "../kit/words.js";
import { drawing } from "../stage/drawing.js";
import { growthIn } from "../stage/growth.js";
import { tellFigure } from "../stage/take_away.js";
import { SourcesGrips } from "./sources_grips.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./sources_held.js").HeldSources} HeldSources */
/** @typedef {import("../engine/levertrain_whole.js").SourcesStand} Stand */

const DRAWING = "sources-levers";
/** Before the nodes there are height, rev/min of a pixel, and the least width. */
const HEAD = 3;

export class SourcesLevers {
  #desk;
  #held;
  #drawn;
  #grips;
  /** @type {Stand | undefined} */
  #stand;

  /**
   * @param {Desk} desk
   * @param {HeldSources} held
   * @param {() => void} redraw
   * @param {AbortSignal} signal
   */
  constructor(desk, held, redraw, signal) {
    this.#desk = desk;
    this.#held = held;
    this.#grips = new SourcesGrips(desk, held, false);
    this.#drawn = drawing(desk, DRAWING, ["answer", "units", "light"], redraw, signal);
    const { canvas, holder } = this.#drawn;
    holder.append(this.#grips.node);
    this.node = scroller(holder, say("page-sources-grips"), signal);
    this.node.dataset.part = "driven";
    const width = () => canvas.width / desk.look.scale;
    tellFigure(canvas, {
      svg: (light) => held.ask((sources, sandbox) => sources.svg(sandbox, "levers", width(), light)),
      paint: (picture, scale, light) => held.ask((sources, sandbox) => sources.drawPicture(sandbox, "levers", picture, scale, light)),
    });
  }

  /** @param {Stand} stand */
  show(stand) {
    this.#stand = stand;
    this.#drawn.canvas.setAttribute("aria-label", say("page-drawing-sources-levers", { train: this.#desk.info?.name ?? "" }));
    this.#drawn.changed();
  }

  draw() {
    this.#drawn.paint(
      DRAWING,
      (width) => this.#place(width),
      (canvas) => this.#held.ask((sources, sandbox) => sources.draw(sandbox, "levers", canvas)),
    );
  }

  /**
   * Puts grips where nodes are.
   * @param {number} width
   * @returns {number | undefined} the height that the drawing takes
   */
  #place(width) {
    const stand = this.#stand;
    const places = this.#held.ask((sources, sandbox) => sources.places(sandbox, width));
    if (!stand || !places) return undefined;
    const growth = growthIn(this.#drawn.holder);
    // Narrower the levers would be cut off: then they scroll.
    this.#drawn.holder.style.minWidth = `${Math.ceil(places[2]) * growth}px`;
    this.#grips.place(stand, places.subarray(HEAD), growth, places[1] / growth);
    return places[0];
  }
}
