/** The styles of the element, read once and shared by all elements of a page. */

import { siteFile } from "./site.js";

/** The size of text that the reader has chosen for the browser. */
const REM = "--levertrain-rem";

/** @type {Promise<CSSStyleSheet | undefined> | undefined} */
let loading;

/** Settles with nothing where the styles cannot be had: the page can be read without. */
export function styles() {
  loading ??= load().catch(() => {
    // A later try may succeed.
    loading = undefined;
    return undefined;
  });
  return loading;
}

/** What has been asked for besides. @type {Map<string, Promise<CSSStyleSheet | undefined>>} */
const more = new Map();

/**
 * Puts more styles on, which nothing needs before.
 * @param {ShadowRoot} root
 * @param {string} path from the root of the site
 */
export async function addStyles(root, path) {
  const coming = more.get(path) ?? load(path).catch(() => undefined);
  more.set(path, coming);
  const sheet = await coming;
  // A later try may succeed.
  if (!sheet) more.delete(path);
  else if (!root.adoptedStyleSheets.includes(sheet)) root.adoptedStyleSheets.push(sheet);
  return sheet !== undefined;
}

async function load(path = "css/element.css") {
  const response = await fetch(siteFile(path));
  if (!response.ok) return undefined;
  registerRem();
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(ownRem(await response.text()));
  return sheet;
}

/**
 * A `rem` is the size of text of the page's root, which is the host's business: many set it to
 * 62.5 %. In our styles it is that of the browser's own settings.
 * @param {string} text
 */
function ownRem(text) {
  return text.replaceAll(/(-?\d*\.?\d+)rem\b/g, `calc($1 * var(${REM}))`);
}

/** As a length, the property is inherited in pixels rather than worked out anew at each size of text. */
function registerRem() {
  try {
    CSS.registerProperty({ name: REM, syntax: "<length>", inherits: true, initialValue: "16px" });
  } catch {
    // Another copy of the module has done so.
  }
}
