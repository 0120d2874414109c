/**
 * The panels there are, in the order they stand in. What one shows is a module of its own, which is
 * imported when it is first needed, or once the page is at rest.
 */

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("../kit/panel.js").Panel} Panel */

/** @typedef {import("../state/kept_files.js").Files} Files */

/**
 * What a panel has to work with.
 * @typedef {object} Surroundings
 * @property {Desk} desk
 * @property {() => void} redraw asks for a frame
 * @property {(draw: () => void) => void} draws takes a drawing into every frame
 * @property {Files} files the user's own trains
 * @property {HTMLElement} section what the half-section lies in; it says `fitted` whenever that has another place or size
 * @property {boolean} keeps whether the browser keeps what is put together, as it does on the element's own page
 * @property {import("../state/open_sheet.js").OpenSheet} openSheet the sheet of exercises that is put together or open
 * @property {string} [exercise] the sheet whose questions are asked at once: `scenario` for that of the scenario, or its address
 * @property {import("../learn/progress.js").Progress} progress how far somebody has come in such a sheet
 * @property {EventTarget} keys hears the keys that are for the element: of the whole page where that is its own
 * @property {AbortSignal} signal ends with the element
 */

/**
 * @typedef {object} Entry
 * @property {string} id what page, styles and tests know it by
 * @property {string} title the message that its heading is
 * @property {"side" | "below"} column
 * @property {boolean} [open] whether it is unfolded at first where there is room
 * @property {boolean} [wide] whether it takes all columns
 * @property {boolean} [hints] whether its heading says something also while it is folded
 * @property {boolean} [whole] whether what it shows unfolded takes the whole engine
 * @property {string} [styles] what it needs besides those of a first view, from the root of the site
 * @property {boolean} [takes] whether it has tables or figures to take away
 * @property {(train: import("../state/desk.js").TrainInfo) => boolean} [needs] whether a train has
 *   what it shows; without it the panel is not there
 * @property {() => Promise<{ fill(panel: Panel, surroundings: Surroundings): void }>} load
 */

/** One file for all panels that need more: a page at rest asks for it once. */
const STYLES = "css/panels.css";

/** @type {Entry[]} */
export const PANELS = [
  {
    id: "chart",
    title: "page-panel-chart",
    column: "side",
    open: true,
    takes: true,
    load: () => import("./chart.js"),
  },
  {
    id: "walk",
    title: "page-panel-walk",
    column: "side",
    whole: true,
    styles: STYLES,
    load: () => import("../learn/walk.js"),
  },
  {
    id: "edit",
    title: "page-panel-edit",
    column: "side",
    whole: true,
    load: () => import("./edit.js"),
  },
  {
    id: "find",
    title: "page-panel-find",
    column: "side",
    whole: true,
    takes: true,
    styles: STYLES,
    load: () => import("../search/find.js"),
  },
  {
    id: "layouts",
    title: "page-panel-layouts",
    column: "below",
    wide: true,
    whole: true,
    styles: STYLES,
    load: () => import("../search/layouts.js"),
  },
  {
    id: "members",
    title: "page-panel-members",
    column: "side",
    open: true,
    takes: true,
    load: () => import("./members.js"),
  },
  {
    id: "effort",
    title: "page-panel-effort",
    column: "side",
    hints: true,
    takes: true,
    load: () => import("./effort.js"),
  },
  {
    id: "losses",
    title: "page-panel-losses",
    column: "side",
    hints: true,
    takes: true,
    load: () => import("./losses.js"),
  },
  {
    id: "teeth",
    title: "page-panel-teeth",
    column: "side",
    open: true,
    needs: ({ warnings }) => warnings.length > 0,
    load: () => import("./teeth.js"),
  },
  {
    id: "combinations",
    title: "page-panel-combinations",
    column: "side",
    whole: true,
    takes: true,
    load: () => import("./combinations.js"),
  },
  {
    id: "compare",
    title: "page-panel-compare",
    column: "side",
    whole: true,
    takes: true,
    load: () => import("./compare.js"),
  },
  {
    id: "exercises",
    title: "page-panel-exercises",
    column: "side",
    whole: true,
    styles: STYLES,
    load: () => import("../learn/exercises.js"),
  },
  {
    id: "worksheet",
    title: "page-panel-worksheet",
    column: "side",
    whole: true,
    load: () => import("./worksheet.js"),
  },
  {
    id: "share",
    title: "page-panel-share",
    column: "side",
    load: () => import("./share.js"),
  },
  {
    id: "file",
    title: "page-panel-file",
    column: "below",
    wide: true,
    whole: true,
    load: () => import("./file.js"),
  },
  {
    id: "faults",
    title: "page-panel-faults",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    needs: ({ elements }) => elements.length > 0,
    styles: STYLES,
    load: () => import("../learn/faults.js"),
  },
  {
    id: "shifts",
    title: "page-panel-shifts",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    needs: ({ elements }) => elements.length > 0,
    styles: STYLES,
    load: () => import("./shifts.js"),
  },
  {
    id: "timed",
    title: "page-panel-timed",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    needs: ({ elements }) => elements.length > 0,
    styles: STYLES,
    load: () => import("./timed.js"),
  },
  {
    id: "sources",
    title: "page-panel-sources",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    styles: STYLES,
    load: () => import("./sources.js"),
  },
  {
    id: "working",
    title: "page-panel-working",
    column: "below",
    wide: true,
    whole: true,
    load: () => import("./working.js"),
  },
  {
    id: "flow",
    title: "page-panel-flow",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    load: () => import("./flow.js"),
  },
  {
    id: "operating",
    title: "page-panel-operating",
    column: "below",
    hints: true,
    needs: ({ engine }) => engine !== null,
    whole: true,
    takes: true,
    load: () => import("./operating.js"),
  },
  {
    id: "traction",
    title: "page-panel-traction",
    column: "below",
    wide: true,
    whole: true,
    takes: true,
    styles: STYLES,
    load: () => import("./traction.js"),
  },
  {
    id: "capacity",
    title: "page-panel-capacity",
    column: "below",
    hints: true,
    needs: ({ friction, ranges }) => friction && ranges.length > 0,
    takes: true,
    load: () => import("./capacity.js"),
  },
  {
    id: "end-view",
    title: "page-panel-end-view",
    column: "below",
    whole: true,
    takes: true,
    load: () => import("./end_view.js"),
  },
  {
    id: "slips",
    title: "page-panel-slips",
    column: "below",
    takes: true,
    load: () => import("./slips.js"),
  },
  {
    id: "bearings",
    title: "page-panel-bearings",
    column: "below",
    takes: true,
    load: () => import("./bearings.js"),
  },
  {
    id: "keys",
    title: "page-panel-keys",
    column: "below",
    load: () => import("./keys.js"),
  },
];
