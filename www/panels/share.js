/** Taking things away: pictures, a link to this view, and the markup that embeds it. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fragmentOf, unusualCodes } from "../address/link.js";
import { MOST_CODE, packed } from "../address/packed.js";
import { save, saveTrain, slug } from "../kit/save.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { listScenarios } from "../state/catalogue.js";
import { LANGUAGES } from "../state/language.js";
import { stageFigure, takeSvg } from "../stage/take_away.js";
import { elementMarkup, frameMarkup } from "./snippet.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk, openSheet, signal }) {
  const link = /** @type {HTMLInputElement} */ (
    h("input", { id: "link", readonly: true, "data-part": "link", focus: () => link.select() })
  );
  const embed = /** @type {HTMLTextAreaElement} */ (
    h("textarea", { id: "embed", readonly: true, rows: 5, spellcheck: "false", "data-part": "embed", focus: () => embed.select() })
  );
  const form = choice("embed-form", say("page-share-form"), ["element", "frame"], (form) => say("page-share-form-of", { form }), update);
  const shown = choice("embed-shown", say("page-share-shown"), ["plain", "unfolded", "all", "exercise", "sheet"], (shown) => say("page-share-shown-of", { shown }), update);
  const locked = choice("embed-locked", say("page-share-locked"), ["", "train", "elements", "all"], (locked) => say("page-share-locked-of", { locked }), update);
  const theme = choice("embed-theme", say("page-theme"), ["", "page", "light", "dark"], (theme) => say("page-share-theme-of", { theme }), update);
  const tongues = ["", ...Object.keys(LANGUAGES)];
  const tongue = choice("embed-language", say("page-language"), tongues, (code) => LANGUAGES[/** @type {import("../state/language.js").Language} */ (code)] ?? say("page-share-language"), update);
  const own = h("p", { class: "note" }, say("page-share-own", { most: MOST_CODE }));
  const kept = h("button", { class: "plain", type: "button", "data-part": "embed-file", click: () => saveTrain(desk.text, desk.info?.name ?? "") });
  const beside = h("p", { class: "note" });
  const file = h("div", {}, beside, h("p", { class: "row" }, kept));
  const saveSheet = () => openSheet.file && save(new Blob([`${JSON.stringify(openSheet.file, null, 2)}\n`], { type: "application/json" }), sheetName());
  const sheetKept = h("button", { class: "plain", type: "button", "data-part": "embed-sheet", click: saveSheet });
  const sheetBeside = h("p", { class: "note" });
  const sheet = h("div", {}, sheetBeside, h("p", { class: "row" }, sheetKept));
  const host = h("p", { class: "note", "data-part": "embed-host" });
  const linked = h(
    "div",
    { class: "linked" },
    h("label", { for: "link" }, say("page-share-link")),
    h("div", { class: "copy" }, link, copyButton(link)),
  );
  const more = h("a", { href: siteFile("embedding.html").href, target: "_blank", rel: "noopener" }, say("page-share-more"));
  panel.fill(
    h(
      "p",
      { class: "row" },
      pictureButton(desk, "section", say("page-share-section")),
      pictureButton(desk, "lever", say("page-share-lever")),
    ),
    linked,
    own,
    h(
      "div",
      { class: "linked" },
      h("label", { for: "embed" }, say("page-share-embed")),
      h("div", { class: "choices" }, ...[form, shown, locked, theme, tongue].map(({ node }) => node)),
      embed,
      file,
      sheet,
      host,
      h("p", { class: "row" }, copyButton(embed), more),
    ),
  );
  const root = /** @type {ShadowRoot} */ (panel.node.getRootNode());

  function update() {
    const { source, answer, info } = desk;
    if (!source || !answer || !info) return;
    const stem = "stem" in source ? source.stem : undefined;
    if (stem === undefined) updateOwn();
    else showLink({ stem });
    const isFrame = form.value === "frame";
    const name = `${slug(info.name) || "train"}.json`;
    file.hidden = stem !== undefined;
    kept.textContent = say("page-share-save", { file: name });
    beside.textContent = say("page-share-beside", { form: form.value, file: name });
    const asksSheet = shown.value === "sheet";
    sheet.hidden = !asksSheet;
    sheetKept.textContent = say("page-share-save", { file: sheetName() });
    sheetBeside.textContent = say("page-share-beside", { form: form.value, file: sheetName() });
    host.textContent = say("page-share-host", { form: form.value });
    const range = answer.range ?? undefined;
    const attributes = {
      scenario: stem,
      train: stem === undefined ? name : undefined,
      range,
      applied: range === undefined ? answer.applied.join() : undefined,
      exercise: asksSheet ? sheetName() : shown.value === "exercise" ? "scenario" : undefined,
      with: withNames(),
      locked: locked.value,
      theme: theme.value,
      language: tongue.value,
      speed: desk.speed,
      ...unusualCodes(desk),
    };
    embed.value = isFrame ? frameMarkup(attributes, info.name) : elementMarkup(attributes);
  }

  /** The file of the sheet that is open. */
  function sheetName() {
    return `${slug(openSheet.file?.title ?? "") || "sheet"}.json`;
  }

  /** What there is to be beside answer and drawings. */
  function withNames() {
    if (shown.value === "all") return "all";
    if (shown.value !== "unfolded") return undefined;
    const panels = /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll(".panel[open]:not([hidden])"));
    // This one is for whoever makes the page.
    const ids = [...panels].map(({ dataset }) => dataset.part ?? "").filter((id) => id !== panel.node.dataset.part);
    return ["ranges", ...ids].join();
  }

  /** @param {{ stem: string } | { train: string } | undefined} what */
  function showLink(what) {
    linked.hidden = !what;
    own.hidden = Boolean(what);
    if (what) link.value = new URL(fragmentOf(what, desk.answer?.applied ?? [], desk), pageAddress()).href;
  }

  /** The link to a train of the user's own holds all of it. */
  async function updateOwn() {
    const { text } = desk;
    const train = await packed(text).catch(() => undefined);
    const now = desk.source && "file" in desk.source && text === desk.text;
    if (now) showLink(train === undefined ? undefined : { train });
  }

  /** Exercises are offered where a sheet of them comes with the scenario. */
  async function offerExercises() {
    const { source } = desk;
    const entries = await listScenarios();
    if (source !== desk.source) return;
    const asks = source && "stem" in source && entries.some(({ stem, exercises }) => stem === source.stem && exercises);
    shown.offer("exercise", Boolean(asks));
    update();
  }
  /** The sheet that is open is offered by its title. */
  function offerSheet() {
    const { file } = openSheet;
    shown.offer("sheet", file !== undefined, file && say("page-share-sheet", { title: file.title }));
    update();
  }
  openSheet.addEventListener("sheet", offerSheet);
  offerSheet();
  // That a panel is unfolded is told to it alone, on its way down.
  root.addEventListener("toggle", update, { capture: true, signal });
  follow(desk, ["train"], offerExercises);
  follow(desk, ["answer", "speed", "torque", "units", "road", "assumptions", "look"], update);
}

/**
 * A list to choose from, with its name over it.
 * @param {string} id
 * @param {string} name
 * @param {string[]} values
 * @param {(value: string) => string} words
 * @param {() => void} change
 */
function choice(id, name, values, words, change) {
  const options = values.map((value) => h("option", { value }, words(value)));
  const select = /** @type {HTMLSelectElement} */ (h("select", { id, "data-part": id, change }, ...options));
  return {
    node: h("div", {}, h("label", { for: id }, name), h("span", { class: "select" }, select)),
    get value() {
      return select.value;
    },
    /** @param {string} value @param {boolean} offered @param {string} [words] what it is called now */
    offer(value, offered, words) {
      const option = options[values.indexOf(value)];
      option.hidden = !offered;
      if (words !== undefined) option.textContent = words;
      if (!offered && select.value === value) select.value = values[0];
    },
  };
}

/** The page that comes with the element, whichever page the element is in. */
function pageAddress() {
  return siteFile("index.html");
}

/**
 * @param {Desk} desk
 * @param {"section" | "lever"} drawing
 * @param {string} name
 */
function pictureButton(desk, drawing, name) {
  const take = () => takeSvg(desk, stageFigure(desk, drawing), true).catch((error) => desk.report(error));
  return h("button", { class: "plain", type: "button", "data-export": drawing, click: take }, name);
}

/** @param {HTMLInputElement | HTMLTextAreaElement} field */
function copyButton(field) {
  const button = h("button", { class: "plain", type: "button", click: copy }, say("page-share-copy"));
  return button;

  async function copy() {
    try {
      await navigator.clipboard.writeText(field.value);
      button.textContent = say("page-share-copied");
    } catch {
      // Without the clipboard the text is at least selected, ready for the user's own copy.
      field.select();
      button.textContent = say("page-share-selected");
    }
    setTimeout(() => (button.textContent = say("page-share-copy")), 2000);
  }
}
