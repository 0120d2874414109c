/** What of the half-section can be taken hold of to change the train, and where. */

import { capital, say } from "../kit/words.js";

/** @typedef {import("../engine/levertrain_whole.js").Grips} Places */
/** @typedef {import("../engine/levertrain_whole.js").Sheet} Sheet */
/** @typedef {import("../engine/levertrain_whole.js").Area} Area */
/** @typedef {import("../state/desk.js").Desk} Desk */

/**
 * What can be taken hold of: a member, a set by its foot, a brake or clutch, the line of an end, room for
 * a new set, or the housing. `label` is what it is called, `shaft` what it turns with.
 * @typedef {object} Grip
 * @property {string} key
 * @property {"member" | "set" | "element" | "end" | "gap" | "housing"} kind
 * @property {string} id of the set or element, `input` or `output`
 * @property {number} at which of the members, or which gap, or the gap that an element is in
 * @property {string} shaft
 * @property {string} label
 * @property {Area} area what is drawn
 * @property {Area} box what can be hit
 * @property {boolean | null} [turned] whether a set is turned round, where it can be
 */

const HOUSING = "housing";
/** Smallest side of what a finger can hit, and how far from a thing a line may end, in CSS pixels. */
const SMALLEST = 44;
const NEAR = 22;
/** Height and width of a foot under a set and between sets. */
const FOOT = { height: 26, width: 26 };
/** How much of what stands between both drawings is over their border. */
const BETWEEN = 6;
/** Room that the words at both ends take, in pixels of the drawing. */
const END = 90;

/**
 * All grips, in order along the axis and from the middle outwards.
 * @param {Desk} desk
 * @param {Sheet} sheet
 * @param {Places} places
 * @param {number} zoom how much larger the drawing is shown than it is drawn
 * @returns {Grip[]}
 */
export function gripsOf(desk, sheet, places, zoom) {
  const info = /** @type {import("../state/desk.js").TrainInfo} */ (desk.info);
  const width = desk.sizes?.width ?? 0;
  /** @type {Omit<Grip, "box">[]} */
  const found = [];
  for (const { set: id, at, shaft, area } of places.members) {
    const set = sheet.sets.find((set) => set.id === id);
    const member = set?.members.find((member) => member.at === at);
    if (!set || !member) continue;
    const label = say("page-draw-member", { member: member.role, set: set.label });
    found.push({ key: `member ${id} ${at}`, kind: "member", id, at, shaft, label, area });
  }
  for (const { id, area, turned } of places.sets) {
    const label = sheet.sets.find((set) => set.id === id)?.label ?? "";
    const foot = { left: area.left, top: footTop(places, area), width: area.width, height: FOOT.height };
    found.push({ key: `set ${id}`, kind: "set", id, at: 0, shaft: "", label, area: foot, turned });
  }
  for (const { id, area, gap } of places.elements) {
    found.push({ key: `element ${id}`, kind: "element", id, at: gap, shaft: "", label: desk.elementLabel(id), area });
  }
  for (const [at, end] of /** @type {const} */ (["input", "output"]).entries()) {
    const label = say(at === 0 ? "page-input" : "page-output");
    found.push({ key: `end ${end}`, kind: "end", id: end, at, shaft: info[end], label, area: places.ends[at] });
  }
  for (const [at, x] of places.gaps.entries()) {
    const left = Math.min(Math.max(x - FOOT.width / 2, END), width - END - FOOT.width);
    // Between the drawings, where no name stands.
    const area = { left, top: (desk.sizes?.sectionHeight ?? 0) - BETWEEN, width: FOOT.width, height: FOOT.height };
    found.push({ key: `gap ${at}`, kind: "gap", id: "", at, shaft: "", label: gapLabel(sheet, at), area });
  }
  const over = { left: 0, top: 0, width, height: places.housing };
  found.push({ key: HOUSING, kind: "housing", id: "", at: 0, shaft: HOUSING, label: capital(info.housing), area: over });
  const shown = found.map((grip) => ({ ...grip, area: grown(grip.area, zoom) }));
  shown.sort((a, b) => middle(a.area).x - middle(b.area).x || b.area.top - a.area.top);
  const solid = shown.filter(({ kind }) => kind !== "housing");
  const within = (/** @type {Area} */ { left, top, width: wide, height }) => {
    const edge = Math.max(0, left);
    // Beyond the edge it would make the stage scroll.
    return { left: edge, top, width: Math.min(left + wide, width * zoom) - edge, height };
  };
  return shown.map((grip) => ({ ...grip, box: grip.kind === "housing" ? grip.area : within(roomy(grip, solid)) }));
}

/** @param {Places} places @param {Area} area */
function footTop(places, area) {
  return Math.max(places.axis, area.top + area.height) + 4;
}

/** @param {Sheet} sheet @param {number} at */
function gapLabel({ sets }, at) {
  if (sets.length === 0) return say("page-draw-gap");
  if (at === 0) return say("page-draw-gap-before", { set: sets[0].label });
  return say("page-draw-gap-after", { set: sets[at - 1]?.label ?? "" });
}

/**
 * What is nearest to a point, where something is near enough.
 * @param {Grip[]} grips
 * @param {{ x: number, y: number }} point
 */
export function nearest(grips, point) {
  const away = grips.map((grip) => ({ grip, away: distance(grip.area, point) }));
  // Within a wide thing a small one is meant.
  const size = (/** @type {Grip} */ { area }) => area.width * area.height;
  away.sort((a, b) => a.away - b.away || size(a.grip) - size(b.grip));
  return away.find(({ away }) => away <= NEAR)?.grip;
}

/** @param {Area} area @param {{ x: number, y: number }} point */
function distance({ left, top, width, height }, { x, y }) {
  return Math.hypot(Math.max(left - x, 0, x - left - width), Math.max(top - y, 0, y - top - height));
}

/** @param {Area} area */
export function middle({ left, top, width, height }) {
  return { x: left + width / 2, y: top + height / 2 };
}

/** @param {Area} area @param {number} zoom @returns {Area} */
function grown({ left, top, width, height }, zoom) {
  return { left: left * zoom, top: top * zoom, width: width * zoom, height: height * zoom };
}

/**
 * As large as a finger needs, as far as that leaves its neighbours half of the room between.
 * @param {Pick<Grip, "key" | "area">} grip
 * @param {Pick<Grip, "key" | "area">[]} all
 * @returns {Area}
 */
function roomy({ key, area }, all) {
  const spread = { x: Math.max(0, (SMALLEST - area.width) / 2), y: Math.max(0, (SMALLEST - area.height) / 2) };
  const out = { left: spread.x, right: spread.x, top: spread.y, bottom: spread.y };
  for (const other of all) {
    if (other.key === key) continue;
    const [right, bottom] = [area.left + area.width, area.top + area.height];
    const [otherRight, otherBottom] = [other.area.left + other.area.width, other.area.top + other.area.height];
    const beside = other.area.left - spread.x < right + spread.x && otherRight + spread.x > area.left - spread.x;
    const level = other.area.top - spread.y < bottom + spread.y && otherBottom + spread.y > area.top - spread.y;
    if (!beside || !level) continue;
    // In the direction in which they are further apart.
    const gaps = { left: area.left - otherRight, right: other.area.left - right, top: area.top - otherBottom, bottom: other.area.top - bottom };
    const sides = /** @type {(keyof typeof gaps)[]} */ (Object.keys(gaps));
    const side = sides.reduce((best, next) => (gaps[next] > gaps[best] ? next : best));
    out[side] = Math.min(out[side], Math.max(0, gaps[side] / 2));
  }
  return {
    left: area.left - out.left,
    top: area.top - out.top,
    width: area.width + out.left + out.right,
    height: area.height + out.top + out.bottom,
  };
}
