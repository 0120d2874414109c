/** How often the teeth of each mesh meet, and how fast each pinion turns on its pin. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction, NONE, number } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { scroller, table } from "../kit/table.js";
import { say, sayParts } from "../kit/words.js";

/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../kit/format.js").Exact} Exact */

/** Seconds in a minute: the input's speed is in rev/min, a frequency in Hz. */
const MINUTE = 60;

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, signal }) {
  const heads = [say("page-mesh"), say("page-per-input-turn"), say("page-per-output-turn"), "Hz"];
  const meshes = table(say("page-meshes"), heads, [1, 2, 3]);
  const unit = h("span");
  const pins = table(say("page-pins"), [say("page-pin"), say("page-pin-teeth"), unit], [1, 2]);
  tellHeadings(pins.node, [
    () => undefined,
    () => undefined,
    () => ({ name: say("page-pin-speed", { unit: desk.quantities.unit("speed") }), exact: say("page-take-speed-share") }),
  ]);
  const speed = h("span");
  panel.fill(
    scroller(meshes.node, say("page-meshes"), signal),
    h("p", { class: "note" }, ...sayParts("page-meshes-note", { speed })),
    scroller(pins.node, say("page-pins"), signal),
  );

  follow(desk, ["answer", "speed", "units"], () => {
    const { answer, quantities } = desk;
    if (!answer) return;
    const couplings = answer.couplings;
    meshes.body.replaceChildren(
      ...couplings.flatMap((coupling) => [
        h("tr", { class: "group" }, h("th", { scope: "colgroup", colspan: 4 }, h("b", {}, coupling.label))),
        ...coupling.meshes.map(({ mesh, perInput, perOutput }) =>
          h(
            "tr",
            { "data-mesh": `${coupling.id}: ${mesh}` },
            h("th", { scope: "row" }, mesh),
            order(perInput),
            order(perOutput),
            figure(perInput && { decimal: (perInput.decimal * desk.speed) / MINUTE }),
          ),
        ),
      ]),
    );
    speed.textContent = quantities.text("speed", { decimal: 1 });
    unit.textContent = say("page-pin-speed", { unit: quantities.unit("speed") });
    const rows = couplings.flatMap((coupling) =>
      coupling.pinions.map(({ name, teeth, secondStep, speed: turns }) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, say("page-part-of-set", { set: coupling.label, part: name })),
          h("td", { class: "figure" }, secondStep === null ? String(teeth) : `${teeth}, ${secondStep}`),
          tell(
            h("td", { class: "figure", title: turns ? fraction(turns) : null }, turns ? quantities.figure("speed", turns) : say("page-free")),
            quantities.value("speed", turns),
            turns?.fraction,
          ),
        ),
      ),
    );
    pins.body.replaceChildren(...rows);
    pins.node.hidden = rows.length === 0;
  });
}

/** @param {Exact | null} value */
function order(value) {
  const cell = figure(value);
  if (value) cell.setAttribute("title", fraction(value));
  return tell(cell, value?.decimal, value?.fraction);
}

/** @param {{ decimal: number } | null} value */
function figure(value) {
  const text = !value ? NONE : value.decimal === 0 ? "0" : number(value.decimal);
  return tell(h("td", { class: "figure" }, text), value?.decimal);
}
