/** A table of the page as one of a spreadsheet: every number in full, every exact one in a column of its own. */

import { NONE } from "./format.js";
import { headingOf, lackOf, rowsOf, told, wordsIn } from "./known.js";
import { decimalSign, say } from "./words.js";

/** @typedef {{ text: string, kind: "words" | "number" | "exact" }} Field */

/** With one of these a spreadsheet takes words for a formula. */
const FORMULA = /^[=+\-@\t\r\n]/;

/** Spreadsheets take a file for one of letters of their own unless this stands first. */
const MARK = "\ufeff";

/**
 * The rows of a table, its headings first, and last what it lacks.
 * @param {Element} table
 * @returns {Field[][]}
 */
export function fieldsOf(table) {
  const rows = rowsOf(table);
  const grouped = rows.some((row) => row.classList.contains("group"));
  const heads = [...table.querySelectorAll("thead th")].map(headingOf);
  const exact = heads.map((_, at) => rows.some((row) => isPlain(row) && told(row.children[at])?.exact !== undefined));
  const headings = heads.flatMap(({ name, exact: called }, at) =>
    exact[at] ? [words(name), words(called ?? say("page-take-exact", { what: name }))] : [words(name)],
  );
  if (grouped) headings.unshift(words(say("page-take-group")));
  const fields = [headings];
  let group = "";
  for (const row of rows) {
    if (!isPlain(row)) {
      group = wordsIn(row);
      continue;
    }
    const own = heads.flatMap((_, at) => {
      const cell = row.children[at];
      return exact[at] ? [fieldOf(cell), { text: told(cell)?.exact ?? "", kind: /** @type {const} */ ("exact") }] : [fieldOf(cell)];
    });
    fields.push(grouped ? [words(group), ...own] : own);
  }
  const lack = lackOf(table);
  if (lack) fields.push([words(lack)]);
  return fields;
}

/** @param {Element} row */
function isPlain(row) {
  return !row.classList.contains("group");
}

/**
 * @param {Element | undefined} cell
 * @returns {Field}
 */
function fieldOf(cell) {
  const known = cell && told(cell);
  if (known) return { text: String(known.value ?? "").replace(".", decimalSign()), kind: "number" };
  const text = cell ? wordsIn(cell) : "";
  return words(text === NONE ? "" : text);
}

/**
 * @param {string} text
 * @returns {Field}
 */
function words(text) {
  return { text, kind: "words" };
}

/** What must not be taken for a formula, since somebody wrote it for a name. @param {Field} field */
function safe({ text, kind }) {
  return kind === "words" && FORMULA.test(text) ? `'${text}` : text;
}

/**
 * As a file: RFC 4180, in UTF-8; with semicolons where spreadsheets expect them, as a comma is the sign of decimals.
 * @param {Field[][]} rows
 */
export function csv(rows) {
  const between = decimalSign() === "," ? ";" : ",";
  const quoted = (/** @type {string} */ text) => (/["\r\n]/.test(text) || text.includes(between) ? `"${text.replaceAll('"', '""')}"` : text);
  const lines = rows.map((row) => row.map((field) => quoted(safe(field))).join(between));
  return `${MARK}${lines.join("\r\n")}\r\n`;
}

/**
 * As text that a spreadsheet takes from the clipboard.
 * @param {Field[][]} rows
 */
export function tabbed(rows) {
  return rows.map((row) => row.map((field) => safe(field).replace(/[\t\r\n]+/g, " ")).join("\t")).join("\n");
}

/**
 * The same as markup. Exact numbers are text there: 12/5 is no date.
 * @param {Field[][]} rows
 */
export function markup(rows) {
  const escaped = (/** @type {string} */ text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;");
  const cell = (/** @type {Field} */ field) =>
    field.kind === "exact" ? `<td style="mso-number-format:'\\@'">${escaped(field.text)}</td>` : `<td>${escaped(safe(field))}</td>`;
  return `<table>${rows.map((row) => `<tr>${row.map(cell).join("")}</tr>`).join("")}</table>`;
}
