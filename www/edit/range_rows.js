/** The ranges of a train: what each applies, and their order. */

import { h, write } from "../kit/dom.js";
import { listed, say } from "../kit/words.js";
import { doing, textField } from "./fields.js";

/** @typedef {import("./form.js").Form} Form */

/** @param {Form} form */
export function rangeRows(form) {
  const count = form.info.ranges.length;
  const rows = form.info.ranges.map(({ id, label }, at) => {
    const node = form.part(`range ${id}`, [label, at, count], () => row(form, id, at));
    return /** @type {[string, HTMLElement]} */ ([id, node]);
  });
  return [h("h3", {}, say("page-ranges")), ...form.list("ranges", say("page-ranges"), rows), form.part("add range", null, () => adding(form))];
}

/**
 * The button that makes a range of what is applied, unless one applies just that.
 * @param {Form} form
 */
function adding(form) {
  const { desk } = form;
  const applied = () => desk.answer?.applied ?? [];
  const key = (/** @type {string[]} */ ids) => [...ids].sort().join();
  const note = h("span", { class: "note" });
  const add = doing(say("page-edit-add-range"), "add range", () => {
    form.edit({ edit: "add-range", label: "", applied: applied() });
    // The button stays in sight under the new row, whose name comes next; the page stays where it is.
    form.showIn(node);
    form.name(`range ${form.info.ranges.at(-1)?.id}`);
  });
  const node = h("p", { class: "row" }, add, note);
  const show = () => {
    const same = form.info.ranges.find((range) => key(range.applied) === key(applied()));
    add.disabled = same !== undefined;
    note.textContent = same ? say("page-edit-is-range", { range: same.label }) : "";
  };
  form.shows(show);
  form.answers(show);
  return node;
}

/**
 * @param {Form} form
 * @param {string} id
 * @param {number} at
 */
function row(form, id, at) {
  const { desk } = form;
  const now = () => form.info.ranges.find((range) => range.id === id);
  const label = now()?.label ?? "";
  const name = textField(form, {
    key: `range ${id}`,
    name: say("page-edit-label"),
    value: () => now()?.label ?? "",
    edit: (text) => ({ edit: "label-range", range: id, label: text }),
  });
  const applied = h("span", { class: "edit-applied" });
  form.shows(() => {
    const names = (now()?.applied ?? []).map((element) => desk.elementLabel(element));
    write(applied, names.length > 0 ? listed(names) : say("page-applied-none"));
  });
  const move = (/** @type {number} */ to, /** @type {string} */ sign, /** @type {string} */ words) => {
    const button = doing(sign, `${sign} range ${id}`, () => form.edit({ edit: "move-range", range: id, at: to }), words);
    button.disabled = to < 0 || to >= form.info.ranges.length;
    return button;
  };
  return h(
    "div",
    { class: "edit-line", "data-range": id },
    name,
    applied,
    doing(say("page-edit-take"), `take ${id}`, () => form.edit({ edit: "applied", range: id, applied: desk.answer?.applied ?? [] }), say("page-edit-take-for", { label })),
    move(at - 1, "↑", say("page-edit-earlier", { label })),
    move(at + 1, "↓", say("page-edit-later", { label })),
    doing(say("page-edit-remove"), `remove range ${id}`, () => form.edit({ edit: "remove-range", range: id }), say("page-edit-remove-what", { label })),
  );
}
