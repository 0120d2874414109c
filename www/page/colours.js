/** The colours of an element: as its page wishes, as was chosen, as the system wants them, and on paper. */

import { choiceAround, onSystemChange, paletteFor, rememberChoice, rememberedChoice, wantsStillness } from "../state/theme.js";

/** @typedef {import("../state/theme.js").Choice} Choice */

/** What drawings are printed in: their own ground is a tint, and paper is white. */
const ON_PAPER = "contrast";

export class Colours {
  #desk;
  #host;
  #isOwn;
  #drawNow;
  /** Whether its colours are those of the page around it. */
  #isAsAround = false;
  /** Tells that these may have changed: pages set a class or a style to do so. */
  #around = new MutationObserver(() => this.#apply());
  choice = rememberedChoice();

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {HTMLElement} host
   * @param {boolean} isOwn whether the page is its own, and takes its colours too
   * @param {() => void} drawNow draws before the browser goes on
   * @param {AbortSignal} signal
   */
  constructor(desk, host, isOwn, drawNow, signal) {
    this.#desk = desk;
    this.#host = host;
    this.#isOwn = isOwn;
    this.#drawNow = drawNow;
    onSystemChange(() => this.#apply(), signal);
    addEventListener("beforeprint", () => this.#print(ON_PAPER), { signal });
    addEventListener("afterprint", () => this.#print(paletteFor(this.choice)), { signal });
    signal.addEventListener("abort", () => this.#around.disconnect());
    this.#apply();
  }

  /** What its reader chooses. @param {Choice} choice */
  choose(choice) {
    this.#take(false, choice);
    rememberChoice(choice);
  }

  /**
   * What the page around it wishes, if anything.
   * @param {import("./equipment.js").Theme | undefined} theme
   */
  wish(theme) {
    this.#take(theme === "page", theme === "light" || theme === "dark" ? theme : rememberedChoice());
  }

  /**
   * @param {boolean} isAsAround
   * @param {Choice} choice
   */
  #take(isAsAround, choice) {
    this.#isAsAround = isAsAround;
    this.choice = choice;
    this.#around.disconnect();
    for (const node of isAsAround ? [document.documentElement, document.body] : []) this.#around.observe(node, { attributes: true });
    this.#apply();
  }

  #apply() {
    const desk = this.#desk;
    if (this.#isAsAround) this.choice = choiceAround(this.#host);
    desk.still = wantsStillness();
    desk.setLook({ palette: paletteFor(this.choice), ...(desk.still ? { rate: 0 } : {}) });
    if (desk.still) desk.settle();
    // A page that it takes its colours from keeps its own.
    for (const node of this.#isOwn && !this.#isAsAround ? [this.#host, document.documentElement] : [this.#host]) {
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
