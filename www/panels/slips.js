/** How fast the faces of open clutches and brakes slip. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fraction } from "../kit/format.js";
import { tell, tellHeadings } from "../kit/known.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const unit = h("span");
  const { node: slips, body } = table(say("page-slips"), [say("page-slips-element"), unit], [1]);
  const unitName = () => desk.quantities.unit("speed");
  tellHeadings(slips, [
    () => undefined,
    () => ({ name: say("page-slips-in", { unit: unitName() }), exact: say("page-take-speed-share") }),
  ]);
  const signs = h("p", { class: "note" }, say("page-slips-signs"));
  const none = h("p", { class: "note" }, say("page-slips-none"));
  panel.fill(slips, none, signs);

  const endsOf = (/** @type {string} */ id) => desk.info?.elements.find((known) => known.id === id);

  follow(desk, ["answer", "speed", "units"], () => {
    const { quantities } = desk;
    unit.textContent = say("page-slips-in", { unit: quantities.unit("speed") });
    const open = desk.answer?.elements.filter(({ applied }) => !applied) ?? [];
    body.replaceChildren(
      ...open.map(({ id, label, kind, slip }) =>
        h(
          "tr",
          { "data-element-id": id },
          h("th", { scope: "row" }, label, h("span", { class: "does" }, sides(kind, endsOf(id)))),
          tell(
            h("td", { class: "figure", title: slip ? fraction(slip) : null }, slip ? quantities.figure("speed", slip) : say("page-free")),
            quantities.value("speed", slip),
            slip?.fraction,
          ),
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
 * @param {{ ends: string[], nouns: string[] }} [names]
 */
function sides(kind, { ends, nouns } = { ends: ["", ""], nouns: ["", ""] }) {
  const values = { first: nouns[0], second: nouns[1], "first-label": ends[0], "second-label": ends[1] };
  const ofOne = kind === "brake";
  return ofOne ? say("page-slips-of", values) : say("page-slips-past", values);
}
