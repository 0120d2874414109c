/** The markup that embeds a view in somebody's page: as an element, or as a frame that holds one. */

import { siteFile } from "../kit/site.js";

/** Height of a frame that nobody fits, in CSS pixels: answer, drawings and what is said of them, in a column of a page. */
const HEIGHT = 1010;
/** What ranges and what stands with them add. */
const MORE = 90;

/** @typedef {Record<string, string | number | undefined>} Attributes */

/** @param {Attributes} attributes */
export function elementMarkup(attributes) {
  return `<script type="module" src="${siteFile("element.js")}"></script>\n${tag("lever-train", attributes)}`;
}

/**
 * @param {Attributes} attributes
 * @param {string} title what it is called by whoever only hears it
 */
export function frameMarkup(attributes, title) {
  const address = siteFile("frame.html");
  for (const [name, value] of said(attributes)) address.searchParams.set(name, String(value));
  // Commas need no number in an address, and are read more easily.
  const src = address.href.replaceAll("%2C", ",");
  return tag("iframe", { src, title, width: "100%", height: HEIGHT + (attributes.with === undefined ? 0 : MORE), loading: "lazy" });
}

/** @param {string} name @param {Attributes} attributes */
function tag(name, attributes) {
  const texts = said(attributes).map(([name, value]) => ` ${name}="${quoted(String(value))}"`);
  return `<${name}${texts.join("")}></${name}>`;
}

/** @param {Attributes} attributes */
function said(attributes) {
  return Object.entries(attributes).filter(([, value]) => value !== undefined && value !== "");
}

/** @param {string} text */
function quoted(text) {
  return text.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
}
