/** The line under the drawings: what the pointed-at member does, or how to use the stage. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { endWords, IDLE, memberName, memberWords } from "../state/effort_words.js";
import { motionMark } from "../kit/motion.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Answer} Answer */

const HINT =
  "Drag a plate pack to close or open it, or press it. Point at a member to follow it everywhere. " +
  "P and Q are pinions, and a number beside a gear is its teeth.";

/** @param {Desk} desk */
export function caption(desk) {
  const node = h("p", { class: "caption", "data-part": "readout" });

  function update() {
    const { answer, lit } = desk;
    const index = answer?.shafts.findIndex((shaft) => shaft.id === lit) ?? -1;
    const shaft = answer?.shafts[index];
    const housing = lit === "housing";
    node.toggleAttribute("data-lit", Boolean(shaft) || housing);
    if (!answer || !(shaft || housing)) {
      node.textContent = HINT;
      return;
    }
    const motion = shaft ? answer.motions[index] : "held";
    const speed = shaft?.speed ? ` ${desk.quantities.text("speed", shaft.speed)} ` : " ";
    const effort = effortWords(desk, answer, lit ?? "");
    node.replaceChildren(
      h("b", {}, shaft?.label ?? desk.info?.housing ?? ""),
      speed,
      motionMark(motion),
      effort.length > 0 ? h("span", { class: "caption-effort" }, effort.join("; ")) : "",
    );
  }
  follow(desk, ["answer", "light", "speed", "torque", "units"], update);
  return node;
}

/**
 * Torque and power of the member that is pointed at, or of every loaded member of the shaft.
 * @param {Desk} desk
 * @param {Answer} answer
 * @param {string} shaft
 */
function effortWords(desk, answer, shaft) {
  const { effort } = answer;
  if (!effort) return [];
  const { quantities, litMember } = desk;
  const ends = litMember ? [] : endWords(desk, effort, shaft);
  const members = answer.couplings.flatMap((coupling, at) =>
    coupling.members.flatMap((member, index) => {
      const torque = effort.couplings[at].torques[index];
      const power = effort.couplings[at].powers[index];
      const pointed = litMember
        ? litMember.coupling === coupling.id && litMember.index === index
        : member.shaft === shaft && torque?.decimal !== 0;
      if (!pointed) return [];
      const words = `${memberName(coupling, index)} ${memberWords(torque, power)}`;
      const figures = `${quantities.text("torque", torque)}, ${quantities.text("power", power)}`;
      return [torque ? `${words}: ${figures}` : words];
    }),
  );
  const all = [...ends, ...members];
  return all.length > 0 ? all : [IDLE];
}
