/** Every shaft with its speed; pointing at a row lights the shaft in the drawings. */

import { h, whenOther } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, NONE, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { motionMark } from "../kit/motion.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { speedFigure, wayOf } from "../state/moment.js";
import { unitOf } from "../state/units.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../state/desk.js").Answer} Answer */

/** Longer fractions go into the title alone: a column of them would hide the decimals. */
const SHORT_FRACTION = 9;

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const unit = h("span");
  const heads = [say("page-shaft"), unit, say("page-per-input-turn"), say("page-members-motion")];
  const { node: shafts, body } = table(say("page-panel-members"), heads, [1, 2]);
  tellHeadings(shafts, [
    () => undefined,
    () => ({ name: say("page-take-speed", { unit: desk.quantities.unit("speed") }) }),
  ]);
  const note = h("p", { class: "note", hidden: true, "data-part": "members-moment" }, say("page-members-moment"));
  panel.fill(note, h("div", { class: "scroll" }, shafts));
  /** @type {HTMLElement[]} */
  let rows = [];
  /** What each of them shows. @type {string[]} */
  let shown = [];

  const build = whenOther(() => [desk.info?.shafts, desk.info?.input, desk.info?.output], () => {
    rows = (desk.info?.shafts ?? []).map(({ id, label }) => {
      const end = endWord(desk, id);
      const named = label.toLowerCase().includes(end.toLowerCase());
      const light = () => desk.light(id);
      const unlight = () => desk.light(undefined);
      return h(
        "tr",
        { "data-shaft-id": id, pointerenter: light, pointerleave: unlight },
        h(
          "th",
          { scope: "row" },
          h("button", { class: "bare", type: "button", focus: light, blur: unlight, click: light }, label),
          named ? null : h("span", { class: "quiet" }, ` ${end}`),
        ),
        h("td", { class: "figure" }),
        h("td", { class: "figure" }),
        h("td"),
      );
    });
    body.replaceChildren(...rows);
    shown = [];
  });

  function update() {
    const { answer, quantities } = desk;
    if (!answer) return;
    unit.textContent = quantities.unit("speed");
    const { shownBy } = desk;
    note.hidden = !shownBy;
    const input = shownBy?.speedOf(desk.info?.input ?? "");
    rows.forEach((row, index) => {
      const shaft = answer.shafts[index];
      const motion = answer.motions[index];
      const moment = shownBy?.speedOf(shaft.id);
      const now = JSON.stringify([shaft.speed, motion, desk.speed, desk.units, moment, input]);
      if (now === shown[index]) return;
      shown[index] = now;
      row.dataset.motion = motion;
      const [, revs, perTurn, word] = row.children;
      if (moment !== undefined) {
        const part = input ? moment / input : undefined;
        revs.textContent = speedFigure(desk, moment);
        tell(revs, moment / unitOf(desk.units, "speed").size);
        tell(perTurn, part);
        perTurn.textContent = part === undefined ? NONE : part === 0 ? "0" : number(part);
        perTurn.setAttribute("title", "");
        word.replaceChildren(...wayOf(moment));
        return;
      }
      revs.textContent = quantities.figure("speed", shaft.speed);
      tell(revs, quantities.value("speed", shaft.speed));
      tell(perTurn, shaft.speed?.decimal, shaft.speed?.fraction);
      perTurn.replaceChildren(...perTurnWords(shaft.speed));
      perTurn.setAttribute("title", shaft.speed ? fraction(shaft.speed) : "");
      word.replaceChildren(motionMark(motion));
    });
  }

  /** @param {string | undefined} id */
  const isLit = (id) => id !== undefined && (id === desk.lit || desk.told.shafts.includes(id));

  function light() {
    for (const row of rows) row.toggleAttribute("data-lit", isLit(row.dataset.shaftId));
  }

  follow(desk, ["train"], build);
  follow(desk, ["answer", "speed", "units", "instant"], update);
  follow(desk, ["answer", "light"], light);
}

/**
 * Which end of the train a shaft is, if any.
 * @param {Desk} desk
 * @param {string} id
 */
function endWord({ info }, id) {
  if (id === info?.input) return say("page-members-input");
  return id === info?.output ? say("page-members-output") : "";
}

/** @param {Answer["shafts"][number]["speed"]} value */
function perTurnWords(value) {
  if (!value) return [NONE];
  const decimal = value.decimal === 0 ? "0" : number(value.decimal);
  const text = fraction(value);
  if (!text.includes("/") || text.length > SHORT_FRACTION) return [decimal];
  return [h("span", { class: "quiet fraction" }, text), ` ${decimal}`];
}
