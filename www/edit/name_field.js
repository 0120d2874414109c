/** What something in the drawing is called, in the strip of it. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { textField } from "./fields.js";

/** @typedef {import("./tools.js").Hands} Hands */
/** @typedef {import("../engine/levertrain_whole.js").Edit} Edit */

/** The key of the field. */
export const NAME = "name";

/** @param {Hands} hands @param {string} id */
export function setName(hands, id) {
  const value = () => hands.sheet().sets.find((set) => set.id === id)?.label ?? "";
  return field(hands, say("page-draw-name"), value, (label) => ({ edit: "label-set", set: id, label }));
}

/** @param {Hands} hands @param {string} id */
export function elementName(hands, id) {
  const value = () => hands.sheet().elements.find((element) => element.id === id)?.label ?? "";
  return field(hands, say("page-draw-name"), value, (label) => ({ edit: "label-element", element: id, label }));
}

/** @param {Hands} hands @param {string} id */
export function shaftName(hands, id) {
  const value = () => hands.desk.info?.shafts.find((shaft) => shaft.id === id)?.label ?? "";
  return field(hands, say("page-draw-shaft-name"), value, (label) => ({ edit: "label-shaft", shaft: id, label }));
}

/**
 * @param {Hands} hands
 * @param {string} name
 * @param {() => string} value
 * @param {(label: string) => Edit} edit
 */
function field(hands, name, value, edit) {
  const input = textField(hands, { key: NAME, name, value, edit });
  return h("label", { class: "strip-name" }, h("span", {}, name), input);
}
