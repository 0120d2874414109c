/** What is told of a find: its measures, each of which can be a column or an axis, and its teeth. */

import { number } from "../kit/format.js";

/** @typedef {import("../engine/levertrain.js").Find} Find */

const HUNDRED = 100;

/** By what a measure is called, its number in a find, how that is written, and whether more of it is better. @type {{ key: string, value(find: Find): number, text(value: number): string, falls?: boolean }[]} */
export const COLUMNS = [
  { key: "error", value: ({ error }) => error * HUNDRED, text: (value) => number(value, 3) },
  { key: "size", value: ({ size }) => size, text: String },
  { key: "steps", value: ({ unevenness }) => unevenness * HUNDRED, text: (value) => number(value, 3) },
  { key: "efficiency", value: ({ efficiency }) => efficiency * HUNDRED, text: (value) => number(value, 4), falls: true },
  { key: "pinion-speed", value: ({ pinion_speed }) => pinion_speed, text: (value) => number(value, 3) },
  { key: "open-speed", value: ({ open_speed }) => open_speed, text: (value) => number(value, 3) },
];

/** What tells a find from others. @param {Find} find */
export function keyOf({ sets }) {
  return sets.map(({ set, teeth, pinions }) => `${set} ${teeth.join("/")} ${pinions ?? ""}`).join(", ");
}

/**
 * The teeth of each set, by its label.
 * @param {import("../state/desk.js").Desk} desk
 * @param {Find} find
 */
export function teethOf(desk, { sets }) {
  return sets.map(({ set, teeth, pinions }) => {
    const label = desk.info?.couplings.find(({ id }) => id === set)?.label ?? set;
    return { label, counts: teeth.join("/") + (pinions ? ` ×${pinions}` : "") };
  });
}

/** The same in one line. @param {import("../state/desk.js").Desk} desk @param {Find} find */
export function teethWords(desk, find) {
  return teethOf(desk, find)
    .map(({ label, counts }) => `${label} ${counts}`)
    .join(", ");
}
