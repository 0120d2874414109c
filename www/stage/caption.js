/** The line under the drawings: what the pointed-at member does, or how to use the stage. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { endWords, idleWords, memberName, memberWords } from "../state/effort_words.js";
import { speedWords, wayOf } from "../state/moment.js";
import { motionMark } from "../kit/motion.js";
import { parted, say } from "../kit/words.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../state/desk.js").Answer} Answer */

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
      node.textContent = desk.isLocked("elements") ? say("page-hint-locked") : say("page-hint");
      return;
    }
    // Another instant has other speeds, and torques of its own.
    const now = shaft && desk.shownBy?.speedOf(shaft.id);
    if (now !== undefined) {
      node.replaceChildren(h("b", {}, shaft?.label ?? ""), ` ${speedWords(desk, now)} `, ...wayOf(now));
      return;
    }
    const motion = shaft ? answer.motions[index] : "held";
    const speed = shaft?.speed ? ` ${desk.quantities.text("speed", shaft.speed)} ` : " ";
    const effort = effortWords(desk, answer, lit ?? "");
    node.replaceChildren(
      h("b", {}, shaft?.label ?? desk.info?.housing ?? ""),
      speed,
      motionMark(motion),
      effort.length > 0 ? h("span", { class: "caption-effort" }, parted(effort)) : "",
    );
  }
  follow(desk, ["answer", "light", "speed", "torque", "units", "lock", "veil", "instant"], update);
  keepTallest(node);
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
      const does = { member: memberName(coupling, index), does: memberWords(torque, power) };
      if (!torque) return [say("page-member-does", does)];
      const figures = { torque: quantities.text("torque", torque), power: quantities.text("power", power) };
      return [say("page-member-does-at", { ...does, ...figures })];
    }),
  );
  const all = [...ends, ...members];
  return all.length > 0 ? all : [idleWords()];
}

/**
 * Has a text keep the room that its longest words took: were what is below it to move, another thing might
 * come to lie under the pointer, be lit, and move it back.
 * @param {HTMLElement} node
 */
function keepTallest(node) {
  let [width, height] = [0, 0];
  new ResizeObserver(([{ contentRect }]) => {
    if (contentRect.width !== width) {
      [width, height] = [contentRect.width, 0];
      // In another width the words may need less. In the next frame: at once, it would be another change of size in the
      // same one, which browsers report as an error.
      requestAnimationFrame(() => (node.style.minHeight = ""));
    } else if (contentRect.height > height) {
      ({ height } = contentRect);
      node.style.minHeight = `${height}px`;
    }
  }).observe(node);
}
