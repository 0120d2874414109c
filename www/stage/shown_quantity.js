/** What the half-section shows: how fast its members turn, or how much power they pass. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";

/** @param {import("../state/desk.js").Desk} desk */
export function shownQuantity(desk) {
  const buttons = [
    { name: "Speed", power: false },
    { name: "Power", power: true },
  ].map(({ name, power }) => ({
    power,
    node: h("button", { type: "button", "data-shows": name.toLowerCase(), click: () => desk.setLook({ power }) }, name),
  }));
  const nodes = buttons.map(({ node }) => node);
  const node = h("div", { class: "joined", role: "group", "aria-label": "What the half-section shows" }, ...nodes);

  follow(desk, ["train", "look"], () => {
    for (const { node, power } of buttons) node.setAttribute("aria-pressed", String(power === desk.look.power));
  });
  return node;
}
