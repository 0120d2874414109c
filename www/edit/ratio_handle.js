/** A handle that takes a set through the ratios that real teeth near its own have. */

import { h } from "../kit/dom.js";
import { number } from "../kit/format.js";
import { listed, say } from "../kit/words.js";

/** @typedef {import("./tools.js").Hands} Hands */
/** @typedef {import("../engine/levertrain_whole.js").NearRatios} Ratios */

/** What the handle is known by while the strip is open. */
export const RATIO = "ratio";

/**
 * @param {Hands} hands
 * @param {string} id of the set
 * @returns {Node[]} nothing where no teeth near its own keep all rules
 */
export function ratioHandle({ desk, sheet, edit, ratios }, id) {
  const teethNow = () => (sheet().sets.find((set) => set.id === id)?.gears ?? []).map(({ teeth }) => teeth);
  const placeIn = (/** @type {Ratios | undefined} */ found) =>
    found?.near.findIndex(({ teeth }) => teeth.every((count, gear) => count === teethNow()[gear])) ?? -1;
  // The way of the handle stays as it is for as long as it leads to the teeth there are.
  const known = ratios();
  const found = placeIn(known) >= 0 ? known : ratios(desk.askWhole((engine, sandbox) => engine.nearRatios(sandbox, id)) ?? undefined);
  const near = found?.near ?? [];
  if (!found || near.length < 2) return [];
  const away = near.map(({ ratio }) => Math.abs(ratio.decimal - found.own.decimal));
  const handle = /** @type {HTMLInputElement} */ (
    h("input", {
      type: "range", min: 0, max: near.length - 1, step: 1, "data-key": RATIO, "aria-label": say("page-draw-ratio"),
      input: slide, pointerdown: () => handle.setAttribute("data-drawn", ""), change: release, pointerup: release, pointercancel: release,
    })
  );
  const own = placeIn(found);
  handle.value = String(own >= 0 ? own : away.indexOf(Math.min(...away)));
  const words = h("output", { class: "figures" });
  const end = (/** @type {number} */ at) => h("span", { class: "figures", "aria-hidden": "true" }, number(near[at].ratio.decimal));
  tell();

  function slide() {
    const { teeth } = near[Number(handle.value)];
    if (edit({ edit: "cut", set: id, teeth }, true)) tell();
  }

  function release() {
    handle.removeAttribute("data-drawn");
  }

  /** Says the ratio that it has, and of which teeth. */
  function tell() {
    const at = near[Number(handle.value)];
    const set = sheet().sets.find((set) => set.id === id);
    const teeth = listed((set?.gears ?? []).map(({ name, teeth }) => say("page-edit-fit-gear", { gear: name, teeth })));
    const now = at.teeth.every((count, gear) => set?.gears[gear].teeth === count) ? at.ratio : found?.own;
    const ratio = number(now?.decimal ?? 0);
    words.textContent = say("page-draw-ratio-now", { formula: found?.formula ?? "", ratio, teeth });
    handle.setAttribute("aria-valuetext", words.textContent);
  }

  return [h("label", { class: "strip-ratio" }, h("span", {}, say("page-draw-ratio")), end(0), handle, end(near.length - 1), words)];
}
