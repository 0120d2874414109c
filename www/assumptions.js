/** What is assumed about losses, and what the engine makes of it. */

/** @typedef {import("./desk.js").Desk} Desk */
/** @typedef {import("./desk.js").Sandbox} Sandbox */

/**
 * @typedef {object} Assumptions
 * @property {number} mesh efficiency of every mesh, above 0 and at most 1
 * @property {number} drag torque in N·m of each open element at 1000 rev/min of slip
 * @property {boolean} coasting whether the load drives the input
 */

/** The slip in rev/min that the drag is given at. */
export const DRAG_SLIP = 1000;

/** 0.99 a mesh is common practice; makers' data differ. @type {Readonly<Assumptions>} */
export const USUAL_ASSUMPTIONS = { mesh: 0.99, drag: 0, coasting: false };

/** Losses of more gear trains than these take too long to be worked out unasked (2ⁿ directions). */
const MOST_UNASKED = 9;

/**
 * Whether losses can be worked out at every change.
 * @param {Desk} desk
 */
export function lossesAreQuick({ info }) {
  // A set of four members is two gear trains and the meshes both go through.
  const trains = info?.couplings.map(({ members }) => (members.length > 3 ? 3 : 1)) ?? [];
  return trains.reduce((sum, count) => sum + count, 0) <= MOST_UNASKED;
}

/**
 * What the applied elements do with losses; nothing where no drag can be told.
 * @param {Desk} desk
 */
export function lossesOf(desk) {
  return lossy(desk, (sandbox, mesh, drag, coasting) => sandbox.losses(mesh, drag, coasting));
}

/**
 * The same for every range.
 * @param {Desk} desk
 */
export function lossChartOf(desk) {
  return lossy(desk, (sandbox, mesh, drag, coasting) => sandbox.lossChart(mesh, drag, coasting));
}

/**
 * @template T
 * @param {Desk} desk
 * @param {(sandbox: Sandbox, mesh: number, drag: number, coasting: boolean) => T} question
 */
function lossy(desk, question) {
  const { mesh, coasting } = desk.assumptions;
  const drag = normalisedDrag(desk);
  return drag === undefined ? undefined : desk.ask((sandbox) => question(sandbox, mesh, drag, coasting));
}

/**
 * The drag in the engine's measure: parts of the input torque at a slip of the input speed.
 * Without an input torque there is nothing to measure it by.
 * @param {Desk} desk
 * @returns {number | undefined}
 */
function normalisedDrag({ assumptions, speed, torque }) {
  if (assumptions.drag === 0) return 0;
  const drag = (assumptions.drag * speed) / DRAG_SLIP / torque;
  return Number.isFinite(drag) ? drag : undefined;
}
