/** What the half-section shows: how fast its members turn, or how much power they pass. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { markLocked } from "../state/lockable.js";

/** @param {import("../state/desk.js").Desk} desk */
export function shownQuantity(desk) {
  const buttons = [
    { shows: "speed", name: "page-shown-speed", power: false },
    { shows: "power", name: "page-shown-power", power: true },
  ].map(({ shows, name, power }) => ({
    power,
    node: h("button", { type: "button", "data-shows": shows, click: () => desk.setLook({ power }) }, say(name)),
  }));
  const nodes = buttons.map(({ node }) => node);
  const node = h("div", { class: "joined", role: "group", "aria-label": say("page-shown") }, ...nodes);

  follow(desk, ["train", "look", "lock"], () => {
    for (const { node, power } of buttons) {
      node.setAttribute("aria-pressed", String(power === desk.look.power));
      markLocked(desk, "settings", node);
    }
  });
  return node;
}
