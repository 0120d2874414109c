/** The sheets of other trains than the one on stage: said, that nobody thinks them lost, and at hand. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";

/** Most of them that are offered. */
const MOST = 3;

/** What a train is known by, so that its sheet is found again. @param {import("../state/desk.js").Desk} desk */
export function keyOf({ source }) {
  if (!source) return "";
  return "stem" in source ? `scenario ${source.stem}` : `file ${source.name}`;
}

/**
 * @param {import("./kept_sheets.js").KeptSheets} kept
 * @param {string} key of the train on stage
 * @param {import("../state/kept_files.js").Files} files
 * @param {Map<string, string>} names what the scenarios are called, by their stems
 * @param {() => void} before what is done before another train is opened
 */
export function asideRows(kept, key, files, names, before) {
  const reached = kept.others(key).flatMap(([key, sheet]) => {
    const way = wayTo(key, files, names);
    return way ? [{ sheet, ...way }] : [];
  });
  return reached.slice(0, MOST).map(({ sheet, train, open }) => {
    const named = sheet.title.trim();
    const title = named || say("page-exercise-untitled", { train });
    const words = say("page-exercise-aside", { title, train, named: named ? "yes" : "no", count: sheet.walk.length + sheet.tasks.length });
    const click = () => {
      before();
      open();
    };
    const button = h("button", { class: "plain", type: "button", "data-part": "exercise-again", "aria-label": say("page-exercise-again-of", { title }), click }, say("page-exercise-again"));
    return h("p", { class: "note" }, `${words} `, button);
  });
}

/**
 * What a train is called, and what brings it on stage; nothing where it is not at hand any more.
 * @param {string} key
 * @param {import("../state/kept_files.js").Files} files
 * @param {Map<string, string>} names
 */
function wayTo(key, files, names) {
  const [, kind, name] = /^(scenario|file) (.*)$/s.exec(key) ?? [];
  const train = names.get(name);
  if (kind === "scenario") return train === undefined ? undefined : { train, open: () => files.show({ stem: name }) };
  const at = files.files.findIndex((file) => file.name === name && !file.gone);
  return kind === "file" && at >= 0 ? { train: name, open: () => files.pick(at) } : undefined;
}
