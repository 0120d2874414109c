/** Making a package for a course system of a sheet: the panel's part of it. */

import { decimalField, typedIn } from "../kit/decimal_field.js";
import { h } from "../kit/dom.js";
import { Failure } from "../kit/problems.js";
import { save, slug } from "../kit/save.js";
import { say } from "../kit/words.js";
import { language } from "../state/language.js";
import { choice } from "./task_words.js";

/** @typedef {import("./package_files.js").Form} Form */

/** What a package can be for; all are names of standards. @type {[Form, string][]} */
const FORMS = [
  ["scorm2004", "SCORM 2004 4th Edition"],
  ["scorm12", "SCORM 1.2"],
  ["xapi", "xAPI"],
];

export class Package {
  #desk;
  #sheets;
  #sheet = choice("package-sheet", say("page-package-sheet"));
  #form = choice("package-form", say("page-package-form"));
  #pass = decimalField({ min: 1, max: 100, id: "package-pass", "aria-describedby": "package-pass-note" });
  #none = h("p", { class: "note" }, say("page-package-none"));
  #busy = h("p", { class: "note", role: "status" });
  #fields;
  #save;

  /**
   * @param {import("../state/desk.js").Desk} desk
   * @param {() => import("./sheet_text.js").Offered[]} sheets those there are
   */
  constructor(desk, sheets) {
    this.#desk = desk;
    this.#sheets = sheets;
    this.#form.offer(FORMS);
    const click = () => this.#make();
    this.#save = /** @type {HTMLButtonElement} */ (/** @type {unknown} */ (h("button", { class: "plain", type: "button", "data-part": "package-save", click }, say("page-package-save"))));
    const pass = h("div", { class: "exercise-line" }, h("label", { for: "package-pass" }, say("page-package-pass")), this.#pass);
    const note = h("p", { class: "note", id: "package-pass-note" }, say("page-package-pass-note"));
    this.#fields = h("div", { class: "exercise-lines" }, this.#sheet.node, this.#form.node, pass, note, h("p", { class: "row" }, this.#save), this.#busy);
    this.node = h(
      "details",
      { class: "exercise-setting", "data-part": "package", toggle: () => this.update() },
      h("summary", {}, say("page-package")),
      h("p", { class: "note" }, say("page-package-note")),
      this.#none,
      this.#fields,
    );
  }

  /** Offers the sheets there are now. */
  update() {
    const names = this.#sheets().map(({ key, name }) => /** @type {[string, string]} */ ([key, name]));
    this.#sheet.offerLatest(names);
    this.#none.hidden = names.length > 0;
    this.#fields.hidden = names.length === 0;
  }

  async #make() {
    const desk = this.#desk;
    this.#save.disabled = true;
    this.#busy.textContent = say("page-package-busy");
    try {
      const pass = this.#passMark();
      const sheet = await this.#sheets().find(({ key }) => key === this.#sheet.value)?.lesson();
      const { info, text: train } = desk;
      if (!sheet || !info) return;
      const { title, walk } = sheet;
      const tasks = sheet.questions.map(({ task }) => task);
      if (tasks.length === 0 && pass !== undefined) throw new Failure(say("page-package-pass"), say("page-problem-no-pass"), say("page-fix-no-pass"));
      const form = /** @type {Form} */ (this.#form.value);
      const { packed } = await import("./package_files.js");
      const bytes = await packed({ title, language: language(), form, pass, train, name: info.name, walk, tasks });
      save(new Blob([bytes], { type: "application/zip" }), `${slug(title) || "lesson"}-${form}.zip`);
      desk.dismiss();
    } catch (error) {
      desk.report(error, say("page-package-refused"));
    } finally {
      this.#save.disabled = false;
      this.#busy.textContent = "";
    }
  }

  /** From how many percent the lesson is passed; nothing where that is left empty. */
  #passMark() {
    const typed = typedIn(this.#pass);
    // A browser's own field hands over nothing of what is no number.
    if (typed === "" && !this.#pass.validity.badInput) return undefined;
    const pass = typed === "" ? Number.NaN : Number(typed);
    if (!(pass >= 1 && pass <= 100)) throw new Failure(say("page-package-pass"), say("page-problem-pass"), say("page-fix-pass"));
    return pass;
  }
}
