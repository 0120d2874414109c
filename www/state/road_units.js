/** Units of the road: those that go with the unit of torque. Inside, road speeds are in m/s, forces in N and distances in m. */

/** Metres in an international mile and foot. */
const MILE = 1609.344;
const FOOT = 0.3048;
/** Newtons: the weight of 0.45359237 kg under 9.80665 m/s². */
const POUND_FORCE = 0.45359237 * 9.80665;
const SECONDS = 3600;

/** @typedef {import("./units.js").Unit} Unit */
/** @typedef {{ speed: Unit, force: Unit, distance: Unit, step: number }} RoadUnits `step`: times are told for multiples of so
 * many of its road speed */

/** @type {Record<string, RoadUnits>} */
const UNITS = {
  Nm: {
    speed: { name: "km/h", size: 1000 / SECONDS },
    force: { name: "N", size: 1 },
    distance: { name: "m", size: 1 },
    step: 20,
  },
  lbfft: {
    speed: { name: "mph", size: MILE / SECONDS },
    force: { name: "lbf", size: POUND_FORCE },
    distance: { name: "ft", size: FOOT },
    step: 10,
  },
};

/** @param {import("./units.js").Units} units */
export function roadUnits({ torque }) {
  return UNITS[torque] ?? UNITS.Nm;
}
