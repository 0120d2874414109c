/** The markup that embeds a view in somebody's page: as an element, or as a frame that holds one. */

import { siteFile } from "../kit/site.js";

/** Height of a frame that nobody fits, in CSS pixels: answer and drawings on a laptop. */
const HEIGHT = 780;

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
  return tag("iframe", { src, title, width: "100%", height: HEIGHT, loading: "lazy" });
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
