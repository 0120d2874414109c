/** What is known of a cell of a table beyond what is read in it: a number in full, and exactly. */

/** @typedef {{ value: number | null, exact?: string }} Known */
/** @typedef {{ name: string, exact?: string }} Heading what a column is called by itself, and that of its exact numbers */

/** @type {WeakMap<Element, Known>} */
const NUMBERS = new WeakMap();
/** @type {WeakMap<Element, () => Heading>} */
const HEADINGS = new WeakMap();
/** @type {WeakMap<Element, () => Element[]>} */
const ROWS = new WeakMap();
/** @type {WeakMap<Element, () => string>} */
const LACKS = new WeakMap();

/**
 * Tells the number that a cell shows, or that it shows none; and what belongs in a column beside it.
 * @template {Element} T
 * @param {T} cell
 * @param {number | null | undefined} value
 * @param {string} [exact] mostly the same as a fraction
 * @returns {T} the cell
 */
export function tell(cell, value, exact) {
  const known = typeof value === "number" && Number.isFinite(value);
  if (!known && exact === undefined) NUMBERS.delete(cell);
  // Nothing has no sign.
  else NUMBERS.set(cell, { value: known ? value || 0 : null, exact });
  return cell;
}

/** @param {Element} cell */
export function told(cell) {
  return NUMBERS.get(cell);
}

/**
 * Tells what columns are called where what stands over them does not say it by itself.
 * @param {HTMLTableElement | HTMLElement} table
 * @param {(() => Heading | undefined)[]} headings in the order of the columns
 */
export function tellHeadings(table, headings) {
  const cells = table.querySelectorAll("thead th");
  headings.forEach((heading, at) => HEADINGS.set(cells[at], () => heading() ?? { name: wordsIn(cells[at]) }));
}

/**
 * @param {Element} cell
 * @returns {Heading}
 */
export function headingOf(cell) {
  return HEADINGS.get(cell)?.() ?? { name: wordsIn(cell) };
}

/**
 * Tells how to have all rows of a table of which the page shows only the first.
 * @param {Element} table
 * @param {() => Element[]} rows
 */
export function tellRows(table, rows) {
  ROWS.set(table, rows);
}

/**
 * All rows of a table.
 * @param {Element} table
 */
export function rowsOf(table) {
  return ROWS.get(table)?.() ?? [...table.querySelectorAll("tbody tr")];
}

/**
 * What is read in a cell, with what stands in it on a line of its own after a comma.
 * @param {Element} cell
 */
export function wordsIn(cell) {
  const below = cell.querySelector(".does")?.textContent?.trim() ?? "";
  // Where a word may be divided says nothing.
  const all = cell.textContent?.replace(/\u00ad/g, "").replace(/\s+/g, " ").trim() ?? "";
  const own = below && all.endsWith(below.replace(/\s+/g, " ")) ? all.slice(0, all.length - below.length).trim() : all;
  return own && below ? `${own}, ${below}` : own || below;
}

/**
 * Tells how to say what a table lacks, which goes with it wherever it is taken; nothing where it is whole.
 * @param {Element} table
 * @param {() => string} words
 */
export function tellLack(table, words) {
  LACKS.set(table, words);
}

/** @param {Element} table */
export function lackOf(table) {
  return LACKS.get(table)?.() ?? "";
}
