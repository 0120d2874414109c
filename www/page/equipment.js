/**
 * What a page wishes an element to be: what it shows beside the answer and the drawings (`with`), which of these
 * there are (`views`), what cannot be changed (`locked`), and its colours (`theme`).
 */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { PANELS } from "../panels/registry.js";

/** What there is besides panels. */
const BANDS = ["header", "ranges", "controls", "about"];

/** Every panel, folded and unfolded as on the page of its own. */
const PANELS_ALL = "panels";

/** Everything there is. */
const ALL = "all";

/** What can be seen; all of it, where a page names nothing. */
export const VIEWS = ["answer", "section", "lever"];

/** @type {import("../state/desk.js").Lock[]} */
const LOCKS = ["elements", "train", "settings"];

/** @typedef {"light" | "dark" | "page"} Theme */
/** @type {Theme[]} */
const THEMES = ["light", "dark", "page"];

/** What each attribute of a page takes. @typedef {{ with?: string[], views?: string[], locked?: string[], theme?: string[] }} Furnishing */

/**
 * @typedef {object} Equipment
 * @property {Set<string>} bands of `BANDS`
 * @property {Set<string>} panels by their ids
 * @property {Set<string>} unfolded those of them that were named one by one
 */

/**
 * @param {string[]} names
 * @returns {Equipment}
 */
export function equipmentFrom(names) {
  const ids = PANELS.map(({ id }) => id);
  const all = names.includes(ALL);
  const unfolded = new Set(ids.filter((id) => names.includes(id)));
  return {
    bands: new Set(all ? BANDS : BANDS.filter((band) => names.includes(band))),
    panels: all || names.includes(PANELS_ALL) ? new Set(ids) : unfolded,
    unfolded,
  };
}

/** @param {string[]} names */
export function viewsFrom(names) {
  const known = VIEWS.filter((view) => names.includes(view));
  return known.length > 0 ? known : VIEWS;
}

/** @param {string[]} names */
export function locksFrom(names) {
  return LOCKS.filter((lock) => names.includes(lock) || names.includes(ALL));
}

/** @param {string[]} names @returns {Theme | undefined} */
export function themeFrom([name]) {
  return THEMES.find((theme) => theme === name);
}

/**
 * Throws where a name is none.
 * @param {Furnishing} furnishing
 */
export function checkFurnishing(furnishing) {
  const panels = PANELS.map(({ id }) => id);
  const known = { with: [ALL, ...BANDS, PANELS_ALL, ...panels], views: VIEWS, locked: [ALL, ...LOCKS], theme: THEMES };
  for (const [attribute, names] of Object.entries(furnishing)) {
    /** @type {string[]} */
    const all = known[/** @type {keyof typeof known} */ (attribute)];
    const unknown = names.find((name) => !all.includes(name));
    if (unknown === undefined) continue;
    const problem = attribute === "with" ? say("page-problem-part", { name: unknown }) : say("page-problem-value", { name: unknown });
    throw new Failure(attribute, problem, say("page-fix-known", { known: all.join(", ") }));
  }
}
