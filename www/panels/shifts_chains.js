/** The best chains of ranges that a train could have, and the one that is marked in the drawing. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { focusedIn, h } from "../kit/dom.js";
import { fraction, NONE, number, ratio } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { lockable } from "../state/lockable.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../engine/levertrain_whole.js").Chains} Chains */
/** @typedef {import("../engine/levertrain_whole.js").Chain} Chain */
/** @typedef {import("../engine/levertrain.js").Exact} Exact */
/** @typedef {{ least: number, most: number, ranges: number }} Bounds steps in hundredths */

const HUNDRED = 100;
/** Bounds of the fields. */
const STEPS = { min: 1.01, max: 20 };
const RANGES = { min: 2, max: 32 };
const USUAL = { least: 1.1, most: 2.2 };

export class ShiftChains {
  #desk;
  #find;
  #pick;
  /** @type {Chain[]} */
  #chains = [];
  #chosen = 0;
  #least = decimalField({ id: "shifts-least", ...STEPS, step: 0.05, change: () => this.find() });
  #most = decimalField({ id: "shifts-most", ...STEPS, step: 0.05, change: () => this.find() });
  #ranges = /** @type {HTMLInputElement} */ (h("input", { id: "shifts-ranges", type: "number", ...RANGES, change: () => this.find() }));
  #words = h("p", { class: "note", role: "status", "data-part": "shifts-found" });
  #list;
  #detail;
  #found;

  /**
   * @param {Desk} desk
   * @param {(bounds: Bounds) => Chains | undefined} find
   * @param {(nodes: number[]) => void} pick marks a chain
   * @param {AbortSignal} signal
   */
  constructor(desk, find, pick, signal) {
    this.#desk = desk;
    this.#find = find;
    this.#pick = pick;
    putIn(this.#least, String(USUAL.least));
    putIn(this.#most, String(USUAL.most));
    this.#ranges.value = String(RANGES.max);
    this.#list = table(
      say("page-shifts-chains"),
      [say("page-shifts-chain-head"), say("page-shifts-ratios-head"), say("page-shifts-steps-head"), say("page-shifts-spread")],
      [3],
    );
    this.#list.node.dataset.part = "shifts-chains";
    const heads = [say("page-shifts-number-head"), say("page-shifts-elements-head"), say("page-ratio"), say("page-shifts-step"), say("page-shifts-released"), say("page-shifts-applied")];
    this.#detail = table(say("page-shifts-chosen"), heads, [2, 3]);
    this.#detail.node.dataset.part = "shifts-chosen";
    const exact = (/** @type {string} */ name) => () => ({ name, exact: say("page-take-exact", { what: name }) });
    tellHeadings(this.#list.node, [() => undefined, () => undefined, () => undefined, exact(say("page-shifts-spread"))]);
    tellHeadings(this.#detail.node, [() => undefined, () => undefined, exact(say("page-ratio")), exact(say("page-shifts-step")), () => undefined, () => undefined]);
    const take = h("button", { class: "plain", type: "button", "data-part": "shifts-take", click: () => this.#take() }, say("page-shifts-take"));
    this.#found = h(
      "div",
      { class: "shifts-found" },
      scroller(this.#list.node, say("page-shifts-chains"), signal),
      h("h4", {}, say("page-shifts-chosen")),
      scroller(this.#detail.node, say("page-shifts-chosen"), signal),
      lockable(desk, "train", take),
      h("p", { class: "note" }, say("page-shifts-take-note")),
    );
    this.node = h(
      "section",
      { "aria-labelledby": "shifts-chains" },
      h("h3", { id: "shifts-chains" }, say("page-shifts-chains")),
      h("p", { class: "note" }, say("page-shifts-chains-note")),
      h(
        "div",
        { class: "shifts-bounds" },
        field(say("page-shifts-least"), this.#least),
        field(say("page-shifts-most"), this.#most),
        field(say("page-shifts-ranges"), this.#ranges),
      ),
      this.#words,
      this.#found,
    );
  }

  /** Looks for the best chains within what the fields say. */
  find() {
    const found = this.#find({
      least: hundredths(this.#least, USUAL.least),
      most: hundredths(this.#most, USUAL.most),
      ranges: Math.round(within(Number(this.#ranges.value) || RANGES.max, RANGES)),
    });
    if (!found) return;
    this.#chains = found.chains;
    this.#chosen = 0;
    const [first] = found.chains;
    this.#words.textContent = found.complete ? (first ? "" : say("page-shifts-no-chain")) : say("page-shifts-too-many");
    this.#found.hidden = !first;
    this.#show();
  }

  #show() {
    const focused = focusedIn(this.#list.node)?.closest("[data-chain]")?.getAttribute("data-chain");
    this.#list.body.replaceChildren(...this.#chains.map((chain, at) => this.#row(chain, at)));
    if (focused) /** @type {HTMLElement | null} */ (this.#list.body.querySelector(`[data-chain="${focused}"] button`))?.focus();
    const chain = this.#chains[this.#chosen];
    this.#detail.body.replaceChildren(...(chain ? detail(chain) : []));
    this.#pick(chain?.nodes.map(({ node }) => node) ?? []);
  }

  /**
   * @param {Chain} chain
   * @param {number} at
   */
  #row({ nodes, steps, spread }, at) {
    const count = say("page-shifts-chain", { count: nodes.length });
    const isNamed = nodes.every(({ labels }) => labels.length);
    const sizes = steps.map(({ decimal }) => decimal);
    const between = say("page-shifts-steps", { least: short(Math.min(...sizes)), most: short(Math.max(...sizes)) });
    const pick = () => {
      this.#chosen = at;
      this.#show();
    };
    return h(
      "tr",
      { class: "pick", "data-chain": at, click: pick },
      h("th", { scope: "row" }, h("button", { class: "bare", type: "button", "aria-pressed": String(at === this.#chosen) }, isNamed ? say("page-shifts-chain-named", { chain: count }) : count)),
      h("td", {}, nodes.map(({ ratio: exact }) => short(exact.decimal)).join("  ")),
      h("td", {}, between),
      tell(h("td", { class: "figure", title: fraction(spread) }, short(spread.decimal)), spread.decimal, spread.fraction),
    );
  }

  /** Makes the chain the ranges of the train. */
  #take() {
    const chain = this.#chains[this.#chosen];
    if (!chain) return;
    const scenario = JSON.parse(this.#desk.text);
    const forward = this.#desk.chart()?.ranges.map(({ ratio: own }) => (own?.decimal ?? 0) > 0) ?? [];
    const kept = scenario.ranges.filter((/** @type {unknown} */ _, /** @type {number} */ at) => !forward[at]);
    const taken = new Set(kept.map((/** @type {{ id: string }} */ { id }) => id));
    const fresh = (/** @type {number} */ number) => {
      let id = `r${number}`;
      while (taken.has(id)) id += "a";
      taken.add(id);
      return id;
    };
    const ranges = chain.nodes.map(({ applied }, at) => ({ id: fresh(at + 1), label: say("edit-range", { number: at + 1 }), applied }));
    try {
      this.#desk.rewrite(JSON.stringify({ ...scenario, ranges: [...ranges, ...kept] }));
    } catch (error) {
      this.#desk.report(error);
    }
  }
}

/** @param {Chain} chain */
function detail({ nodes, steps }) {
  return nodes.map(({ applied, labels, ratio: own }, at) => {
    const before = nodes[at - 1]?.applied;
    const names = (/** @type {string[] | undefined} */ ids) => ids?.join(" ") || NONE;
    const gone = before?.filter((id) => !applied.includes(id));
    const come = before && applied.filter((id) => !before.includes(id));
    const step = steps[at - 1];
    return h(
      "tr",
      { "data-applied": applied.join() },
      h("th", { scope: "row" }, String(at + 1), labels.length ? h("span", { class: "does" }, labels.join(", ")) : null),
      h("td", {}, names(applied)),
      figure(own),
      figure(step),
      h("td", {}, names(gone)),
      h("td", {}, names(come)),
    );
  });
}

/** As short as a ratio is told among many. @param {number} value */
function short(value) {
  return number(value, 3);
}

/** @param {Exact | undefined} value */
function figure(value) {
  const cell = h("td", { class: "figure", title: value ? fraction(value) : null }, ratio(value ?? null));
  return tell(cell, value?.decimal, value?.fraction);
}

/** @param {string} name @param {HTMLInputElement} input */
function field(name, input) {
  return h("div", { class: "control" }, h("label", { for: input.id }, name), input);
}

/** @param {number} value @param {{ min: number, max: number }} bounds */
function within(value, { min, max }) {
  return Math.min(Math.max(value, min), max);
}

/** @param {HTMLInputElement} input @param {number} usual */
function hundredths(input, usual) {
  const typed = Number(typedIn(input));
  return Math.round(within(typed || usual, STEPS) * HUNDRED);
}
