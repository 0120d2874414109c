/** What an element shows beside the answer and the drawings: only what its attribute `with` names. */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { PANELS } from "../panels/registry.js";

/** What there is besides panels. */
const BANDS = ["header", "ranges", "controls", "about"];

/** Every panel, folded and unfolded as on the page of its own. */
const PANELS_ALL = "panels";

/** Everything there is. */
const ALL = "all";

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

/**
 * Throws where a name is none.
 * @param {string[]} names
 */
export function checkEquipment(names) {
  const all = [ALL, ...BANDS, PANELS_ALL, ...PANELS.map(({ id }) => id)];
  const unknown = names.find((name) => !all.includes(name));
  if (unknown === undefined) return;
  const known = all.join(", ");
  throw new Failure("with", say("page-problem-part", { name: unknown }), say("page-fix-known", { known }));
}
