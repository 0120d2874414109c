/**
 * The faces of the page and of its drawings.
 *
 * Font rules inside a shadow tree are ignored, so the faces are added to the document by script.
 */

/** @type {[string, string, FontFaceDescriptors][]} */
const FACES = [
  ["Barlow Semi Condensed", "barlow-semi-condensed-latin-400-normal", { weight: "400" }],
  // The canvas asks for bold, the page for 600: one file serves both.
  ["Barlow Semi Condensed", "barlow-semi-condensed-latin-600-normal", { weight: "600 700" }],
  ["STIX Two Text", "stix-two-text-latin-wght-normal", { weight: "400 700" }],
  ["STIX Two Text", "stix-two-text-latin-wght-italic", { weight: "400 700", style: "italic" }],
];

/** @type {Promise<void> | undefined} */
let loading;

/** Loads the faces; settles also when some cannot be had, as the page is readable without. */
export function loadFonts() {
  loading ??= Promise.allSettled(
    FACES.map(([family, file, descriptors]) => {
      const address = new URL(`fonts/${file}.woff2`, import.meta.url);
      const face = new FontFace(family, `url("${address}")`, { display: "swap", ...descriptors });
      document.fonts.add(face);
      return face.load();
    }),
  ).then(() => undefined);
  return loading;
}
