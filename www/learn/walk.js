/** The walkthrough: the power flow of what is applied, step by step, and the story of a shift to another range. */

import { h } from "../kit/dom.js";
import { carried, carries } from "../state/carried.js";
import { follow } from "../state/follow.js";
import { Shifting } from "./walk_shift.js";
import { Steps } from "./walk_steps.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, section: HTMLElement, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, section, signal }) {
  const steps = new Steps((step) => desk.tell(step), section, signal, "walk");
  const shifting = new Shifting(
    (to) => desk.askWhole((engine, sandbox) => engine.shift(sandbox, to)),
    (shaft) => desk.light(shaft),
  );
  panel.fill(h("div", { class: "walk" }, steps.node, shifting.node));
  // At the end of all that is shown, so that it stands at the lower edge of the window wherever one is in it.
  section.closest(".body")?.append(steps.bar);

  /** Where somebody was in another language. @type {{ at: number, to: string, applied: string } | undefined} */
  let before = carried("walk");
  const applied = () => [...(desk.answer?.applied ?? [])].sort().join();
  carries("walk", () => before ?? { at: steps.at, to: shifting.to, applied: applied() }, signal);

  function build() {
    const { answer, info } = desk;
    const walk = panel.open && answer ? desk.askWhole((engine, sandbox) => engine.walk(sandbox)) : undefined;
    steps.show(walk?.steps ?? [], info);
    if (!walk || !info || !answer) return;
    shifting.show(info, answer.range);
    // What was applied comes with the address, maybe a moment later.
    if (before?.applied !== applied()) return;
    steps.at = before.at;
    shifting.to = before.to;
    before = undefined;
  }

  panel.toggled(build);
  follow(desk, ["train", "answer", "whole"], build);
  signal.addEventListener("abort", () => steps.stop());
}
