/** Torque beside speed, and power: of the train, of every member of every set, of every element. */

import { h, keepIn, write } from "../kit/dom.js";
import { Kept } from "../kit/kept.js";
import { follow } from "../state/follow.js";
import { exactly, negated, NOTHING, size, WHOLE } from "../state/quantities.js";
import { elementWords, idleWords, memberWords, recirculationWords, shareWords } from "../state/effort_words.js";
import { tell, tellHeadings } from "../kit/known.js";
import { table } from "../kit/table.js";
import { capital, say } from "../kit/words.js";
import { unitChoice } from "../stage/unit_choice.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../state/desk.js").Answer} Answer */
/** @typedef {import("../kit/format.js").Exact} Exact */
/** @typedef {import("../engine/levertrain.js").Effort} Effort */

/** @typedef {{ speed: Exact | null, torque: Exact | null, power: Exact | null, words: string }} Values */

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const notes = h("div", { class: "effort-notes", "data-part": "effort-notes" });
  const heads = [h("span", {}), h("span", {}), h("span", {})];
  const { node: efforts, body } = table(say("page-panel-effort"), [say("page-effort-member"), ...heads], [1, 2, 3]);
  tellHeadings(efforts, [() => undefined, ...KINDS.map((kind) => () => headingIn(desk, kind))]);
  const signs = h("p", { class: "note" }, say("page-effort-signs"));
  panel.fill(
    notes,
    h("div", { class: "scroll" }, efforts),
    signs,
    h("p", { class: "filter" }, h("span", { class: "quiet" }, say("page-effort-power-in")), unitChoice(desk, "power")),
  );
  /** @type {Row[]} */
  let ends = [];
  /** @type {Row[][]} */
  let members = [];
  /** @type {Group[]} */
  let sets = [];
  /** @type {Row[]} */
  let elements = [];
  /** @type {Kept<Row>} */
  const rows = new Kept();
  /** @type {Kept<Group>} */
  const groups = new Kept();
  const trainHeading = new Group(say("page-effort-train"));
  const elementsHeading = new Group(say("page-elements"));

  function build() {
    const { info } = desk;
    if (!info) return;
    const names = { input: say("page-input"), output: say("page-output"), housing: info.housing };
    const label = (/** @type {string} */ shaft) => labelOf(info, shaft);
    ends = Object.entries(names).map(([end, name]) => rows.take(`end ${end}`, name, () => new Row(name, { "data-end": end })));
    sets = info.couplings.map(({ id, label }) => groups.take(id, label, () => new Group(label)));
    members = info.couplings.map(({ id, members }) =>
      members.map(({ role, shaft }, index) =>
        rows.take(`member ${id} ${index}`, [role, shaft, label(shaft)], () => memberRow(desk, id, index, role, shaft, label(shaft))),
      ),
    );
    elements = info.elements.map(({ id, label }) => rows.take(`element ${id}`, label, () => new Row(label, { "data-element-id": id })));
    keepIn(body, [
      trainHeading.node,
      ...ends.map(({ node }) => node),
      ...sets.flatMap((set, at) => [set.node, ...members[at].map(({ node }) => node)]),
      ...(elements.length > 0 ? [elementsHeading.node] : []),
      ...elements.map(({ node }) => node),
    ]);
    rows.end();
    groups.end();
  }

  function update() {
    const { answer, quantities, info } = desk;
    if (!answer || !info) return;
    const { effort } = answer;
    heads.forEach((head, at) => write(head, quantities.unit(KINDS[at])));
    efforts.hidden = signs.hidden = !effort;
    panel.hint(effort?.output ? say("page-effort-out", { torque: quantities.text("torque", negated(effort.output)) }) : "");
    notes.replaceChildren(...noteWords(desk, answer).map((words) => h("p", {}, words)));
    if (!effort) return;
    const output = answer.shafts.find(({ id }) => id === info.output)?.speed ?? null;
    const all = [
      { speed: WHOLE, torque: WHOLE, power: WHOLE, words: say("page-effort-drives") },
      { speed: output, torque: negated(effort.output), power: effort.output && WHOLE, words: say("page-effort-delivers") },
      { speed: NOTHING, torque: effort.housing, power: effort.housing && NOTHING, words: say("page-effort-reaction") },
    ];
    ends.forEach((row, at) => row.fill(quantities, all[at]));
    answer.couplings.forEach((coupling, at) => {
      const { torques, powers } = effort.couplings[at];
      const idle = torques.every((torque) => torque?.decimal === 0);
      sets[at].say(idle ? idleWords() : shareWords(coupling, effort.couplings[at]));
      coupling.members.forEach(({ speed }, index) => {
        const [torque, power] = [torques[index], powers[index]];
        const words = idle ? "" : memberWords(torque, power);
        members[at][index].fill(quantities, { speed, torque, power, words });
      });
    });
    info.elements.forEach((element, at) => {
      const { applied } = answer.elements[at];
      const { torque, power } = effort.elements[at];
      const words = elementWords(element, answer.elements[at], effort.elements[at]);
      const speed = applied ? elementSpeed(answer, element.ends) : null;
      elements[at].fill(quantities, { speed, torque: size(torque), power: size(power), words });
      elements[at].node.toggleAttribute("data-open", !applied);
    });
  }

  function light() {
    for (const row of members.flat()) row.light(desk);
  }

  follow(desk, ["train"], build);
  follow(desk, ["answer", "speed", "torque", "units", "assumptions"], update);
  follow(desk, ["answer", "light"], light);
}

const KINDS = /** @type {const} */ (["speed", "torque", "power"]);

/** The messages of what columns are called away from here. */
const NAMES = { speed: "page-take-speed", torque: "page-take-torque", power: "page-take-power" };
const SHARES = { speed: "page-take-speed-share", torque: "page-take-torque-share", power: "page-take-power-share" };

/**
 * @param {Desk} desk
 * @param {typeof KINDS[number]} kind
 */
function headingIn(desk, kind) {
  return { name: say(NAMES[kind], { unit: desk.quantities.unit(kind) }), exact: say(SHARES[kind]) };
}

/**
 * What must be known before any number is read.
 * @param {Desk} desk
 * @param {Answer} answer
 */
function noteWords(desk, answer) {
  const { effort, stateWords } = answer;
  if (!effort) return [say("page-effort-none", { state: stateWords })];
  const words = effort.determinate ? [] : [say("page-indeterminate")];
  const round = recirculationWords(desk, answer, effort);
  if (round) words.push(round);
  if (desk.assumptions.coasting) words.push(say("page-effort-driving"));
  return words;
}

/**
 * The speed of an applied element: that of either end.
 * @param {Answer} answer
 * @param {[string, string]} ends labels
 */
function elementSpeed({ shafts }, ends) {
  const shaft = shafts.find(({ label }) => label === ends[0]);
  return shaft?.speed ?? null;
}

/**
 * @param {import("../state/desk.js").TrainInfo} info
 * @param {string} shaft
 */
function labelOf({ housing, shafts }, shaft) {
  return shaft === "housing" ? housing : (shafts.find(({ id }) => id === shaft)?.label ?? shaft);
}

/**
 * @param {Desk} desk
 * @param {string} coupling
 * @param {number} index
 * @param {string} role
 * @param {string} shaft
 * @param {string} label the shaft's
 */
function memberRow(desk, coupling, index, role, shaft, label) {
  const member = { coupling, index };
  const light = () => desk.light(shaft, member);
  const unlight = () => desk.light(undefined);
  // "Sun 1" says both which member and which shaft.
  const named = label.toLowerCase().startsWith(role);
  const button = h(
    "button",
    { class: "bare", type: "button", focus: light, blur: unlight, click: light },
    named ? label : capital(role),
  );
  const name = named ? [button] : [button, h("span", { class: "quiet" }, ` ${label}`)];
  return new Row(name, {
    "data-coupling": coupling,
    "data-member": role,
    "data-on": shaft,
    pointerenter: light,
    pointerleave: unlight,
  });
}

/** A heading among the rows. */
class Group {
  #words = h("span", { class: "quiet" });

  /** @param {string} name */
  constructor(name) {
    const cell = h("th", { scope: "colgroup", colspan: 4 }, h("b", {}, name), this.#words);
    this.node = h("tr", { class: "group" }, cell);
  }

  /** @param {string} words */
  say(words) {
    write(this.#words, words && `, ${words}`);
  }
}

/** A row: whose, what it does in words, and its numbers. */
class Row {
  #words = h("span", { class: "does" });
  #figures = KINDS.map((kind) => h("td", { class: "figure", "data-kind": kind }));

  /**
   * @param {string | (Node | string)[]} name
   * @param {Record<string, unknown>} attributes
   */
  constructor(name, attributes) {
    const names = typeof name === "string" ? [name] : name;
    this.node = h("tr", attributes, h("th", { scope: "row" }, ...names, this.#words), ...this.#figures);
  }

  /**
   * @param {import("../state/quantities.js").Quantities} quantities
   * @param {Values} values
   */
  fill(quantities, values) {
    write(this.#words, values.words);
    KINDS.forEach((kind, at) => {
      write(this.#figures[at], quantities.figure(kind, values[kind]));
      this.#figures[at].title = exactly(values[kind], kind);
      tell(this.#figures[at], quantities.value(kind, values[kind]), values[kind]?.fraction);
    });
  }

  /** @param {Desk} desk */
  light({ lit, litMember }) {
    const { on, coupling, member } = this.node.dataset;
    const meant = !litMember || litMember.coupling === coupling;
    this.node.toggleAttribute("data-lit", lit !== undefined && on === lit && meant && Boolean(member));
  }
}
