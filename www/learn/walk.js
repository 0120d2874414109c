/** The walkthrough: the power flow of what is applied, step by step, and the story of a shift to another range. */

import { h } from "../kit/dom.js";
import { addStyles } from "../kit/sheets.js";
import { follow } from "../state/follow.js";
import { Shifting } from "./walk_shift.js";
import { Steps } from "./walk_steps.js";

const STYLES = "css/walk.css";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, signal }) {
  const steps = new Steps((shafts) => desk.tellShafts(shafts));
  const shifting = new Shifting(
    (to) => desk.askWhole((engine, sandbox) => engine.shift(sandbox, to)),
    (shaft) => desk.light(shaft),
  );
  panel.fill(h("div", { class: "walk" }, steps.node, shifting.node));
  addStyles(/** @type {ShadowRoot} */ (panel.node.getRootNode()), STYLES);

  function build() {
    const { answer, info } = desk;
    const walk = panel.open && answer ? desk.askWhole((engine, sandbox) => engine.walk(sandbox)) : undefined;
    steps.show(walk?.steps ?? [], info);
    if (walk && info && answer) shifting.show(info, answer.range);
  }

  panel.toggled(build);
  follow(desk, ["train", "answer", "whole"], build);
  signal.addEventListener("abort", () => steps.stop());
}
