/** What a view says beside the scenario: the elements of a range, numbers, units, and what is assumed and shown. */

import { MOST_SPEED, MOST_TORQUE } from "../kit/format.js";
import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";
import { assumptionsFrom, USUAL_ASSUMPTIONS } from "../state/assumptions.js";
import { isTrap } from "../state/engine.js";
import { roadFrom, USUAL_ROAD } from "../state/road.js";
import { shownFrom } from "../state/shown.js";
import { unitsFrom, USUAL_UNITS } from "../state/units.js";

/** @typedef {import("../address/link.js").View} View */

/**
 * The elements of a range.
 * @param {import("../state/desk.js").TrainInfo} train
 * @param {string} id
 * @param {() => void} [otherwise] what is to be done before it is said that there is none
 */
export function rangeOr({ ranges }, id, otherwise) {
  const found = ranges.find((range) => range.id === id);
  if (found) return found.applied;
  otherwise?.();
  const known = ranges.map(({ id }) => id).join(", ");
  throw new Failure("range", say("page-problem-range", { id }), known ? say("page-fix-known", { known }) : say("page-fix-no-range"));
}

/**
 * What a view says beside the scenario and its elements.
 * @param {View} view
 */
export function settingsOf(view) {
  const { speed, torque, failures } = view;
  if (speed !== undefined && !(speed >= 0 && speed <= MOST_SPEED)) {
    throw new Failure("speed", say("page-problem-speed", { value: speed }), say("page-fix-speed", { most: MOST_SPEED }));
  }
  if (torque !== undefined && !(torque >= 0 && torque <= MOST_TORQUE)) {
    throw new Failure("torque", say("page-problem-torque", { value: torque }), say("page-fix-torque", { most: MOST_TORQUE }));
  }
  return {
    speed,
    torque,
    units: read(failures, view.units, unitsFrom, USUAL_UNITS),
    road: read(failures, view.road, roadFrom, USUAL_ROAD),
    assumptions: read(failures, view.losses, assumptionsFrom, USUAL_ASSUMPTIONS),
    shown: read(failures, view.shows, shownFrom, shownFrom([])),
  };
}

/**
 * What a part of a view asks for; where it is wrong and failures are collected, the usual.
 * @template T
 * @param {unknown[] | undefined} failures
 * @param {() => T} asked
 * @param {() => T} usual
 */
export function mended(failures, asked, usual) {
  try {
    return asked();
  } catch (error) {
    if (!failures || isTrap(error)) throw error;
    failures.push(error);
    return usual();
  }
}

/**
 * Reads what a view says of one thing, where it says anything; in its place the usual, as `mended`.
 * @template C, T
 * @param {unknown[] | undefined} failures
 * @param {C | undefined} code
 * @param {(code: C) => T} from
 * @param {Readonly<T>} usual
 * @returns {T | undefined}
 */
function read(failures, code, from, usual) {
  return code === undefined ? undefined : mended(failures, () => from(code), () => ({ ...usual }));
}
