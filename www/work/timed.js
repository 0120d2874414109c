/** A shift in time as it was commanded, in any engine: that of the page, or that of a worker. */

/** @typedef {import("../state/engine.js").WholeEngine} WholeEngine */
/** @typedef {import("../engine/levertrain_whole.js").TimedShift} TimedShift */
/** @typedef {import("../engine/levertrain_whole.js").TimedPlan} TimedPlan */

/**
 * What makes it: the train as the text of a file, what is applied before and after, and what is commanded
 * where that is not the usual.
 * @typedef {{ text: string, from: string[], to: string[], plan?: TimedPlan }} Commanded
 */
/** Offsets in seconds of what is released and of what is applied. @typedef {{ releases: Float64Array, applies: Float64Array }} Offsets */

/**
 * @param {WholeEngine} engine
 * @param {Commanded} commanded
 * @returns {TimedShift} to be freed
 */
export function timedShift(engine, { text, from, to, plan }) {
  const shift = new engine.TimedShift(text, from, to);
  if (!plan) return shift;
  shift.begin(plan.input_speed, plan.input_torque, plan.output_torque, plan.until);
  for (const { element, at, ramp } of plan.commands) shift.command(element, at, ramp);
  if (plan.cut) shift.cut(plan.cut[0], plan.cut[1], plan.cut[2]);
  return shift;
}
