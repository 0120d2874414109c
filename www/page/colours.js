/** The colours of an element: as chosen, as the system wants them, and on paper. */

import { onSystemChange, paletteFor, rememberChoice, rememberedChoice, wantsStillness } from "../state/theme.js";

/** @typedef {import("../state/theme.js").Choice} Choice */

/** What drawings are printed in: their own ground is a tint, and paper is white. */
const ON_PAPER = "contrast";

export class Colours {
  #desk;
  #coloured;
  #drawNow;
  choice = rememberedChoice();

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {HTMLElement[]} coloured what takes its colours from the choice
   * @param {() => void} drawNow draws before the browser goes on
   * @param {AbortSignal} signal
   */
  constructor(desk, coloured, drawNow, signal) {
    this.#desk = desk;
    this.#coloured = coloured;
    this.#drawNow = drawNow;
    onSystemChange(() => this.#apply(), signal);
    addEventListener("beforeprint", () => this.#print(ON_PAPER), { signal });
    addEventListener("afterprint", () => this.#print(paletteFor(this.choice)), { signal });
    this.#apply();
  }

  /** @param {Choice} choice */
  choose(choice) {
    this.choice = choice;
    rememberChoice(choice);
    this.#apply();
  }

  #apply() {
    const desk = this.#desk;
    desk.still = wantsStillness();
    desk.setLook({ palette: paletteFor(this.choice), ...(desk.still ? { rate: 0 } : {}) });
    if (desk.still) desk.settle();
    for (const node of this.#coloured) {
      if (this.choice === "auto") node.removeAttribute("data-theme");
      else node.setAttribute("data-theme", this.choice);
    }
  }

  /** @param {ReturnType<typeof paletteFor>} palette */
  #print(palette) {
    this.#desk.setLook({ palette });
    this.#drawNow();
  }
}
