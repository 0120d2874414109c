/** What went wrong: where, what, and the fix. What was on screen stays. */

import { h, icon, unseen } from "../kit/dom.js";

/** More problems than these would push the drawings off the screen. */
const SHOWN = 6;

/** @param {import("../state/desk.js").Desk} desk */
export function messages(desk) {
  const list = h("ul", {});
  const heading = h("p", { class: "message-heading" });
  const body = h(
    "div",
    { class: "message", "data-part": "message" },
    h("div", {}, heading, list),
    h(
      "button",
      { class: "bare", type: "button", "data-part": "dismiss", click: () => desk.dismiss() },
      icon("close"),
      unseen("Dismiss this message"),
    ),
  );
  const node = h("div", { role: "alert", class: "messages" });

  function update() {
    const { problems } = desk;
    const items = problems
      .slice(0, SHOWN)
      .map(({ place, problem, fix }) =>
        h("li", {}, h("b", {}, place), `: ${problem}. `, h("span", { class: "fix" }, sentence(fix))),
      );
    if (problems.length > SHOWN) items.push(h("li", {}, `…and ${problems.length - SHOWN} more.`));
    list.replaceChildren(...items);
    heading.textContent = desk.heading;
    node.replaceChildren(...(problems.length > 0 ? [body] : []));
  }
  desk.addEventListener("message", update);
  return node;
}

/** @param {string} text */
function sentence(text) {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
