/** How fast the faces of open clutches and brakes slip. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction } from "../kit/format.js";
import { table } from "../kit/table.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const unit = h("span");
  const { node: slips, body } = table("Slip of open elements", ["Open element", unit], [1]);
  const none = h("p", { class: "note" }, "Nothing is open.");
  panel.fill(slips, none);

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
}
