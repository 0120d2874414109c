/** More than one source or output: speeds and torques set by hand, and what follows from them. Free members of any train, too. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { HeldSources } from "./sources_held.js";
import { SourcesLevers } from "./sources_levers.js";
import { SourcesPlots } from "./sources_plots.js";
import { SourcesPorts } from "./sources_ports.js";
import { SourcesTables } from "./sources_tables.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, signal }) {
  const held = new HeldSources(desk);
  const levers = new SourcesLevers(desk, held, redraw, signal);
  const ports = new SourcesPorts(desk, held);
  const tables = new SourcesTables(desk, signal);
  const plots = new SourcesPlots(desk, held, redraw, signal);
  const words = h("p", { class: "sources-words", "data-part": "sources-words" });
  // Only what was refused is spoken: a change of the train is said on the stage.
  const refused = h("p", { class: "source-beyond", role: "status", "data-part": "sources-refused" });
  const faults = h("ul", { class: "note", hidden: true, "data-part": "sources-faults" });
  panel.fill(
    h("p", { class: "note" }, say("page-sources-note")),
    faults,
    words,
    refused,
    levers.node,
    ports.node,
    tables.node,
    plots.node,
    h("p", { class: "note" }, say("page-sources-caution")),
  );
  /** What was refused last, until something turns. */
  let refusal = "";

  function update() {
    if (!panel.open || !desk.isWhole || !desk.info) return;
    const stand = held.ask((sources) => sources.stand());
    if (!stand) return;
    const wrong = held.ask((sources) => sources.faults()) ?? [];
    faults.hidden = wrong.length === 0;
    faults.replaceChildren(...wrong.map((text) => h("li", {}, text)));
    const given = stand.shafts.filter((shaft) => shaft.given).map(({ label }) => label);
    const said = [say("page-sources-freedom", { count: stand.freedom, given: given.join(", ") }), more(stand)].filter(Boolean).join(" ");
    if (words.textContent !== said) words.textContent = said;
    if (refused.textContent !== refusal) refused.textContent = refusal;
    levers.show(stand);
    ports.show(stand);
    tables.show(stand);
    plots.show(stand);
  }

  held.addEventListener("change", () => {
    refusal = "";
    update();
  });
  held.addEventListener("refused", (event) => {
    const { shaft, by } = /** @type {CustomEvent<{ shaft: string, by: string[] }>} */ (event).detail;
    const stand = held.ask((sources) => sources.stand());
    const label = (/** @type {string} */ id) => stand?.shafts.find((known) => known.id === id)?.label ?? id;
    refusal = by.length
      ? say("page-sources-decided", { name: label(shaft), by: by.map(label).join(", ") })
      : say("page-sources-held", { name: label(shaft) });
    refused.textContent = refusal;
  });
  draws(() => {
    if (!panel.open) return;
    levers.draw();
    plots.draw();
  });
  const afresh = () => {
    refusal = "";
    update();
  };
  panel.toggled(afresh);
  follow(desk, ["train", "answer", "units", "whole"], afresh);
  signal.addEventListener("abort", () => held.free());
}

/**
 * What could be released, where that leaves little to choose.
 * @param {import("../engine/levertrain_whole.js").SourcesStand} stand
 */
function more({ freedom, elements }) {
  if (freedom > 1 || elements.length === 0) return "";
  return say("page-sources-release", { elements: elements.map(({ label }) => label).join(", ") });
}
