/** The top line: name, scenario picker, the user's own file, cautions, light and dark. */

import { NAME } from "../kit/before.js";
import { h, icon, unseen } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { language, LANGUAGES } from "../state/language.js";
import { lockable } from "../state/lockable.js";
import { CHOICES } from "../state/theme.js";
import { isolatedText } from "./isolation.js";

/** @typedef {import("../state/desk.js").Desk} Desk */

/** What the values of the picker's entries for the user's own files begin with; no stem does. */
const OWN_FILE = "file/";
/** The value of the entry for a train of no set. */
const EMPTY = "empty/";

/**
 * @param {Desk} desk
 * @param {import("../state/catalogue.js").Entry[]} entries
 * @param {() => import("../state/theme.js").Choice} theme what is chosen just now
 * @param {{ files: import("../state/kept_files.js").OwnFile[], pick(stem: string): void, pickFile(key: number): void, begin(): void, openFile(file: File): void, chooseTheme(choice: import("../state/theme.js").Choice): void, chooseLanguage?(code: string): void }} actions
 * @param {HTMLElement} cautions the button that shows the cautions
 * @param {boolean} landmarks whether landmarks and headline of the page are the element's to set
 */
export function header(desk, entries, theme, actions, cautions, landmarks) {
  const picker = /** @type {HTMLSelectElement} */ (
    h("select", { id: "scenario", "data-part": "scenario-picker", change: pick })
  );
  picker.append(...entries.map(({ stem, name }) => h("option", { value: stem }, name)), h("option", { value: EMPTY }, say("page-pick-empty")));

  const chooser = /** @type {HTMLInputElement} */ (
    h("input", { type: "file", accept: ".json,application/json", hidden: true, change: choose })
  );

  /** The entries of the user's own files, by their numbers. @type {Map<number, HTMLElement>} */
  const own = new Map();

  const node = h(
    landmarks ? "header" : "div",
    { class: "top", part: "top" },
    h(landmarks ? "h1" : "p", { class: "wordmark" }, icon("mark"), NAME),
    h(
      "div",
      { class: "picker" },
      h("label", { class: "picker-label", for: "scenario" }, say("page-scenario")),
      lockable(
        desk,
        "train",
        h("span", { class: "select" }, picker),
        h(
          "button",
          { class: "plain", type: "button", "data-part": "open-file", click: () => chooser.click() },
          say("page-open-file"),
        ),
        chooser,
      ),
    ),
    languageChoice(actions),
    h("div", { class: "top-end" }, cautions, themeChoice(desk, theme, actions)),
  );

  actions.files.forEach(({ name, gone }, key) => {
    if (!gone) list(key, name, name);
  });
  follow(desk, ["train"], () => {
    const { source, info } = desk;
    if (source && info && "file" in source) list(source.file, source.name, info.name);
    forget();
    restore();
  });
  // Another choice came to nothing.
  desk.addEventListener("message", restore);

  /**
   * Lists a file of the user's own.
   * @param {number} key
   * @param {string} file
   * @param {string} name of its train
   */
  function list(key, file, name) {
    const option = own.get(key) ?? h("option", { value: `${OWN_FILE}${key}` });
    // Of some trains of one name the files have numbers.
    const told = file.startsWith(`${name} `) ? file : name;
    option.textContent = say("page-own-file", { name: isolatedText(told) });
    if (!own.has(key)) picker.append(option);
    own.set(key, option);
  }

  /** Those that were deleted are listed no more, nor those that were mended elsewhere and opened again. */
  function forget() {
    actions.files.forEach(({ name, gone, changed }, key) => {
      const again = actions.files.some((file, later) => later > key && file.name === name && !file.gone);
      if (!gone && (changed || !again)) return;
      own.get(key)?.remove();
      own.delete(key);
    });
  }

  function pick() {
    const { value } = picker;
    if (value === EMPTY) actions.begin();
    else if (value.startsWith(OWN_FILE)) actions.pickFile(Number(value.slice(OWN_FILE.length)));
    else actions.pick(value);
  }

  function choose() {
    const file = chooser.files?.[0];
    // The same file can be chosen again after it was mended.
    chooser.value = "";
    if (file) actions.openFile(file);
  }

  /** The picker shows what is on screen. */
  function restore() {
    const { source } = desk;
    if (source) picker.value = "stem" in source ? source.stem : `${OWN_FILE}${source.file}`;
  }

  return node;
}

/**
 * @param {HTMLElement} cautions what the button shows and hides
 * @param {string} look
 */
export function cautionsButton(cautions, look) {
  const button = h(
    "button",
    {
      class: look,
      type: "button",
      "aria-expanded": "false",
      "aria-controls": cautions.id,
      "data-part": "cautions-button",
      click: () => show(cautions.hidden),
    },
    say("page-cautions"),
  );
  cautions.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    show(false);
    button.focus();
  });

  /** @param {boolean} visible */
  function show(visible) {
    cautions.hidden = !visible;
    button.setAttribute("aria-expanded", String(visible));
  }
  return button;
}

/**
 * @param {Desk} desk
 * @param {() => import("../state/theme.js").Choice} theme
 * @param {{ chooseTheme(choice: import("../state/theme.js").Choice): void }} actions
 */
function themeChoice(desk, theme, actions) {
  const buttons = CHOICES.map((choice) => {
    const title = say("page-theme-choice", { choice });
    return h(
      "button",
      {
        type: "button",
        title,
        "aria-pressed": "false",
        "data-theme-choice": choice,
        click: () => actions.chooseTheme(choice),
      },
      icon(choice),
      unseen(title),
    );
  });
  const update = () => buttons.forEach((button, at) => button.setAttribute("aria-pressed", String(CHOICES[at] === theme())));
  desk.addEventListener("look", update);
  update();
  return h("div", { class: "joined themes", role: "group", "aria-label": say("page-theme") }, ...buttons);
}

/**
 * Where the page is the element's own; in another it speaks that page's language.
 * @param {{ chooseLanguage?(code: string): void }} actions
 */
function languageChoice({ chooseLanguage }) {
  if (!chooseLanguage) return null;
  // The other ones: what is spoken is plain to see.
  const others = Object.entries(LANGUAGES).filter(([code]) => code !== language());
  const buttons = others.map(([code, name]) =>
    h(
      "button",
      {
        class: "plain",
        type: "button",
        title: name,
        lang: code,
        "data-language": code,
        click: () => chooseLanguage(code),
      },
      h("span", { "aria-hidden": "true" }, code.toUpperCase()),
      unseen(name),
    ),
  );
  return h("div", { class: "languages", role: "group", "aria-label": say("page-language") }, ...buttons);
}
