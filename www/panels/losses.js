/** What the meshes and the open elements cost: efficiency, and where the rest goes. */

import { decimalField, putIn, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { DRAG_SLIP, isDrag, isMesh, lossesAreQuick, MOST_DRAG } from "../state/assumptions.js";
import { tell, tellHeadings } from "../kit/known.js";
import { number } from "../kit/format.js";
import { formula } from "../kit/mathml.js";
import { percent } from "../state/quantities.js";
import { forField, fromField, unitOf } from "../state/units.js";
import { outcomeWords } from "../state/effort_words.js";
import { table } from "../kit/table.js";
import { say, sayParts } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */
/** @typedef {import("../engine/levertrain.js").Losses} Losses */

/** What is left of a mesh that does not roll: the engine's rounding. */
const ROUNDING = 1e-9;

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const result = h("p", { class: "efficiency-line", "data-part": "efficiency" });
  const { node: list, body } = table(say("page-panel-losses"), [say("page-losses-loss"), "", "%"], [1, 2]);
  const unit = /** @type {HTMLElement} */ (list.querySelectorAll("thead th")[1]);
  tellHeadings(list, [
    () => undefined,
    () => ({ name: say("page-take-loss", { unit: desk.quantities.unit("loss") }) }),
    () => ({ name: say("page-take-loss", { unit: "%" }) }),
  ]);
  panel.fill(result, list, lockable(desk, "settings", ...fields(desk)));

  function update() {
    const { answer } = desk;
    if (!answer) return;
    // A long train is worked out only for whoever looks.
    if (!panel.open && !lossesAreQuick(desk)) {
      panel.hint("");
      return;
    }
    const found = desk.ask((sandbox) => sandbox.losses());
    const efficiency = found?.efficiency ?? null;
    panel.hint(efficiency === null ? "" : percent(efficiency));
    list.hidden = efficiency === null;
    if (!found || efficiency === null) {
      result.replaceChildren(found ? outcomeWords(found) : say("page-losses-no-torque"));
      return;
    }
    // Coasting, the torque that is typed in is what comes out at the input shaft.
    const perPowerIn = desk.assumptions.coasting ? 1 / efficiency : 1;
    const { quantities } = desk;
    const lost = (/** @type {number} */ share) => [
      tell(h("td", { class: "figure" }, quantities.figure("loss", { decimal: share * perPowerIn })), quantities.value("loss", { decimal: share * perPowerIn })),
      tell(h("td", { class: "figure" }, number(share * 100, 3)), share * 100),
    ];
    const row = (/** @type {string} */ name, /** @type {number} */ share, /** @type {Record<string, unknown>} */ attributes) =>
      h("tr", attributes, h("th", { scope: "row" }, name), ...lost(share < ROUNDING ? 0 : share));
    unit.textContent = quantities.unit("loss");
    const values = {
      efficiency: h("b", {}, percent(efficiency, 4)),
      way: desk.assumptions.coasting ? "coasting" : "driving",
      torque: quantities.text("torque", { decimal: Math.abs(found.output ?? 0) }),
    };
    result.replaceChildren(...sayParts("page-losses-efficiency", values));
    const label = new Map(answer.couplings.map((coupling) => [coupling.id, coupling.label]));
    body.replaceChildren(
      ...found.meshes.map(({ coupling, mesh, share }) =>
        row(say("page-part-of-set", { set: label.get(coupling) ?? "", part: mesh }), share, { "data-coupling": coupling, "data-mesh": mesh }),
      ),
      ...found.drag.map(({ element, share }) =>
        row(say("page-part-of-set", { set: desk.elementLabel(element), part: say("page-losses-drag") }), share, { "data-drag": element }),
      ),
      row(say("page-losses-all"), 1 - efficiency, { class: "sum" }),
    );
  }

  panel.toggled(update);
  follow(desk, ["answer", "speed", "torque", "units", "assumptions"], update);
}

/** @param {Desk} desk */
function fields(desk) {
  const mesh = decimalField({ id: "mesh", min: 0, max: 100, change: typeMesh });
  const drag = decimalField({ id: "drag", min: 0, change: typeDrag });
  const way = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      { id: "way", change: () => desk.assume({ coasting: way.value === "coast" }) },
      h("option", { value: "drive" }, say("page-losses-way-drive")),
      h("option", { value: "coast" }, say("page-losses-way-coast")),
    )
  );
  const dragUnit = h("span", { class: "unit" });
  const law = formula("<mi>T</mi><mo>=</mo><mi>c</mi><mo>&#x2062;</mo><mi>\u0394n</mi>", "T = c·Δn");
  const linear = h("span", { class: "inline-formula" }, law);

  function typeMesh() {
    const value = Number(typedIn(mesh)) / 100;
    if (isMesh(value)) desk.assume({ mesh: value });
    else update();
  }

  function typeDrag() {
    const value = fromField(typedIn(drag), unitOf(desk.units, "torque"));
    if (drag.value !== "" && isDrag(value)) desk.assume({ drag: value });
    else update();
  }

  function update() {
    const unit = unitOf(desk.units, "torque");
    const { assumptions } = desk;
    putIn(mesh, String(Number((assumptions.mesh * 100).toFixed(4))));
    putIn(drag, forField(assumptions.drag, unit));
    drag.max = forField(MOST_DRAG, unit);
    dragUnit.textContent = unit.name;
    way.value = assumptions.coasting ? "coast" : "drive";
  }
  follow(desk, ["units", "assumptions"], update);

  return [
    h(
      "div",
      { class: "assumption" },
      h("label", { for: "mesh" }, say("page-losses-mesh")),
      h("span", { class: "field" }, mesh, h("span", { class: "unit" }, "%")),
      h("p", { class: "note" }, say("page-losses-mesh-note")),
    ),
    h(
      "div",
      { class: "assumption" },
      h("label", { for: "drag" }, say("page-losses-open")),
      h("span", { class: "field" }, drag, dragUnit),
      h("p", { class: "note" }, ...sayParts("page-losses-open-note", { slip: DRAG_SLIP, formula: linear })),
    ),
    h(
      "div",
      { class: "assumption" },
      h("label", { for: "way" }, say("page-losses-way")),
      h("span", { class: "select" }, way),
    ),
  ];
}
