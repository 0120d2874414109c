/** How fast the faces of open clutches and brakes slip, and how fast pinions turn on their pins. */

import { h } from "../dom.js";
import { follow } from "../desk.js";
import { fraction } from "../format.js";
import { panel, table } from "./panel.js";

/** @typedef {import("../desk.js").Desk} Desk */

/** @param {Desk} desk */
export function slips(desk) {
  const unit = h("span");
  const { node: slips, body } = table("Slip of open elements", ["Open element", unit], [1]);
  const none = h("p", { class: "note" }, "Nothing is open.");
  const node = panel("Slip of open clutches and brakes", "slips", false, slips, none);

  follow(desk, ["answer", "speed", "units"], () => {
    const { quantities } = desk;
    unit.textContent = `Slip, ${quantities.unit("speed")}`;
    const open = desk.answer?.elements.filter(({ applied }) => !applied) ?? [];
    body.replaceChildren(
      ...open.map(({ id, label, slip }) =>
        h(
          "tr",
          { "data-element-id": id },
          h("th", { scope: "row" }, label),
          h("td", { class: "figure", title: slip ? fraction(slip) : null }, slip ? quantities.figure("speed", slip) : "free"),
        ),
      ),
    );
    slips.hidden = open.length === 0;
    none.hidden = open.length > 0;
  });
  return node;
}

/** @param {Desk} desk */
export function pinions(desk) {
  const unit = h("span");
  const { node: pinions, body } = table("Pinions", ["Pinion", "Teeth", unit], [1, 2]);
  const node = panel("Pinions on their pins", "pinions", false, pinions);

  follow(desk, ["answer", "speed", "units"], () => {
    const { quantities } = desk;
    unit.textContent = `On its pin, ${quantities.unit("speed")}`;
    const rows = (desk.answer?.couplings ?? []).flatMap((coupling) =>
      coupling.pinions.map(({ name, teeth, secondStep, speed: turns }) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, `${coupling.label}, ${name}`),
          h("td", { class: "figure" }, secondStep === null ? String(teeth) : `${teeth}, ${secondStep}`),
          h("td", { class: "figure", title: turns ? fraction(turns) : null }, turns ? quantities.figure("speed", turns) : "free"),
        ),
      ),
    );
    body.replaceChildren(...rows);
    node.hidden = rows.length === 0;
  });
  return node;
}
