/** Fault finding: what faults make of the ranges, and which faults explain what was observed. */

import { h } from "../kit/dom.js";
import { Folds } from "../kit/folds.js";
import { say } from "../kit/words.js";
import { carried, carries } from "../state/carried.js";
import { follow } from "../state/follow.js";
import { Explaining } from "./faults_explain.js";
import { Effects } from "./faults_effects.js";
import { Searching } from "./faults_search.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {{ desk: import("../state/desk.js").Desk, signal: AbortSignal }} surroundings
 */
export function fill(panel, { desk, signal }) {
  const searching = new Searching(desk);
  const effects = new Effects((places) => searching.ask((search) => search.becomes(Uint32Array.from(places))));
  const explaining = new Explaining({
    observe,
    apply: ({ applied }) => desk.apply(applied),
    pick: (faults) => {
      effects.pick(faults);
      effects.node.scrollIntoView({ block: "nearest" });
    },
  });
  panel.fill(
    h("div", { class: "faults" }, effects.node, explaining.node),
    h("p", { class: "note" }, say("page-faults-model")),
    h("p", { class: "faults-caution", "data-part": "faults-caution" }, say("page-faults-caution")),
  );

  /** The text of the train that is shown. @type {string | undefined} */
  let shown;
  /**
   * What was picked, observed and unfolded in another language.
   * @type {{ picked: string[], observed: [string, string][], reasons: string[], lists: string[] } | undefined}
   */
  let before = carried("faults");
  carries("faults", () => (shown === undefined ? before : { picked: effects.picked, observed: explaining.kept, reasons: effects.folds.open, lists: explaining.folds.open }), signal);

  /** Shows the train on the desk while the panel is unfolded. */
  function build() {
    if (!panel.open) {
      searching.rest();
      return;
    }
    const list = shown === desk.text ? undefined : searching.ask((search) => search.list());
    if (list) {
      shown = desk.text;
      if (before) {
        effects.picked = before.picked;
        explaining.kept = before.observed;
        effects.folds = new Folds(before.reasons);
        explaining.folds = new Folds(before.lists);
        before = undefined;
      }
      const oneWays = desk.info?.elements.some(({ kind }) => kind === "one-way") ?? false;
      effects.show(list, oneWays);
      explaining.show(list, oneWays);
    }
    observe(explaining.observed);
  }

  /** @param {string[]} observed */
  function observe(observed) {
    searching.rest();
    if (!observed.some((word) => word !== "" && word !== "right")) return;
    const tell = (/** @type {number} */ part) => explaining.tell(searching.ask((search) => search.explain(observed)), part);
    searching.complete(tell).catch((error) => desk.report(error));
  }

  panel.toggled(build);
  follow(desk, ["train", "whole"], () => {
    if (!desk.editing && shown !== desk.text) {
      effects.clear();
      explaining.clear();
    }
    build();
  });
  signal.addEventListener("abort", () => searching.free());
}
