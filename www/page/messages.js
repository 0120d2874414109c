/** What went wrong: where, what, and the fix. What was on screen stays. */

import { h, icon, unseen } from "../kit/dom.js";
import { capital, say, sayParts } from "../kit/words.js";

/** More problems than these would push the drawings off the screen. */
const SHOWN = 6;

/** @param {import("../state/desk.js").Desk} desk */
export function messages(desk) {
  const list = h("ul", {});
  const heading = h("p", { class: "message-heading" });
  const offers = h("p", { class: "message-offer" });
  const body = h(
    "div",
    { class: "message", "data-part": "message" },
    h("div", {}, heading, list, offers),
    h(
      "button",
      { class: "bare", type: "button", "data-part": "dismiss", click: () => desk.dismiss() },
      icon("close"),
      unseen(say("page-dismiss")),
    ),
  );
  const node = h("div", { role: "alert", class: "messages" });

  /** @param {import("../state/message.js").Message} message */
  function fill({ problems, heading: means, offer }) {
    const items = problems.slice(0, SHOWN).map(({ place, problem, fix }) => {
      const mending = h("span", { class: "fix" }, say("page-fix", { fix: capital(fix) }));
      return h("li", {}, ...sayParts("page-problem", { place: h("b", {}, place), problem, fix: mending }));
    });
    const more = problems.length - SHOWN;
    if (more > 0) items.push(h("li", {}, say("page-more-problems", { count: more })));
    list.replaceChildren(...items);
    heading.textContent = means;
    offers.replaceChildren(...(offer ? [h("button", { class: "plain", type: "button", "data-part": "offer", click: offer.take }, offer.words)] : []));
  }

  function update() {
    const { message } = desk;
    if (message) fill(message);
    node.replaceChildren(...(message ? [body] : []));
  }
  desk.addEventListener("message", update);
  return node;
}
