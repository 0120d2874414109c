/** A drawing as a file that stands by itself: titled, described, and with the letters it is set in. */

import { embeddedFaces } from "./fonts.js";

/**
 * @param {string} drawing an SVG picture that only names its letters
 * @param {string} title
 * @param {string} description what it shows, for those who do not see it
 */
export async function picture(drawing, title, description) {
  const faces = await embeddedFaces();
  // Written, not put together as a document: the page's own policy would forbid the rules there.
  const head = element("title", title) + element("desc", description) + element("style", faces);
  const file = drawing.replace(/<svg\b([^>]*)>/, (_, attributes) => `<svg role="img"${attributes}>${head}`);
  return new Blob([file], { type: "image/svg+xml" });
}

/**
 * @param {string} name
 * @param {string} content
 */
function element(name, content) {
  return `<${name}>${content.replace(/&/g, "&amp;").replace(/</g, "&lt;")}</${name}>`;
}
