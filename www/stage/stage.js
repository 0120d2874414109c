/**
 * The stage: the half-section drawing with its switches, the lever diagram right under it, on one
 * axis and in one width. Both are drawn for the letters of a laptop and shown as much larger as the
 * letters of the page are, unless the train would then be wider than its place. Where it is wider all the
 * same, both scroll as one, or are shown whole and small.
 */

import { h } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { paint, shaftAt } from "./drawings.js";
import { growthIn } from "./growth.js";
import { handles } from "./handles.js";
import { cautionOf } from "./layout_caution.js";
import { nearer } from "./nearer.js";
import { WIDTH as PAPER_WIDTH } from "./on_paper.js";
import { wholeSwitch } from "./whole.js";

/** @typedef {import("../state/desk.js").Desk} Desk */

/** Name of the measurement of a drag: script time from the pointer event to finished drawings. */
const DRAG_MEASURE = "levertrain-drag";

/** The browser never forgets a measurement by itself. */
const MEASURES_KEPT = 1000;

/** Lines of less than so many pixels of the screen are drawn with twice as many, so that they stay fine. */
const FINE = 1.5;
/** A drawing of more pixels than these is not made finer: every frame of it would take long. */
const FINE_PIXELS = 2e6;
/** What is hardly wider than its place is shown so much smaller, rather than cut off. */
const NEARLY = 0.95;
/** More cannot be seen, and the engine refuses it. */
const MOST_SCALE = 8;
/** More pixels than these in a drawing are more than a browser likes to keep. */
const MOST_PIXELS = 12e6;

/**
 * @param {Desk} desk
 * @param {{ drawn(): void, drawnAll(): void, redraw(): void, alsoDraw(): void }} page what to do after
 *   each drawing and after those of all, how to ask for one, and what else is drawn in the same frame
 * @param {AbortSignal} signal
 */
export function stage(desk, page, signal) {
  const section = canvas("section");
  const lever = canvas("lever");
  const switches = handles(desk, drawNow);
  const holder = h("div", { class: "section" }, section, switches.node);
  const sheet = h("div", { class: "sheet" }, holder, lever);
  const scroller = h("div", { class: "stage", part: "stage", "data-part": "stage", role: "group" }, sheet);

  const whole = wholeSwitch(scroller, fit);
  const near = nearer(scroller, fit);
  /** How much larger both are shown than they are drawn. */
  let zoom = 1;

  /** Whether all gears had one module when both were fitted last. */
  let fitted = false;

  /** What both were fitted to last, and how wide that was. */
  let room = "";
  let width = 0;
  /** @param {number} across */
  const roomOf = (across) => `${across} ${growthIn(scroller)} ${devicePixelRatio}`;

  /** Which of them are seen. */
  const seen = { section: true, lever: true };

  /** @param {string[]} views */
  function show(views) {
    seen.section = views.includes("section");
    seen.lever = views.includes("lever");
    holder.hidden = !seen.section;
    lever.hidden = !seen.lever;
    whole.frame.hidden = !seen.section && !seen.lever;
    fit();
  }

  /** Fits both drawings again where there is other room than there was. */
  function refit() {
    if (roomOf(scroller.clientWidth) !== room) fit();
  }

  /** Whether something else is drawn in their place. */
  let resting = false;

  /** @param {boolean} now */
  function rest(now) {
    resting = now;
    fit();
  }

  /** Whether they are laid out for paper, where letters are the larger the less wide a drawing is. */
  let onPaper = false;

  /** @param {boolean} now */
  function print(now) {
    onPaper = now;
    fit();
  }
  addEventListener("beforeprint", () => print(true), { signal });
  addEventListener("afterprint", () => print(false), { signal });

  /** Fits both drawings to the width there is. */
  function fit() {
    fitTo(onPaper ? PAPER_WIDTH : scroller.clientWidth);
  }

  /**
   * An edit is drawn before what else it changes on the page is laid out; should that leave another width, the observer
   * tells of it.
   */
  function fitTrain() {
    if (desk.editing && width > 0) fitTo(width);
    else fit();
  }

  /** @param {number} available */
  function fitTo(available) {
    if (resting || !desk.info || available === 0) return;
    const growth = onPaper ? 1 : growthIn(scroller);
    width = available;
    room = roomOf(available);
    fitted = desk.look.one_module;
    const size = desk.fit(available / growth);
    if (!size) return;
    const filled = available / size.width;
    const wide = filled < NEARLY;
    const grown = wide ? 1 : Math.min(growth, filled);
    const usual = wide && whole.on() ? filled : grown;
    const factor = near.factor();
    zoom = usual * factor;
    const fine = grown * factor * devicePixelRatio;
    const [upper, lower] = [seen.section ? size.sectionHeight : 0, seen.lever ? size.leverHeight : 0];
    const area = size.width * Math.max(upper, lower);
    const finer = Math.min(2 * fine, Math.sqrt(FINE_PIXELS / area));
    const most = factor > 1 ? Math.sqrt(MOST_PIXELS / area) : MOST_SCALE;
    const scale = Math.min(fine < FINE ? Math.max(fine, finer) : fine, MOST_SCALE, most);
    if (scale !== desk.look.scale) desk.setLook({ scale });
    // For whoever wants to know where in the drawings a point is.
    scroller.dataset.zoom = String(zoom);
    sheet.style.width = `${size.width * zoom}px`;
    // On paper both keep their shape in whatever room there is.
    whole.frame.style.setProperty("--tall", String((upper + lower) / size.width));
    resize(section, size.width, size.sectionHeight, scale, zoom);
    resize(lever, size.width, size.leverHeight, scale, zoom);
    whole.update(wide, factor > 1);
    near.update(wide, (upper + lower) * usual);
    switches.place(zoom);
    draw();
    // After the drawings: what lies on them can wait for them.
    holder.dispatchEvent(new Event("fitted"));
  }

  /** @param {boolean} changed whether both drawings have, or only what else is drawn */
  function draw(changed = true) {
    if (resting || !desk.info) return;
    if (changed) {
      if (seen.section) paint(desk, "section", section);
      if (seen.lever) paint(desk, "lever", lever);
      page.drawnAll();
    }
    page.alsoDraw();
    page.drawn();
  }

  /**
   * Draws in the handling of the event itself, not in a later frame.
   * @param {Event} event
   */
  function drawNow(event) {
    // While a pack is on its way only the half-section changes.
    if (desk.preview && desk.preview === previewed) {
      paint(desk, "section", section);
      page.drawn();
    } else {
      draw();
      page.redraw();
    }
    previewed = desk.preview;
    const start = Math.max(event.timeStamp, handlingSince);
    measured += 1;
    if (measured % MEASURES_KEPT === 0) performance.clearMeasures(DRAG_MEASURE);
    performance.measure(DRAG_MEASURE, { start, end: performance.now() });
  }

  // While the drawing is bettered its parts may move, but not those that somebody has hold of.
  desk.mending.addEventListener("change", () => holder.toggleAttribute("data-mends", desk.mending.active));
  holder.addEventListener("pointerdown", () => (desk.mending.held = true), true);
  const letGo = () => (desk.mending.held = false);
  for (const name of ["pointerup", "pointercancel"]) addEventListener(name, letGo, { capture: true, signal });

  let measured = 0;
  /** @type {import("../state/desk.js").Preview | undefined} */
  let previewed;
  // An event may have waited in the queue; script time starts when its handling does.
  let handlingSince = 0;
  for (const name of ["pointermove", "pointerup", "click"]) {
    switches.node.addEventListener(name, () => (handlingSince = performance.now()), true);
  }

  for (const [drawing, node] of /** @type {const} */ ([["section", section], ["lever", lever]])) {
    const point = (/** @type {PointerEvent} */ event) => {
      const shaft = shaftAt(desk, drawing, event.offsetX / zoom, event.offsetY / zoom);
      desk.light(shaft);
      // What its colour, its arrows and its hatching mean is said where they stand.
      const words = signWords(desk, shaft);
      if (node.title !== words) node.title = words;
    };
    node.addEventListener("pointermove", point);
    node.addEventListener("pointerdown", point);
    // A finger that is lifted leaves what it pointed at lit.
    node.addEventListener("pointerleave", (event) => {
      if (event.pointerType !== "touch") desk.light(undefined);
    });
  }

  // Moved to another screen, or zoomed, the canvases need other pixels in the same size.
  function watchScale() {
    const screen = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    screen.addEventListener(
      "change",
      () => {
        fit();
        watchScale();
      },
      { once: true, signal },
    );
  }
  watchScale();

  // In the next frame: at once, it would be another change of size in the same one, which browsers report as an error.
  const observer = new ResizeObserver(() => requestAnimationFrame(refit));
  observer.observe(scroller);
  // The letters grow with the height of the window too.
  addEventListener("resize", refit, { signal });
  signal.addEventListener("abort", () => observer.disconnect());

  function describe() {
    const train = desk.info?.name ?? "";
    const caution = cautionOf(desk);
    const drawn = caution
      ? say("page-drawing-section-caution", { train, caution })
      : say("page-drawing-section", { train });
    section.setAttribute("aria-label", drawn);
    lever.setAttribute("aria-label", say("page-drawing-lever-said", { train }));
  }
  // To one scale they may be higher.
  desk.addEventListener("look", () => {
    if (desk.look.one_module !== fitted) fit();
  });
  follow(desk, ["train", "look"], describe);
  follow(desk, ["train"], fitTrain);
  desk.addEventListener("pin", fit);
  /** @param {"section" | "lever"} drawing */
  const shows = (drawing) => seen[drawing];
  return { node: whole.frame, whole: whole.button, size: near.node, section: holder, draw, rest, show, shows };
}

/** What the signs of a shaft say of it, by how it moves. */
const SIGNS = {
  held: "page-sign-held",
  forward: "page-sign-forward",
  backward: "page-sign-backward",
  free: "page-sign-free",
  fights: "page-sign-fights",
};

/** @param {Desk} desk @param {string | undefined} id of a shaft */
function signWords({ answer, shownBy }, id) {
  if (shownBy) return "";
  const at = answer?.shafts.findIndex((shaft) => shaft.id === id) ?? -1;
  return answer && at >= 0 ? say(SIGNS[answer.motions[at]], { shaft: answer.shafts[at].label }) : "";
}

/** @param {string} drawing */
function canvas(drawing) {
  const node = h("canvas", { role: "img", "data-drawing": drawing });
  return /** @type {HTMLCanvasElement} */ (/** @type {unknown} */ (node));
}

/**
 * Gives a canvas its size on the page and its pixels; setting them clears it, so only on a change.
 * @param {HTMLCanvasElement} canvas
 * @param {number} width what it is drawn for
 * @param {number} height the same
 * @param {number} scale canvas pixels to what it is drawn for
 * @param {number} zoom CSS pixels to what it is drawn for
 */
export function resize(canvas, width, height, scale, zoom) {
  const [across, down] = [Math.round(width * scale), Math.round(height * scale)];
  canvas.style.width = `${width * zoom}px`;
  canvas.style.height = `${height * zoom}px`;
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
}
