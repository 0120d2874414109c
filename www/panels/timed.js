/** A shift as it happens: commands that are dragged in time, and what speeds, torques and heat make of them. */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { lockable } from "../state/lockable.js";
import { unitOf } from "../state/units.js";
import { TimedChoice } from "./timed_choice.js";
import { TimedConditions } from "./timed_conditions.js";
import { TimedDrawing } from "./timed_drawing.js";
import { TimedFigures, phaseName, withUnit } from "./timed_figures.js";
import { timeWords } from "./timed_grip.js";
import { TimedMap } from "./timed_map.js";
import { TimedRun } from "./timed_run.js";
import { TimedStage } from "./timed_stage.js";

/** @typedef {import("../engine/levertrain_whole.js").TimedReading} Reading */

/** The step of the time that is read, in seconds. */
const STEP = 0.005;

/**
 * @param {import("../kit/panel.js").Panel} panel
 * @param {import("./registry.js").Surroundings} surroundings
 */
export function fill(panel, { desk, redraw, draws, section, signal }) {
  const run = new TimedRun(desk);
  const choice = new TimedChoice(desk, begin);
  const conditions = new TimedConditions(desk, run, update);
  const picture = new TimedDrawing(desk, run, { changed: update, read }, redraw, signal);
  const figures = new TimedFigures(desk, signal);
  const map = new TimedMap(desk, run, update, redraw, signal);
  const stage = new TimedStage(desk, run, section, read, () => {
    picture.node.scrollIntoView({ block: "start", behavior: "instant" });
    onStage.focus({ preventScroll: true });
  });
  section.closest(".body")?.append(stage.node);
  const refused = h("p", { class: "timed-verdict", role: "status", "data-part": "timed-refused", hidden: true });
  const faulty = h("ul", { class: "find-problems", "data-part": "timed-faulty" });
  const values = h("p", { class: "timed-values", "data-part": "timed-values" });
  const slider = /** @type {HTMLInputElement} */ (
    h("input", { type: "range", id: "timed-time", min: 0, step: STEP, "data-part": "timed-time", input: () => read(Number(slider.value)) })
  );
  const all = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-part": "timed-all", change: showAll }));
  const button = (/** @type {string} */ part, /** @type {() => void} */ click, /** @type {string} */ words) =>
    h("button", { class: "plain", type: "button", "data-part": part, click }, words);
  const onStage = button("timed-on-stage", () => stage.start(), say("page-timed-on-stage"));
  const undo = button("timed-undo", takeBack, say("page-timed-undo"));
  const keep = button("timed-keep", () => keepIt(true), say("page-timed-keep"));
  const drop = button("timed-drop", () => keepIt(false), say("page-timed-drop-kept"));
  const found = h(
    "div",
    { class: "timed-found" },
    figures.verdict,
    picture.node,
    h("div", { class: "timed-scrub" }, slider),
    h("p", { class: "timed-time-row" }, h("label", { for: slider.id }, say("page-timed-time")), values),
    h(
      "p",
      { class: "row timed-actions" },
      onStage,
      undo,
      keep,
      drop,
      button("timed-usual", begin, say("page-timed-usual")),
      h("label", { class: "control check" }, all, h("span", {}, say("page-timed-all"))),
    ),
    h("div", { class: "timed-tables" }, figures.node, map.node),
  );
  panel.fill(
    h("p", { class: "note" }, say("page-timed-note")),
    lockable(desk, "settings", h("div", { class: "timed-choice" }, ...choice.nodes), conditions.node),
    faulty,
    refused,
    found,
    figures.known,
    h("p", { class: "timed-caution", "data-part": "timed-caution" }, say("page-timed-caution")),
  );
  let time = 0;
  /** The text of the train that it is about, and what it was begun with. */
  let about = "";
  let begun = "";

  function begin() {
    if (!desk.isWhole) return;
    stage.end();
    const [from, to] = [choice.applied("from"), choice.applied("to")];
    begun = JSON.stringify([from, to]);
    run.begin(from, to);
    conditions.suit();
    const wrong = run.ask((shift) => shift.problems()) ?? [];
    faulty.replaceChildren(...wrong.map(({ place, problem, fix }) => h("li", {}, say("problem", { place, what: problem, fix }))));
    // Where something begins to happen.
    time = run.ask((shift) => shift.report()?.phases.find(({ phase }) => phase === "torque")?.begin) ?? 0;
    update();
  }

  /** Shows the train on the desk while the panel is unfolded. */
  function build() {
    if (!panel.open || !desk.isWhole || !desk.info) return;
    // An edit, also one of the name, leaves what is commanded.
    const other = about !== desk.text && !desk.editing;
    about = desk.text;
    if (other) choice.reset();
    else choice.offer();
    const now = JSON.stringify([choice.applied("from"), choice.applied("to")]);
    if (other || now !== begun) {
      begin();
      return;
    }
    run.follow();
    update();
  }

  function update() {
    if (!panel.open || !desk.isWhole || !desk.info) return;
    const known = run.ask((shift) => ({ report: shift.report(), kept: shift.keptReport(), plan: shift.plan(), refusal: shift.refusal() }));
    if (!known) return;
    const { report, kept, plan, refusal } = known;
    const name = say("page-shifts-pair", { from: choice.label("from"), to: choice.label("to") });
    found.hidden = !report;
    refused.hidden = Boolean(report);
    refused.textContent = refusal ? say("page-timed-refused", { why: refusal }) : "";
    conditions.show(plan);
    picture.describe(choice.label("from"), choice.label("to"));
    stage.about(name, plan.until);
    if (!report) {
      stage.end();
      return;
    }
    figures.show(report, kept, plan);
    map.show(plan);
    drop.hidden = !kept;
    // It keeps the focus of whoever has just pressed it.
    undo.setAttribute("aria-disabled", String(!run.ask((shift) => shift.canUndo())));
    slider.max = String(plan.until);
    read(Math.min(time, plan.until));
  }

  /** @param {number} seconds */
  function read(seconds) {
    time = seconds;
    picture.time = seconds;
    slider.value = String(seconds);
    const reading = run.ask((shift) => shift.reading(seconds));
    if (reading) {
      const words = readingWords(reading);
      values.textContent = words;
      slider.setAttribute("aria-valuetext", words);
    }
    picture.changed();
    if (stage.isShown) stage.read(seconds);
  }

  /** @param {Reading} reading */
  function readingWords({ phase, speeds, output, slip_power: power }) {
    const { info, units } = desk;
    const at = (/** @type {string | undefined} */ id) => info?.shafts.findIndex((shaft) => shaft.id === id) ?? -1;
    const [speed, torque, watts] = /** @type {const} */ (["speed", "torque", "power"]).map((kind) => unitOf(units, kind));
    const words = {
      time: timeWords(time),
      input: withUnit(speeds[at(info?.input)] ?? 0, speed),
      output: withUnit(speeds[at(info?.output)] ?? 0, speed),
      torque: withUnit(output, torque),
      power: withUnit(power, watts),
    };
    return phase ? say("page-timed-reading-phase", { ...words, phase: phaseName(phase) }) : say("page-timed-reading", words);
  }

  /** Commands what was commanded before the last change. */
  function takeBack() {
    if (run.undo()) update();
  }

  // Within the panel the last change is one of the timing; elsewhere it is one of the train.
  panel.node.addEventListener("keydown", (event) => {
    const { key, ctrlKey, metaKey, shiftKey, altKey, target } = event;
    if (!(ctrlKey || metaKey) || shiftKey || altKey || key.toLowerCase() !== "z" || event.defaultPrevented) return;
    // What is typed in a field is taken back there.
    if (target instanceof HTMLInputElement && !["checkbox", "range"].includes(target.type)) return;
    if (found.hidden || desk.isLocked("settings")) return;
    event.preventDefault();
    takeBack();
  });

  /** @param {boolean} keeps */
  function keepIt(keeps) {
    run.ask((shift) => shift.keep(keeps));
    update();
    if (!keeps) keep.focus({ preventScroll: true });
  }

  function showAll() {
    picture.all = all.checked;
    picture.changed();
  }

  draws(() => {
    if (!panel.open || found.hidden) return;
    picture.draw();
    map.draw();
  });
  panel.toggled(() => {
    if (panel.open) {
      build();
      return;
    }
    stage.end();
    map.rest();
  });
  follow(desk, ["train", "whole"], build);
  // What is applied ends what is shown of the shift.
  follow(desk, ["answer", "preview"], () => stage.isShown && stage.gone());
  follow(desk, ["instant"], () => stage.isShown && desk.shownBy !== stage && stage.gone());
  follow(desk, ["units"], update);
  signal.addEventListener("abort", () => run.free());
}
