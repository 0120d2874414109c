/** Whether the drawings turn: beside the ranges, where it is in sight together with what turns. */

import { h, icon } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";

/** Rates of turning as shares of the engine's full rate, with their messages. */
const RATES = [
  { rate: 1, name: "page-rate-normal" },
  { rate: 0.4, name: "page-rate-slow" },
  { rate: 0.1, name: "page-rate-very-slow" },
];

/** @param {import("../state/desk.js").Desk} desk */
export function turning(desk) {
  const rates = /** @type {HTMLSelectElement} */ (
    h(
      "select",
      { id: "rate", "data-part": "rate", change: choose },
      ...RATES.map(({ rate, name }) => h("option", { value: rate }, say(name))),
    )
  );
  const stillness = h("span", { class: "note", id: "stillness" }, say("page-stillness"));
  const play = h("button", {
    class: "plain play",
    type: "button",
    "data-part": "turning",
    "aria-describedby": stillness.id,
    click: () => turn(desk.look.rate === 0),
  });

  /** Turning goes on as it was, at the new rate. */
  function choose() {
    turn(desk.look.rate > 0);
  }

  /** @param {boolean} on */
  function turn(on) {
    desk.setLook({ rate: on ? Number(rates.value) : 0 });
  }

  function update() {
    const turns = desk.look.rate > 0;
    play.replaceChildren(icon(turns ? "pause" : "play"), turns ? say("page-stop") : say("page-turn"));
    play.disabled = desk.still;
    stillness.hidden = !desk.still;
  }
  follow(desk, ["train", "look"], update);

  const rate = h(
    "div",
    { class: "control" },
    h("label", { for: rates.id }, say("page-turning")),
    h("span", { class: "select" }, rates),
    stillness,
  );
  return { play, rate };
}
