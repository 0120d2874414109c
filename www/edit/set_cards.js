/** The sets of a train: what turns with what, tooth counts, and their places along the axis. */

import { h, whenOther, write } from "../kit/dom.js";
import { capital, listed, say } from "../kit/words.js";
import { choice, choiceField, countField, doing, textField } from "./fields.js";
import { KINDS, PINIONS, TEETH } from "./set_kinds.js";

/** @typedef {import("./form.js").Form} Form */
/** @typedef {Form["sheet"]["sets"][number]} SetSheet */

/** @param {Form} form */
export function setCards(form) {
  const kinds = choice(
    KINDS.map(([kind, message]) => [kind, capital(say(message))]),
    say("page-edit-kind"),
    "new set",
  );
  const add = doing(say("page-edit-add-set"), "add set", () =>
    form.edit({ edit: "add-set", kind: kinds.value, at: form.sheet.sets.length }),
  );
  const count = form.sheet.sets.length;
  const cards = form.sheet.sets.map(({ id, kind, label, gears, members, internal }, at) => {
    const shape = [kind, label, gears.map(({ name }) => name), members.map(({ role }) => role), internal === null, at, count];
    return /** @type {[string, HTMLElement]} */ ([id, form.part(`set ${id}`, shape, () => card(form, id, at))]);
  });
  return [
    h("h3", {}, say("page-edit-sets")),
    ...(cards.length > 0 ? form.list("sets", say("page-edit-sets"), cards) : [h("p", { class: "note" }, say("page-edit-no-sets"))]),
    h("p", { class: "row" }, h("span", { class: "select" }, kinds), add),
  ];
}

/**
 * @param {Form} form
 * @param {string} id
 * @param {number} at
 */
function card(form, id, at) {
  const now = () => /** @type {SetSheet} */ (form.sheet.sets.find((set) => set.id === id));
  const set = now();
  const last = form.sheet.sets.length - 1;
  const warnings = h("div", { class: "edit-warnings" });
  const fit = doing("", `fit ${id}`, () => {
    const { nearest } = now();
    if (nearest) form.edit({ edit: "cut", set: id, teeth: nearest });
  });
  const warn = whenOther(
    () => now().warnings,
    () => warnings.replaceChildren(...now().warnings.map((text) => h("p", {}, `${capital(text)}.`))),
  );
  const legend = h("legend");
  const node = h("fieldset", { class: "edit-card", "data-set": id }, legend);
  form.shows(() => {
    const { warnings: told, nearest, gears } = now();
    const broken = told.length > 0;
    node.toggleAttribute("data-broken", broken);
    write(legend, broken ? say("page-edit-broken", { kind: set.kind }) : set.kind);
    warn();
    fit.hidden = !nearest;
    const changed = gears.flatMap(({ name, teeth }, gear) =>
      nearest && nearest[gear] !== teeth ? [say("page-edit-fit-gear", { gear: name, teeth: nearest[gear] })] : [],
    );
    fit.textContent = say("page-edit-fit", { gears: listed(changed) });
  });
  const label = textField(form, {
    key: `set ${id}`,
    name: say("page-edit-label"),
    value: () => now().label,
    edit: (text) => ({ edit: "label-set", set: id, label: text }),
  });
  const move = (/** @type {number} */ to, /** @type {string} */ sign, /** @type {string} */ words) => {
    const button = doing(sign, `${sign} ${id}`, () => form.edit({ edit: "move-set", set: id, at: to }), words);
    button.disabled = to < 0 || to > last;
    return button;
  };
  const buttons = h(
    "span",
    { class: "edit-buttons" },
    move(at - 1, "←", say("page-edit-earlier", { label: set.label })),
    move(at + 1, "→", say("page-edit-later", { label: set.label })),
    doing(say("page-edit-repeat"), `repeat ${id}`, () => form.edit({ edit: "repeat-set", set: id })),
    doing(say("page-edit-remove"), `remove ${id}`, () => form.edit({ edit: "remove-set", set: id }), say("page-edit-remove-what", { label: now().label })),
  );
  // What is told below the fields moves none that somebody is at.
  node.append(
    h("div", { class: "edit-head" }, label, buttons),
    h("table", { class: "edit-members" }, h("thead", {}, heads()), h("tbody", {}, ...rows(form, set, now))),
    warnings,
    fit,
  );
  return node;
}

function heads() {
  const words = [say("page-edit-part"), say("page-pin-teeth"), say("page-edit-turns-with")];
  return h("tr", {}, ...words.map((word) => h("th", { scope: "col" }, word)));
}

/**
 * A row for each gear from the middle outwards, and one for the carrier.
 * @param {Form} form
 * @param {SetSheet} set
 * @param {() => SetSheet} now
 */
function rows(form, set, now) {
  const gears = set.gears.map(({ name }, gear) => {
    const member = set.members.find((member) => member.gear === gear);
    const teeth = countField(form, {
      key: `teeth ${set.id} ${gear}`,
      name: say("page-edit-teeth-of", { gear: name, label: set.label }),
      value: () => now().gears[gear].teeth,
      edit: (count) => ({ edit: "teeth", set: set.id, gear, teeth: count }),
      ...TEETH,
    });
    return lights(form, row(capital(name), teeth, member ? place(form, set, member, now) : ""), member, now);
  });
  const carriers = set.members.filter(({ gear }) => gear === null);
  const carried = carriers.map((member) => {
    const pinions =
      set.count === null
        ? ""
        : h(
            "span",
            { class: "edit-count" },
            countField(form, {
              key: `count ${set.id}`,
              name: say("page-edit-pinions-of", { label: set.label }),
              value: () => now().count ?? 0,
              edit: (count) => ({ edit: "count", set: set.id, count }),
              ...PINIONS,
            }),
            say("page-edit-pinions"),
          );
    return lights(form, row(capital(member.role), pinions, place(form, set, member, now)), member, now);
  });
  const mesh =
    set.internal === null
      ? []
      : [
          row(
            say("page-edit-mesh"),
            "",
            choiceField(form, {
              key: `mesh ${set.id}`,
              name: say("page-edit-mesh"),
              value: () => (now().internal ? "internal" : "external"),
              options: [
                ["external", say("page-edit-external")],
                ["internal", say("page-edit-internal")],
              ],
              edit: (mesh) => ({ edit: "mesh", set: set.id, mesh: mesh === "internal" ? "internal" : "external" }),
            }),
          ),
        ];
  return [...gears, ...carried, ...mesh];
}

/**
 * @param {string} name
 * @param {Node | string} teeth
 * @param {Node | string} shaft
 */
function row(name, teeth, shaft) {
  return h("tr", {}, h("th", { scope: "row" }, name), h("td", {}, teeth), h("td", {}, shaft));
}

/**
 * Has a row point at its member in the drawings, and be pointed at with it.
 * @param {Form} form
 * @param {HTMLElement} node
 * @param {SetSheet["members"][number] | undefined} member
 * @param {() => SetSheet} now
 */
function lights(form, node, member, now) {
  if (!member) return node;
  const { desk } = form;
  const shaft = () => now().members.find(({ at }) => at === member.at)?.shaft;
  const light = () => desk.light(shaft(), { coupling: now().id, index: member.at });
  const unlight = () => desk.light(undefined);
  node.addEventListener("pointerenter", light);
  node.addEventListener("pointerleave", unlight);
  node.addEventListener("focusin", light);
  node.addEventListener("focusout", unlight);
  form.lights(() => node.toggleAttribute("data-lit", desk.lit !== undefined && shaft() === desk.lit));
  return node;
}

/**
 * What a member turns with.
 * @param {Form} form
 * @param {SetSheet} set
 * @param {SetSheet["members"][number]} member
 * @param {() => SetSheet} now
 */
function place(form, set, member, now) {
  const own = /** @type {[string, string]} */ (["", say("page-edit-own-shaft")]);
  return choiceField(form, {
    key: `shaft ${set.id} ${member.at}`,
    name: say("page-edit-shaft-of", { member: member.role, label: set.label }),
    value: () => now().members.find(({ at }) => at === member.at)?.shaft ?? "",
    options: [...form.bodies(true), own],
    edit: (shaft) => ({ edit: "place", set: set.id, member: member.at, shaft }),
  });
}
