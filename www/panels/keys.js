/** The list of all keys. */

import { h } from "../kit/dom.js";
import { table } from "../kit/table.js";
import { say } from "../kit/words.js";

/** What keys do, by where: each row a place, its keys and what they do. */
const KEYS = /** @type {const} */ ([
  ["page-keys-anywhere", [["?", "page-keys-list"], ["Esc", "page-keys-back"], ["F8", "page-keys-class-begin"]]],
  ["page-keys-ranges", [["← → ↑ ↓", "page-keys-next-range"], ["1 … 9", "page-keys-digit"], ["0", "page-keys-release"]]],
  ["page-keys-switches", [["← → ↑ ↓", "page-keys-next"], ["Space", "page-keys-toggle"], ["1 … 9", "page-keys-digit"], ["0", "page-keys-release"]]],
  ["page-keys-drawings", [["+ −", "page-keys-size"], ["← → ↑ ↓", "page-keys-pan"]]],
  ["page-keys-parts", [["← → ↑ ↓", "page-keys-next-part"], ["Enter", "page-keys-open"], ["Ctrl Z", "page-keys-undo"], ["Ctrl Y", "page-keys-redo"]]],
  ["page-keys-by-hand", [["↑ ↓", "page-keys-turn"], ["PageUp PageDown", "page-keys-turn-far"], ["Home", "page-keys-turn-rest"]]],
  ["page-keys-timed", [["← →", "page-keys-ramp"], ["PageDown PageUp", "page-keys-ramp-far"], ["Home", "page-keys-ramp-home"], ["Ctrl Z", "page-keys-timed-undo"]]],
  ["page-keys-class", [["→ Space PageDown ← PageUp", "page-keys-class-next"], ["↓ ↑", "page-keys-class-point"], ["Enter", "page-keys-class-keep"], ["ratio words numbers all", "page-keys-class-hide"], ["steps", "page-keys-class-steps"]]],
]);

/** Keys that are called by a word. @type {Record<string, string>} */
const CALLED = { Esc: "page-key-escape", Space: "page-key-space", Enter: "page-key-enter", PageDown: "page-key-page-down", PageUp: "page-key-page-up", Ctrl: "page-key-control", Z: "page-key-z", Y: "page-key-y" };

/** Keys of the view for a class, each a letter of what it is about. */
const IN_CLASS = ["ratio", "words", "numbers", "all", "steps"];

/** What a key is called. @param {string} key */
function named(key) {
  if (IN_CLASS.includes(key)) return say("page-class-key", { part: key });
  return key in CALLED ? say(CALLED[key]) : key;
}

/** @param {import("../kit/panel.js").Panel} panel */
export function fill(panel) {
  const { node, body } = table(say("page-panel-keys"), [say("page-keys-key"), say("page-keys-does")], []);
  for (const [place, keys] of KEYS) {
    body.append(h("tr", {}, h("th", { scope: "colgroup", colspan: 2 }, say(place))));
    for (const [key, does] of keys) {
      const names = key.split(" ").flatMap((name) => [" ", h("kbd", {}, named(name))]);
      body.append(h("tr", {}, h("td", {}, ...names.slice(1)), h("td", {}, say(does))));
    }
  }
  panel.fill(node);
}
