/** Taking figures and tables away: as pictures, as files, and by the clipboard. */

import { picture } from "../kit/picture.js";
import { csv, fieldsOf, markup, tabbed } from "../kit/spreadsheet.js";
import { save, slug } from "../kit/save.js";
import { say } from "../kit/words.js";
import { shownWords } from "./answer.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../kit/take.js").Offers} Offers */

/** Pixels of a picture to a CSS pixel: enough for a wall and for print. */
const FINE = 3;
/** The drawing that what is pinned stands in. */
const LEVER = "lever";
/** Most pixels of a picture either way. */
const MOST_PIXELS = 8192;

/**
 * How a figure is made into a file where the sandbox alone does not know: as the text of an SVG file, and painted.
 * @typedef {{ svg(light: boolean): string | undefined, paint(canvas: HTMLCanvasElement, scale: number, light: boolean): void }} Own
 */

/**
 * What a figure is: the drawing as the engine knows it, its name, its title, and its size in CSS pixels.
 * @typedef {{ subject: string, what: string, title: string, width: number, height: number, own?: Own }} Figure
 */

/** @type {WeakMap<HTMLCanvasElement, Own>} */
const OWN = new WeakMap();

/**
 * Tells how the figure on a canvas is made into a file.
 * @param {HTMLCanvasElement} canvas
 * @param {Own} own
 */
export function tellFigure(canvas, own) {
  OWN.set(canvas, own);
}

/**
 * A figure of the stage.
 * @param {Desk} desk
 * @param {"section" | "lever"} drawing
 * @returns {Figure}
 */
export function stageFigure(desk, drawing) {
  const train = desk.info?.name ?? "";
  const { width = 0, sectionHeight = 0, leverHeight = 0 } = desk.sizes ?? {};
  if (drawing === "section") {
    const title = say("page-drawing-section", { train });
    return { subject: drawing, what: say("page-take-section"), title, width, height: sectionHeight };
  }
  const title = say("page-drawing-lever", { train });
  return { subject: drawing, what: say("page-take-lever"), title, width, height: leverHeight };
}

/**
 * The figure that a canvas in a panel shows.
 * @param {Desk} desk
 * @param {HTMLCanvasElement} canvas
 * @returns {Figure}
 */
function panelFigure(desk, canvas) {
  const { subject = "", drawing = "" } = canvas.dataset;
  const { scale } = desk.look;
  const names = { flow: say("page-panel-flow"), operating: say("page-take-operating"), shifts: say("page-panel-shifts"), "in-time": say("page-panel-timed"), timings: say("page-timed-map") };
  const what = names[/** @type {keyof typeof names} */ (drawing)] ?? canvas.getAttribute("aria-label") ?? drawing;
  const title = say("page-take-titled", { what, train: desk.info?.name ?? "" });
  return { subject, what, title, width: canvas.width / scale, height: canvas.height / scale, own: OWN.get(canvas) };
}

/**
 * What can be taken of what stands in a panel and shows.
 * @param {Desk} desk
 * @param {HTMLElement} panel
 * @returns {Offers[]}
 */
export function offersIn(desk, panel) {
  const found = /** @type {NodeListOf<HTMLElement>} */ (panel.querySelectorAll("table, canvas"));
  const shown = [...found].filter((node) => node.checkVisibility?.() ?? true);
  return shown.flatMap((node) => {
    if (!(node instanceof HTMLCanvasElement)) return [tableOffers(desk, node)];
    return node.dataset.subject ? [figureOffers(desk, panelFigure(desk, node))] : [];
  });
}

/**
 * A figure in light colours, and as it is shown where these are others.
 * @param {Desk} desk
 * @param {Figure} figure
 * @returns {Offers}
 */
export function figureOffers(desk, figure) {
  const isLight = desk.look.palette === "light";
  const as = (/** @type {string} */ id, /** @type {string} */ name, /** @type {boolean} */ light, /** @type {typeof takeSvg} */ take) => ({
    id,
    name,
    take: () => take(desk, figure, light),
  });
  const light = [
    as("svg-light", isLight ? say("page-take-svg") : say("page-take-svg-light"), true, takeSvg),
    as("png-light", isLight ? say("page-take-png") : say("page-take-png-light"), true, takePng),
  ];
  const shown = [
    as("svg", say("page-take-svg-shown"), false, takeSvg),
    as("png", say("page-take-png-shown"), false, takePng),
  ];
  return { what: figure.what, offers: isLight ? light : [...light, ...shown] };
}

/**
 * @param {Desk} desk
 * @param {HTMLElement} table
 * @returns {Offers}
 */
function tableOffers(desk, table) {
  const what = table.getAttribute("aria-label") ?? "";
  const saveCsv = async () => save(new Blob([csv(fieldsOf(table))], { type: "text/csv;charset=utf-8" }), fileName(desk, what, "csv"));
  return {
    what,
    offers: [
      { id: "csv", name: say("page-take-csv"), take: saveCsv },
      { id: "copy", name: say("page-take-copy"), take: () => copy(table) },
    ],
  };
}

/** @param {HTMLElement} table */
async function copy(table) {
  const rows = fieldsOf(table);
  const text = tabbed(rows);
  try {
    const kinds = { "text/plain": text, "text/html": markup(rows) };
    const item = Object.fromEntries(Object.entries(kinds).map(([type, data]) => [type, new Blob([data], { type })]));
    await navigator.clipboard.write([new ClipboardItem(item)]);
  } catch {
    // Some browsers take plain text only, and some nothing.
    const copied = await navigator.clipboard?.writeText(text).then(() => true, () => false);
    if (!copied) return say("page-take-uncopied");
  }
  return say("page-share-copied");
}

/**
 * @param {Desk} desk
 * @param {Figure} figure
 * @param {boolean} light
 */
export async function takeSvg(desk, figure, light) {
  await desk.becomeWhole();
  const { subject, width, height, own } = figure;
  const compared =
    subject === LEVER && desk.pinned.ask((engine, sandbox, pinned, legend) => engine.svgCompared(sandbox, pinned, legend, light));
  const drawn = own ? own.svg(light) : compared || desk.askWhole((engine, sandbox) => engine.svg(sandbox, subject, width, height, light));
  if (drawn) save(await picture(drawn, figure.title, shownWords(desk)), fileName(desk, figure.what, "svg"));
}

/** @type {typeof takeSvg} */
async function takePng(desk, figure, light) {
  await desk.becomeWhole();
  const { subject, width, height, own } = figure;
  const scale = Math.min(FINE, MOST_PIXELS / Math.max(width, height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  /** @type {Parameters<typeof desk.pinned.ask<true>>[0]} */
  const compare = (engine, sandbox, pinned, legend) => {
    engine.drawPictureCompared(sandbox, pinned, legend, canvas, scale, light);
    return true;
  };
  const compared = subject === LEVER && desk.pinned.ask(compare);
  if (own) own.paint(canvas, scale, light);
  else if (!compared) desk.askWhole((engine, sandbox) => engine.drawPicture(sandbox, subject, canvas, scale, light));
  const file = await new Promise((/** @type {(file: Blob | null) => void} */ made) => canvas.toBlob(made, "image/png"));
  if (file) save(file, fileName(desk, figure.what, "png"));
}

/**
 * A name that says scenario, range and what the file shows.
 * @param {Desk} desk
 * @param {string} what
 * @param {string} ending
 */
function fileName(desk, what, ending) {
  const words = [desk.info?.name ?? "", rangeWords(desk), what];
  return `${words.map(slug).filter(Boolean).join("-")}.${ending}`;
}

/**
 * The range that is shown, or else what is applied.
 * @param {Desk} desk
 */
export function rangeWords({ info, answer }) {
  const range = info?.ranges.find(({ id }) => id === answer?.range);
  return range?.label ?? (answer?.applied.join(" ") || say("page-take-none-applied"));
}

