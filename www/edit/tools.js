/** What can be done with what was taken hold of in the drawing: the buttons of the strip beside it. */

import { h } from "../kit/dom.js";
import { capital, listed, say } from "../kit/words.js";
import { doing, typedOver } from "./fields.js";
import { elementName, setName, shaftName } from "./name_field.js";
import { ratioHandle } from "./ratio_handle.js";
import { rejoins, waysToRejoin } from "./rejoining.js";
import { KINDS, PINIONS, TEETH } from "./set_kinds.js";

/** @typedef {import("./grips.js").Grip} Grip */
/** @typedef {import("../engine/levertrain_whole.js").Edit} Edit */
/** @typedef {import("../engine/levertrain_whole.js").Sheet} Sheet */

/**
 * What the buttons work with.
 * @typedef {object} Hands
 * @property {import("../state/desk.js").Desk} desk
 * @property {() => Sheet} sheet
 * @property {(edit: Edit, continues?: boolean) => boolean} edit whether it could be made
 * @property {(found?: import("./ratio_handle.js").Ratios) => import("./ratio_handle.js").Ratios | undefined} ratios keeps those of the set that the strip is for
 * @property {(show: () => void) => void} shows calls back now, and whenever the train has changed while the strip stays
 * @property {(from: Grip) => void} pick has the next thing that is pressed be joined with this
 * @property {(key?: string) => void} choose opens the strip of another, or closes this
 */

const HOUSING = "housing";
/** The two ends, and what makes something one of them. */
const ENDS = /** @type {const} */ ([["input", "page-draw-make-input"], ["output", "page-draw-make-output"]]);

/**
 * @param {Grip} grip
 * @param {Hands} hands
 * @returns {Node[]}
 */
export function toolsOf(grip, hands) {
  switch (grip.kind) {
    case "member":
      return ofMember(grip, hands);
    case "set":
      return ofSet(grip, hands);
    case "element":
      return ofElement(grip, hands);
    case "gap":
      return KINDS.map(([kind, message]) =>
        act(capital(say(message)), `add ${kind}`, () => {
          if (hands.edit({ edit: "add-set", kind, at: grip.at })) hands.choose();
        }),
      );
    case "end":
      return [picking(grip, hands), shaftName(hands, grip.shaft)];
    default:
      return [];
  }
}

/** @param {Grip} grip @param {Hands} hands */
function ofMember(grip, hands) {
  const { id, at, shaft } = grip;
  const set = setOf(hands, id);
  const member = set?.members.find((member) => member.at === at);
  if (!set || !member) return [];
  const counts = [];
  if (member.gear !== null) counts.push(teeth(hands, id, member.gear));
  else {
    // The pinions turn on the carrier.
    set.gears.forEach((_, gear) => {
      if (!set.members.some((member) => member.gear === gear)) counts.push(teeth(hands, id, gear));
    });
    if (set.count !== null) counts.push(pinions(hands, id));
  }
  const place = (/** @type {string} */ words, /** @type {string} */ key, /** @type {string} */ to) =>
    act(words, key, () => hands.edit({ edit: "place", set: id, member: at, shaft: to }));
  /** @type {Node[]} */
  const buttons = [picking(grip, hands)];
  if (shaft === HOUSING) buttons.push(place(say("page-draw-let-go"), "let go", ""));
  else {
    buttons.push(act(say("page-draw-hold"), "hold", () => hands.edit({ edit: "connect", first: HOUSING, second: shaft })));
    if (shares(hands, grip)) buttons.push(place(say("page-draw-cut-off"), "cut off", ""));
    for (const [end, words] of ENDS) {
      if (hands.desk.info?.[end] === shaft) continue;
      buttons.push(act(say(words), `make ${end}`, () => hands.edit(ending(hands, end, shaft))));
    }
    buttons.push(shaftName(hands, shaft));
  }
  return [...counts, ...fits(hands, id), ...buttons];
}

/** @param {Grip} grip @param {Hands} hands */
function ofSet({ id, turned }, hands) {
  const { sets } = hands.sheet();
  const at = sets.findIndex((set) => set.id === id);
  const move = (/** @type {number} */ to, /** @type {string} */ sign, /** @type {string} */ message) => {
    const button = act(sign, `move ${sign}`, () => hands.edit({ edit: "move-set", set: id, at: to }), say(message));
    button.disabled = to < 0 || to >= sets.length;
    return button;
  };
  const gone = () => hands.edit({ edit: "remove-set", set: id }) && hands.choose();
  return [
    ...fits(hands, id),
    ...ratioHandle(hands, id),
    moves(move(at - 1, "←", "page-draw-to-input"), move(at + 1, "→", "page-draw-to-output")),
    ...(typeof turned === "boolean" ? [act(say("page-draw-turn"), "turn", () => hands.edit({ edit: "turn", set: id, turned: !turned }))] : []),
    act(say("page-edit-repeat"), "repeat", () => hands.edit({ edit: "repeat-set", set: id })),
    act(say("page-edit-remove"), "remove", gone),
    setName(hands, id),
  ];
}

/** @param {Grip} grip @param {Hands} hands */
function ofElement(grip, hands) {
  const { id, at } = grip;
  const { desk } = hands;
  const element = hands.sheet().elements.find((element) => element.id === id);
  if (!element) return [];
  const buttons = [];
  if (element.backward === null) {
    const applied = desk.answer?.applied.includes(id) ?? false;
    buttons.push(act(say(applied ? "page-draw-release" : "page-draw-apply"), "apply", () => (desk.toggle(id), hands.choose(`element ${id}`))));
  } else {
    const way = element.backward ? "forward" : "backward";
    buttons.push(act(say("page-draw-other-way"), "way", () => hands.edit({ edit: "locks", element: id, way })));
  }
  const place = (/** @type {number | null} */ gap, /** @type {string} */ sign, /** @type {string} */ key, /** @type {string} */ message) => {
    const button = act(sign, key, () => hands.edit({ edit: "gap", element: id, gap }), say(message));
    button.disabled = gap !== null && (gap < 0 || gap > hands.sheet().sets.length);
    return button;
  };
  buttons.push(moves(place(at - 1, "←", "move ←", "page-draw-to-input"), place(at + 1, "→", "move →", "page-draw-to-output")));
  if (element.gap !== null) buttons.push(place(null, say("page-draw-any-place"), "any place", "page-draw-any-place"));
  const gone = () => hands.edit({ edit: "remove-element", element: id }) && hands.choose();
  return [...buttons, picking(grip, hands), act(say("page-edit-remove"), "remove", gone), elementName(hands, id)];
}

/**
 * What may join two things that a line was drawn between.
 * @param {Grip} one
 * @param {Grip} other
 * @param {Hands} hands
 * @returns {Node[]}
 */
export function waysToJoin(one, other, hands) {
  if (rejoins(one, other)) return waysToRejoin(one, other, hands);
  // What the line was drawn to keeps its name, and the housing can be no shaft.
  const [first, second] = one.shaft === HOUSING ? [HOUSING, other.shaft] : [other.shaft, one.shaft];
  if (first === second) return [h("span", {}, say("page-draw-one-already"))];
  const ends = /** @type {[string, string]} */ ([second, first]);
  const held = first === HOUSING;
  const add = (/** @type {"brake" | "clutch" | "one-way"} */ kind, /** @type {string} */ message) =>
    act(say(message), kind, () => hands.edit({ edit: "add-element", kind, ends }) && hands.choose());
  const end = [one, other].find(({ kind }) => kind === "end");
  const connect = () => (end ? ending(hands, end.id === "input" ? "input" : "output", end === one ? other.shaft : one.shaft) : { edit: "connect", first, second });
  const words = end ? (end.id === "input" ? "page-draw-make-input" : "page-draw-make-output") : held ? "page-draw-hold" : "page-draw-one-shaft";
  return [
    act(say(words), "fast", () => hands.edit(/** @type {Edit} */ (connect())) && hands.choose()),
    held ? add("brake", "page-edit-brake") : add("clutch", "page-edit-clutch"),
    add("one-way", "page-edit-one-way"),
  ];
}

/**
 * Has an end be on another shaft. Where nothing is on the one that it is on, the two become one, which
 * keeps its name.
 * @param {Hands} hands
 * @param {"input" | "output"} end
 * @param {string} shaft
 * @returns {Edit}
 */
export function ending({ desk, sheet }, end, shaft) {
  const bare = desk.info?.[end] ?? "";
  const { sets, elements } = sheet();
  const used = sets.some(({ members }) => members.some((member) => member.shaft === bare)) || elements.some(({ ends }) => ends.includes(bare));
  const other = desk.info?.[end === "input" ? "output" : "input"];
  if (used || shaft === other) return { edit: end, shaft };
  return { edit: "connect", first: bare, second: shaft };
}

/** The two buttons that move a thing along the axis. @param {Node[]} buttons */
function moves(...buttons) {
  return h("span", { class: "strip-count" }, h("span", {}, say("page-edit-move")), ...buttons);
}

/** Whether anything else is on the shaft of a member. @param {Hands} hands @param {Grip} grip */
function shares({ desk, sheet }, { id, at, shaft }) {
  const { sets, elements } = sheet();
  const others = sets.flatMap((set) => set.members.filter((member) => set.id !== id || member.at !== at));
  const ends = [desk.info?.input, desk.info?.output];
  return others.some((member) => member.shaft === shaft) || elements.some(({ ends }) => ends.includes(shaft)) || ends.includes(shaft);
}

/** @param {Grip} grip @param {Hands} hands */
function picking(grip, hands) {
  const joined = grip.kind === "element";
  return act(say(joined ? "page-draw-put-end-on" : "page-draw-join"), "join", () => hands.pick(grip));
}

/** @param {Hands} hands @param {string} id @param {number} gear */
function teeth(hands, id, gear) {
  const now = () => setOf(hands, id)?.gears[gear];
  const name = now()?.name ?? "";
  const label = say("page-edit-teeth-of", { gear: name, label: setOf(hands, id)?.label ?? "" });
  const change = (/** @type {number} */ teeth) => hands.edit({ edit: "teeth", set: id, gear, teeth }, true);
  return counter({ key: `teeth ${gear}`, words: say("page-draw-teeth", { gear: name }), label, now: () => now()?.teeth ?? 0, change, ...TEETH });
}

/** @param {Hands} hands @param {string} id */
function pinions(hands, id) {
  const label = say("page-edit-pinions-of", { label: setOf(hands, id)?.label ?? "" });
  const change = (/** @type {number} */ count) => hands.edit({ edit: "count", set: id, count }, true);
  return counter({ key: "count", words: say("page-edit-pinions"), label, now: () => setOf(hands, id)?.count ?? 0, change, ...PINIONS });
}

/**
 * A number between a button for one less and one for one more.
 * @param {{ key: string, words: string, label: string, now: () => number, change: (count: number) => boolean, least: number, most: number }} count
 */
function counter({ key, words, label, now, change, least, most }) {
  const input = /** @type {HTMLInputElement} */ (
    h("input", { type: "number", class: "count", inputmode: "numeric", min: least, max: most, step: 1, "aria-label": label, "data-key": key, input: type })
  );
  input.value = String(now());
  typedOver(input);
  const step = (/** @type {number} */ by) => {
    const next = Math.min(Math.max(now() + by, least), most);
    if (next !== now()) change(next);
    input.value = String(now());
    input.removeAttribute("aria-invalid");
  };
  function type() {
    const count = Number(input.value);
    const allowed = input.value !== "" && Number.isInteger(count) && count >= least && count <= most;
    input.toggleAttribute("aria-invalid", !allowed);
    if (allowed) change(count);
  }
  const fewer = say("page-draw-fewer", { what: label });
  const more = say("page-draw-more", { what: label });
  return h(
    "span",
    { class: "strip-count" },
    h("span", {}, words),
    doing("−", `less ${key}`, () => step(-1), fewer),
    input,
    doing("+", `more ${key}`, () => step(1), more),
  );
}

/** What keeps the teeth of a set from meshing, and the nearest counts that do. @param {Hands} hands @param {string} id */
function fits(hands, id) {
  const set = setOf(hands, id);
  if (!set || set.warnings.length === 0) return [];
  const told = h("span", { class: "strip-warning" }, ...set.warnings.map((text) => h("span", {}, `${capital(text)}.`)));
  const { nearest } = set;
  if (!nearest) return [told];
  const changed = set.gears.flatMap(({ name, teeth }, gear) =>
    nearest[gear] === teeth ? [] : [say("page-edit-fit-gear", { gear: name, teeth: nearest[gear] })],
  );
  const fit = act(say("page-edit-fit", { gears: listed(changed) }), "fit", () => hands.edit({ edit: "cut", set: id, teeth: nearest }));
  return [told, fit];
}

/** @param {Hands} hands @param {string} id */
function setOf(hands, id) {
  return hands.sheet().sets.find((set) => set.id === id);
}

/**
 * @param {string} words
 * @param {string} key
 * @param {() => void} click
 * @param {string} [heard]
 */
function act(words, key, click, heard) {
  return /** @type {HTMLButtonElement} */ (/** @type {unknown} */ (doing(words, key, click, heard)));
}
