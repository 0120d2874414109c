/**
 * The faces of the page and of its drawings.
 *
 * Font rules inside a shadow tree are ignored, so the faces are added to the document by script.
 */

import { siteFile } from "./site.js";

/** The family that drawings are set in. */
const DRAWN = "Barlow Semi Condensed";

/** @type {[string, string, FontFaceDescriptors][]} */
const FACES = [
  [DRAWN, "barlow-semi-condensed-latin-400-normal", { weight: "400" }],
  // The canvas asks for bold, the page for 600: one file serves both.
  [DRAWN, "barlow-semi-condensed-latin-600-normal", { weight: "600 700" }],
  ["STIX Two Text", "stix-two-text-latin-wght-normal", { weight: "400 700" }],
  ["STIX Two Text", "stix-two-text-latin-wght-italic", { weight: "400 700", style: "italic" }],
];

/** @type {Promise<void> | undefined} */
let loading;

/** Loads the faces; settles also when some cannot be had, as the page is readable without. */
export function loadFonts() {
  loading ??= Promise.allSettled(
    FACES.map(([family, file, descriptors]) => {
      const face = new FontFace(family, `url("${addressOf(file)}")`, { display: "swap", ...descriptors });
      document.fonts.add(face);
      return face.load();
    }),
  ).then(() => undefined);
  return loading;
}

/** Rules that hold the faces of drawings themselves; none of a face that cannot be had. */
export async function embeddedFaces() {
  const rules = FACES.filter(([family]) => family === DRAWN).map(async ([family, file, { weight }]) => {
    const response = await fetch(addressOf(file));
    if (!response.ok) throw new Error(response.statusText);
    const address = await dataAddress(await response.blob());
    return `@font-face { font-family: "${family}"; font-weight: ${weight}; src: url("${address}") format("woff2"); }`;
  });
  const had = await Promise.allSettled(rules);
  return had.map((rule) => (rule.status === "fulfilled" ? rule.value : "")).join("");
}

/** @param {string} file */
function addressOf(file) {
  return siteFile(`fonts/${file}.woff2`);
}

/**
 * @param {Blob} blob
 * @returns {Promise<string>}
 */
function dataAddress(blob) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener("load", () => resolve(String(reader.result)));
    reader.addEventListener("error", () => reject(reader.error));
    reader.readAsDataURL(blob);
  });
}
