/** More than one source or output: speeds and torques set by hand, and what follows from them. Free members of any train, too. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { HeldSources } from "./sources_held.js";
import { SourcesLevers } from "./sources_levers.js";
import { SourcesPlots } from "./sources_plots.js";
import { SourcesPorts } from "./sources_ports.js";
import { SourcesStage } from "./sources_stage.js";
import { SourcesTables } from "./sources_tables.js";

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, section, signal }) {
  const held = new HeldSources(desk);
  const levers = new SourcesLevers(desk, held, redraw, signal);
  const ports = new SourcesPorts(desk, held, signal);
  const tables = new SourcesTables(desk, signal);
  const plots = new SourcesPlots(desk, held, redraw, signal);
  const stage = new SourcesStage(desk, held, section, () => panel.node.scrollIntoView({ block: "start", behavior: "instant" }));
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
    const shown = panel.open && desk.isWhole && desk.info;
    const stand = shown ? held.ask((sources) => sources.stand()) : undefined;
    stage.show(stand, refusal);
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
    update();
  });
  draws(() => {
    if (!panel.open) return;
    stage.place();
    levers.draw();
    plots.draw();
  });
  const afresh = () => {
    refusal = "";
    update();
  };
  panel.toggled(() => {
    stage.again();
    // Folded, the stage is what it was.
    if (!panel.open) held.free();
    afresh();
  });
  follow(desk, ["train", "whole"], () => {
    stage.again();
    afresh();
  });
  // What is applied or tried ends what is shown; with several sources it comes back.
  follow(desk, ["answer", "preview"], () => {
    stage.gone();
    const decided = held.touched && !desk.preview && (held.ask((sources) => sources.stand())?.freedom ?? 0) < 2;
    if (decided) held.free();
    afresh();
  });
  follow(desk, ["speed", "units"], afresh);
  follow(desk, ["instant"], () => stage.isShown && desk.shownBy !== stage && stage.leave());
  signal.addEventListener("abort", () => held.free());
}

/**
 * What could be released or kept no longer, where there is little to choose.
 * @param {import("../engine/levertrain_whole.js").SourcesStand} stand
 */
function more({ freedom, elements, shafts }) {
  const moving = shafts.some(({ moves }) => moves);
  if (freedom > 1 && !moving) return say("page-sources-all-kept", { kept: shafts.filter(({ kept }) => kept).map(({ label }) => label).join(", ") });
  if (freedom > 1 || elements.length === 0) return "";
  return say("page-sources-release", { elements: elements.map(({ label }) => label).join(", ") });
}
