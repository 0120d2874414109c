/** Having a brake or clutch join something else in the drawing. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { doing } from "./fields.js";

/** @typedef {import("./grips.js").Grip} Grip */
/** @typedef {import("./tools.js").Hands} Hands */

const HOUSING = "housing";

/** Whether a line may lead from one thing to another to that end. @param {Grip} one @param {Grip} other */
export function rejoins(one, other) {
  const member = one.kind === "member" ? one : other;
  return member.shaft !== HOUSING && [one.kind, other.kind].sort().join(" ") === "element member";
}

/**
 * Which of an element's ends may be on the shaft that a line was drawn to, or from.
 * @param {Grip} one
 * @param {Grip} other
 * @param {Hands} hands
 * @returns {Node[]}
 */
export function waysToRejoin(one, other, hands) {
  const [{ id }, { shaft }] = one.kind === "element" ? [one, other] : [other, one];
  const element = hands.sheet().elements.find((element) => element.id === id);
  if (!element) return [];
  const { kind, ends } = element;
  if (ends.includes(shaft)) return [h("span", {}, say("page-draw-joins-already"))];
  const label = (/** @type {string} */ body) => hands.desk.info?.shafts.find(({ id }) => id === body)?.label ?? hands.desk.info?.housing ?? "";
  const put = (/** @type {[string, string]} */ joined, /** @type {number} */ at) =>
    doing(say("page-draw-instead", { shaft: label(shaft), other: label(ends[at]) }), `end ${at}`, () => {
      if (hands.edit({ edit: "ends", element: id, ends: joined })) hands.choose();
    });
  const first = put([shaft, ends[1]], 0);
  // A brake holds something on the housing.
  return kind === "brake" ? [first] : [first, put([ends[0], shaft], 1)];
}
