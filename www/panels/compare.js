/** What is pinned, number by number beside what is shown now. */

import { h, unseen } from "../kit/dom.js";
import { NONE, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";
import { rangeWords } from "../stage/take_away.js";
import { follow } from "../state/follow.js";
import { Pin } from "../state/pin.js";
import { both, groupsOf } from "./comparison.js";

/** @typedef {import("./comparison.js").Figure} Figure */

/** What the numbers come of. */
const CAUSES = ["train", "answer", "speed", "torque", "units", "assumptions", "pin"];

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const note = h("p", { class: "note" }, say("page-compare-note"));
  const name = h("p", { class: "pinned-name", "data-part": "pinned" });
  const pin = h("button", { class: "plain", type: "button", "data-part": "pin", click: pinNow });
  const unpin = h("button", { class: "plain", type: "button", "data-part": "unpin", click: letGo }, say("page-compare-unpin"));
  const heads = [unseen(say("page-compare-figure")), say("page-compare-pinned"), say("page-compare-now"), say("page-compare-difference")];
  const { node: numbers, body } = table(say("page-panel-compare"), heads, [1, 2, 3]);
  const difference = () => ({ name: say("page-compare-difference"), exact: say("page-compare-difference-words") });
  tellHeadings(numbers, [() => undefined, () => undefined, () => undefined, difference]);
  const signs = h("p", { class: "note" }, say("page-compare-slips-signs"));
  panel.fill(note, name, h("p", { class: "row" }, pin, unpin), h("div", { class: "scroll" }, numbers), signs);

  function pinNow() {
    const { text, answer, info } = desk;
    if (!answer || !info) return;
    const called = say("page-compare-what", { shown: rangeWords(desk), train: info.name });
    set(new Pin({ text, applied: answer.applied, name: called }));
  }

  function letGo() {
    set(undefined);
    pin.focus();
  }

  /** @param {Pin | undefined} pinned */
  function set(pinned) {
    desk.pinned.set(pinned).catch((error) => desk.report(error));
  }

  function update() {
    const { pin: pinned } = desk.pinned;
    note.hidden = Boolean(pinned);
    name.hidden = unpin.hidden = !pinned;
    pin.textContent = pinned ? say("page-compare-pin-again") : say("page-compare-pin");
    name.textContent = pinned ? say("page-compare-legend", { what: pinned.kept.name }) : "";
    const found = panel.open ? both(desk) : undefined;
    numbers.hidden = signs.hidden = !found;
    if (!found) return;
    body.replaceChildren(
      ...groupsOf(desk, found).flatMap(({ title, rows, folds }) => {
        const all = rows.map(({ name, pinned, now }) => row(name, pinned, now));
        // What is the same throughout need not be read line by line.
        const same = folds && all.every((row) => !row.hasAttribute("data-differs"));
        const words = same ? h("span", { class: "does" }, say("page-compare-all-same")) : null;
        const head = h("tr", { class: "group" }, h("th", { scope: "colgroup", colspan: 4 }, h("b", {}, title), words));
        return same ? [head] : [head, ...all];
      }),
    );
  }

  panel.toggled(update);
  follow(desk, CAUSES, update);
}

/**
 * @param {string} name
 * @param {Figure | null} pinned
 * @param {Figure | null} now
 */
function row(name, pinned, now) {
  const { words, by, way = words, differs } = difference(pinned, now);
  return h(
    "tr",
    { "data-differs": differs },
    h("th", { scope: "row" }, name),
    cell(pinned),
    cell(now),
    tell(h("td", { class: differs ? "figure" : "figure quiet" }, words), by, way),
  );
}

/** @param {Figure | null} figure */
function cell(figure) {
  return tell(h("td", { class: "figure" }, figure?.text ?? NONE), figure?.value, figure?.exact);
}

/**
 * A difference by sign and word, not by a colour alone.
 * @param {Figure | null} pinned
 * @param {Figure | null} now
 * @returns {{ words: string, by: number | undefined, way?: string, differs: boolean }} the word alone beside all that is read
 */
function difference(pinned, now) {
  if (!pinned && !now) return { words: NONE, by: undefined, differs: false };
  if (!pinned) return { words: say("page-compare-only-now"), by: undefined, differs: true };
  if (!now) return { words: say("page-compare-only-pinned"), by: undefined, differs: true };
  const same = { words: say("page-compare-same"), by: 0, differs: false };
  if (pinned.value === undefined || now.value === undefined) {
    return pinned.text === now.text ? { ...same, by: undefined } : { words: say("page-compare-differs"), by: undefined, differs: true };
  }
  if (isSame(pinned, now)) return same;
  const by = now.value - pinned.value;
  const sign = by > 0 ? "+" : "";
  const [way, name] = by > 0 ? ["higher", say("page-compare-higher")] : ["lower", say("page-compare-lower")];
  return { words: say("page-compare-by", { by: sign + number(by), way }), by, way: name, differs: true };
}

/**
 * Exactly where both are known exactly; what losses and units are worked out with is rounded.
 * @param {Figure} pinned
 * @param {Figure} now
 */
function isSame(pinned, now) {
  if (pinned.exact !== undefined && now.exact !== undefined) return pinned.exact === now.exact;
  const [one, other] = [pinned.value ?? 0, now.value ?? 0];
  return Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
}
