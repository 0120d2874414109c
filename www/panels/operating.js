/** Engine, torque converter and road: where they and the train agree. */

import { h, unseen } from "../kit/dom.js";
import { lossesAreQuick } from "../state/assumptions.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { MOST_SPEED, MOST_TORQUE, NO_BREAK, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { percent } from "../state/quantities.js";
import { GRADES } from "../state/road.js";
import { unitOf } from "../state/units.js";
import { drawing } from "../stage/drawing.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Operating} Operating */
/** @typedef {import("../engine/levertrain.js").OperatingPoint} Point */

const DRAWING = "operating";
/** Height of the picture in CSS pixels. */
const HEIGHT = 190;

/** What another operating point comes of. */
const CAUSES = ["answer", "units", "assumptions", "road"];

const KINDS = /** @type {const} */ (["speed", "torque", "power"]);

/** The messages of what columns are called away from here. */
const NAMES = { speed: "page-take-speed", torque: "page-take-torque", power: "page-take-power" };

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const chain = h("p", { class: "note" });
  // Spoken only when what is found changes in kind, not with every number.
  const words = h("p", { class: "operating-words", role: "status", "data-part": "operating-words" });
  const { canvas, holder, paint, changed } = drawing(desk, DRAWING, CAUSES, redraw, signal);
  canvas.setAttribute("aria-label", say("page-drawing-operating"));
  const heads = KINDS.map(() => h("span"));
  const { node: points, body } = table(say("page-operating-point"), [unseen(say("page-shaft")), ...heads], [1, 2, 3]);
  tellHeadings(points, [
    () => ({ name: say("page-shaft") }),
    ...KINDS.map((kind) => () => ({ name: say(NAMES[kind], { unit: unitOf(desk.units, kind).name }) })),
  ]);
  const use = /** @type {HTMLButtonElement} */ (
    h("button", { class: "plain", type: "button", "data-part": "use-point", click: useInput })
  );
  panel.fill(
    chain,
    lockable(desk, "settings", ...fields(desk)),
    words,
    points,
    lockable(desk, "settings", use),
    holder,
    h("p", { class: "note" }, say("page-operating-note")),
  );
  /** @type {Operating | null | undefined} */
  let found;

  /** The point speeds come back to, or else any. */
  const best = () => found?.points.find(({ stable }) => stable) ?? found?.points[0];

  function useInput() {
    const point = best();
    if (!point) return;
    desk.setSpeed(rounded(point.inputSpeed));
    desk.setTorque(rounded(point.inputTorque));
  }

  function build() {
    const { info } = desk;
    chain.textContent = [info?.engine, info?.converter, info?.name, info?.load].filter(Boolean).join(" → ");
  }

  function update() {
    if (!desk.info?.engine) return;
    // A long train is worked out only for whoever looks, and none before there is what does it.
    if (!desk.isWhole || (!panel.open && !lossesAreQuick(desk))) {
      panel.hint("");
      return;
    }
    found = desk.askWhole((engine, sandbox) => engine.operating(sandbox));
    if (!found) return;
    for (const [at, kind] of KINDS.entries()) heads[at].textContent = unitOf(desk.units, kind).name;
    if (words.textContent !== found.words) words.textContent = found.words;
    panel.node.dataset.outcome = found.outcome;
    const { efficiency, stall: held } = found;
    const more = (/** @type {Point} */ point) => ratioWords(point, efficiency ?? 1);
    const rows = found.points.flatMap((point, at) => pointRows(desk, point, String(at), titleOf(point), more(point)));
    const stall = held ? pointRows(desk, held, "stall", say("page-operating-stall"), restWords(desk, found)) : [];
    body.replaceChildren(...rows, ...stall);
    points.hidden = rows.length + stall.length === 0;
    const point = best();
    panel.hint(point ? say("page-operating-output", { torque: text(desk, "torque", point.outputTorque) }) : say("page-operating-none"));
    use.hidden = !point || point.inputTorque < 0;
    if (point) use.textContent = useWords(desk, point);
    use.disabled = !point || point.inputSpeed > MOST_SPEED || point.inputTorque > MOST_TORQUE;
    holder.hidden = found.efficiency === null;
    changed();
  }

  function draw() {
    if (panel.open && desk.info?.engine && !holder.hidden) paint(DRAWING, () => HEIGHT);
  }

  draws(draw);
  panel.toggled(update);

  follow(desk, ["train"], build);
  follow(desk, [...CAUSES, "whole"], update);
}

/** @param {Desk} desk */
function fields(desk) {
  const pedal = slider("pedal", { min: 0, max: 100, step: 1 }, (value) => desk.drive({ pedal: value / 100 }));
  const grade = slider("grade", { ...GRADES, step: 1 }, (value) => desk.drive({ grade: value / 100 }));
  const lockup = /** @type {HTMLInputElement} */ (
    h("input", { type: "checkbox", "data-part": "lockup", change: () => desk.drive({ lockup: lockup.checked }) })
  );
  const lock = h("label", { class: "control check" }, lockup, h("span", {}, say("page-operating-lockup")));

  function update() {
    const { road, info } = desk;
    show(pedal, road.pedal * 100, wholePercent(road.pedal));
    show(grade, road.grade * 100, gradeWords(road.grade));
    lockup.checked = road.lockup;
    lock.hidden = !info?.converter;
  }
  follow(desk, ["train", "road"], update);

  const row = (/** @type {string} */ name, /** @type {ReturnType<typeof slider>} */ { input, output }) =>
    h("div", { class: "control road" }, h("label", { for: input.id }, name), input, output);
  return [row(say("page-operating-pedal"), pedal), row(say("page-operating-slope"), grade), lock];
}

/**
 * A slider with its value in words.
 * @param {string} id
 * @param {Record<string, number>} limits
 * @param {(value: number) => void} change
 */
function slider(id, limits, change) {
  const input = /** @type {HTMLInputElement} */ (
    h("input", { type: "range", id, ...limits, "data-part": id, input: () => change(Number(input.value)) })
  );
  return { input, output: h("span", { class: "road-value", "aria-hidden": "true" }) };
}

/**
 * @param {ReturnType<typeof slider>} slider
 * @param {number} value
 * @param {string} words
 */
function show({ input, output }, value, words) {
  input.value = String(value);
  input.setAttribute("aria-valuetext", words);
  output.textContent = words;
}

/** @param {number} share */
function wholePercent(share) {
  return `${Math.round(share * 100)}${NO_BREAK}%`;
}

/** @param {number} grade */
function gradeWords(grade) {
  if (grade === 0) return say("page-operating-level");
  const slope = wholePercent(Math.abs(grade));
  return grade > 0 ? say("page-operating-up", { slope }) : say("page-operating-down", { slope });
}

/**
 * What the button takes over, in numbers: there may be several points.
 * @param {Desk} desk
 * @param {Point} point
 */
function useWords(desk, { inputSpeed, inputTorque }) {
  const [speed, torque] = [text(desk, "speed", inputSpeed), text(desk, "torque", inputTorque)];
  return say("page-operating-use", { speed, torque });
}

/** @param {Point} point */
function titleOf({ stable, idling }) {
  if (!stable) return say("page-operating-unstable");
  return idling ? say("page-operating-idle") : say("page-operating-stable");
}

/**
 * The torque at standstill, for comparing with the load there.
 * @param {Desk} desk
 * @param {Operating} found
 */
function restWords(desk, { loadAtRest }) {
  if (loadAtRest === null) return "";
  const torque = text(desk, "torque", Math.abs(loadAtRest));
  return loadAtRest >= 0 ? say("page-operating-resists", { torque }) : say("page-operating-drives", { torque });
}

/**
 * Engine, input and output of a point, under what it is.
 * @param {Desk} desk
 * @param {Point} point
 * @param {string} key
 * @param {string} title
 * @param {string} more
 */
function pointRows(desk, point, key, title, more) {
  const open = point.capacityFactor !== null;
  const inputPower = point.powerIn - point.converterLoss;
  const rows = /** @type {const} */ ([
    ["engine", open ? say("page-operating-pump") : say("page-operating-engine"), point.engineSpeed, point.engineTorque, point.powerIn],
    ["input", open ? say("page-operating-turbine") : say("page-input"), point.inputSpeed, point.inputTorque, inputPower],
    ["output", say("page-output"), point.outputSpeed, point.outputTorque, point.powerOut],
  ]);
  const heading = h("th", { scope: "colgroup", colspan: 4 }, h("b", {}, title), h("span", { class: "does" }, more));
  return [
    h("tr", { class: "group", "data-point": key }, heading),
    ...rows.map(([at, name, ...values]) =>
      h(
        "tr",
        { "data-point": key, "data-at": at },
        h("th", { scope: "row" }, name),
        ...KINDS.map((kind, index) => {
          const cell = h("td", { class: "figure", "data-kind": kind }, figure(desk, kind, values[index]));
          return tell(cell, values[index] / unitOf(desk.units, kind).size);
        }),
      ),
    ),
  ];
}

/**
 * @param {Point} point
 * @param {number} driving efficiency of the train while the engine drives
 */
function ratioWords({ speedRatio, torqueRatio, capacityFactor, powerIn, powerOut }, driving) {
  // Holding back, power comes from the output.
  const gears = percent(powerIn < 0 ? powerIn / powerOut : driving);
  if (capacityFactor === null) return say("page-operating-locked", { gears });
  const ratios = { speed: number(speedRatio), torque: number(torqueRatio) };
  return say("page-operating-open", { ...ratios, converter: percent(speedRatio * torqueRatio), gears });
}

/**
 * @param {Desk} desk
 * @param {import("../state/units.js").Quantity} kind
 * @param {number} value
 */
function figure(desk, kind, value) {
  return value === 0 ? "0" : number(value / unitOf(desk.units, kind).size);
}

/**
 * @param {Desk} desk
 * @param {import("../state/units.js").Quantity} kind
 * @param {number} value
 */
function text(desk, kind, value) {
  return `${figure(desk, kind, value)}${NO_BREAK}${unitOf(desk.units, kind).name}`;
}

/** Short enough for a field and a link. @param {number} value */
function rounded(value) {
  return Number(value.toPrecision(5));
}
