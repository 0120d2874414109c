/**
 * The answer in one line, at the top of the window while the answer itself has been scrolled away: on a
 * phone the drawings fill the screen, and whoever drags a pack wants to see what it does to the ratio.
 */

import { h, icon } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { ratio } from "../kit/format.js";
import { say } from "../kit/words.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {HTMLElement} figure what of the answer must be in sight instead
 * @param {AbortSignal} signal
 */
export function brief(desk, figure, signal) {
  const line = h("p", { class: "brief-line", "data-part": "brief", hidden: true });
  const observer = new IntersectionObserver(
    (entries) => (line.hidden = entries[entries.length - 1].boundingClientRect.top >= 0),
    { threshold: [0, 1] },
  );
  observer.observe(figure);
  signal.addEventListener("abort", () => observer.disconnect());

  follow(desk, ["answer", "preview"], () => {
    const answer = desk.preview?.answer ?? desk.answer;
    if (!answer) return;
    const range = desk.info?.ranges.find(({ id }) => id === answer.range)?.label;
    const preview = range ? say("page-preview-range", { range }) : say("page-preview");
    line.toggleAttribute("data-preview", Boolean(desk.preview));
    line.replaceChildren(
      h("b", {}, answer.ratio ? `${ratio(answer.ratio)} : 1` : answer.stateWords),
      ...(answer.ratio ? [way(answer.ratio.decimal < 0 ? "backward" : "forward", answer.answer.split(", ")[0])] : []),
      h("span", { class: "brief-range" }, desk.preview ? preview : (range ?? "")),
    );
  });
  // The answer has a status of its own, which says all of this.
  return h("div", { class: "brief", "aria-hidden": "true" }, line);
}

/**
 * @param {"forward" | "backward"} direction
 * @param {string} words
 */
function way(direction, words) {
  return h("span", { class: `answer-way ${direction}` }, icon(direction), words);
}
