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
  const signs = h(
    "p",
    { class: "note" },
    "A brake’s slip is the speed of what it would hold. A clutch’s is how fast its first side turns " +
      "past its second: positive where the first turns forward, seen from the second.",
  );
  const none = h("p", { class: "note" }, "Nothing is open.");
  panel.fill(slips, none, signs);

  const nounsOf = (/** @type {string} */ id) => desk.info?.elements.find((known) => known.id === id)?.nouns ?? ["", ""];

  follow(desk, ["answer", "speed", "units"], () => {
    const { quantities } = desk;
    unit.textContent = `Slip, ${quantities.unit("speed")}`;
    const open = desk.answer?.elements.filter(({ applied }) => !applied) ?? [];
    body.replaceChildren(
      ...open.map(({ id, label, kind, slip }) =>
        h(
          "tr",
          { "data-element-id": id },
          h("th", { scope: "row" }, label, h("span", { class: "does" }, sides(kind, nounsOf(id)))),
          h("td", { class: "figure", title: slip ? fraction(slip) : null }, slip ? quantities.figure("speed", slip) : "free"),
        ),
      ),
    );
    slips.hidden = signs.hidden = open.length === 0;
    none.hidden = open.length > 0;
  });
}

/**
 * Whose speed a slip is, past what.
 * @param {import("../engine/levertrain.js").ElementKind} kind
 * @param {string[]} nouns
 */
function sides(kind, [first, second]) {
  return kind === "brake" ? first : `${first} past ${second}`;
}
