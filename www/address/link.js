/**
 * The address fragment: `#s=SCENARIO&on=V,W&n=1500`, and `&t=80&u=lbfft,hp&o=60,5,0`,
 * `&l=98.5,0,0` and `&v=power,joined,scale` where not as usual. In the place of `s`, `f` holds a whole train.
 */

import { assumptionsCode, USUAL_ASSUMPTIONS } from "../state/assumptions.js";
import { DEFAULT_SPEED, DEFAULT_TORQUE } from "../state/desk.js";
import { Failure } from "../kit/problems.js";
import { MOST_SPEED, MOST_TORQUE } from "../kit/format.js";
import { say } from "../kit/words.js";
import { roadCode, USUAL_ROAD } from "../state/road.js";
import { shownNames } from "../state/shown.js";
import { unusual } from "../state/units.js";

/** @typedef {import("../state/units.js").Units} Units */
/** @typedef {{ stem?: string, train?: string, from?: URL, applied?: string[], range?: string, speed?: number, torque?: number, units?: string[], road?: string, losses?: string, shows?: string[], failures?: unknown[] }} View a scenario of the page by its stem, a whole train by its code or by the address of its file; elements, or the range they are of; units, road, losses and what is shown by their codes; a view with a list of failures is opened as far as it is good, and what is not is added to the list */
/** @typedef {import("../state/road.js").Road} Road */

/** @typedef {{ speed: number, torque: number, units: Units, road: Road, assumptions: import("../state/assumptions.js").Assumptions, look: import("../state/shown.js").Shown }} Settings */

const USUAL_ROAD_CODE = roadCode(USUAL_ROAD);
const USUAL_LOSSES = assumptionsCode(USUAL_ASSUMPTIONS);

/**
 * @param {{ stem: string } | { train: string }} what
 * @param {string[]} applied
 * @param {Settings} settings
 */
export function fragmentOf(what, applied, settings) {
  const on = applied.map(encodeURIComponent).join(",");
  const { torque, units, road, losses, shows } = unusualCodes(settings);
  const scenario = "stem" in what ? { s: encodeURIComponent(what.stem) } : { f: what.train };
  const parts = { ...scenario, on, n: settings.speed, t: torque, u: units, o: road, l: losses, v: shows };
  const said = Object.entries(parts).filter(([, value]) => value !== undefined);
  return `#${said.map(([key, value]) => `${key}=${value}`).join("&")}`;
}

/**
 * What is not as usual, as links and attributes write it.
 * @param {Settings} settings
 */
export function unusualCodes({ torque, units, road, assumptions, look }) {
  const other = (/** @type {string} */ code, /** @type {string} */ usual) => (code === usual ? undefined : code);
  return {
    torque: other(String(torque), String(DEFAULT_TORQUE)),
    units: other(unusual(units).join(), ""),
    road: other(roadCode(road), USUAL_ROAD_CODE),
    losses: other(assumptionsCode(assumptions), USUAL_LOSSES),
    shows: other(shownNames(look).join(), ""),
  };
}

/**
 * Reads a fragment; an empty one asks for nothing in particular. Where the scenario is known, a part
 * that is wrong gives way to the usual and is listed.
 * @param {string} fragment
 * @returns {View}
 */
export function viewOf(fragment) {
  /** @type {unknown[]} */
  const failures = [];
  /** @type {View} */
  const view = { failures };
  for (const part of fragment.replace(/^#/, "").split("&").filter(Boolean)) {
    try {
      read(view, part);
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      failures.push(error);
    }
  }
  if (view.stem === undefined && view.train === undefined) {
    if (failures.length > 0) throw failures[0];
    if (view.applied) throw nonsense(say("page-problem-link-nowhere"));
    return view;
  }
  // What a link to a scenario leaves out is as usual, not as it happened to be.
  const usual = { torque: DEFAULT_TORQUE, units: [], road: USUAL_ROAD_CODE, losses: USUAL_LOSSES, shows: [] };
  return failures.length > 0 ? { speed: DEFAULT_SPEED, ...usual, ...view } : { ...usual, ...view };
}

/**
 * Reads one part of a fragment into a view.
 * @param {View} view
 * @param {string} part
 */
function read(view, part) {
  const [key, ...rest] = part.split("=");
  const value = decoded(rest.join("="), key);
  if (key === "s") view.stem = value;
  else if (key === "f") view.train = value;
  else if (key === "on") view.applied = value.split(",").filter(Boolean);
  else if (key === "n") view.speed = amount(value, "page-problem-link-speed", MOST_SPEED);
  else if (key === "t") view.torque = amount(value, "page-problem-link-torque", MOST_TORQUE);
  else if (key === "u") view.units = value.split(",").filter(Boolean);
  else if (key === "o") view.road = value;
  else if (key === "l") view.losses = value;
  else if (key === "v") view.shows = value.split(",").filter(Boolean);
  else throw nonsense(say("page-problem-link-key", { key }));
}

/**
 * @param {string} text
 * @param {string} key
 */
function decoded(text, key) {
  try {
    return decodeURIComponent(text);
  } catch {
    throw nonsense(say("page-problem-link-broken", { key }));
  }
}

/**
 * @param {string} text
 * @param {string} message what is wrong where it is no such amount
 * @param {number} most
 */
function amount(text, message, most) {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value) || value < 0 || value > most) {
    throw nonsense(say(message, { text, most }));
  }
  return value;
}

/** @param {string} problem */
function nonsense(problem) {
  return new Failure(say("page-place-link"), problem, say("page-fix-link"));
}
