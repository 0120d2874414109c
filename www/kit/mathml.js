/** Formulas as MathML elements. */

const MATHML = "http://www.w3.org/1998/Math/MathML";

/**
 * A formula from the inside of a `math` element. The text comes from the engine, which makes it of
 * letters and whole numbers; it is read as XML, in which nothing runs.
 * @param {string} inside
 * @param {string} plain the same as plain text, for where it cannot be read
 */
export function formula(inside, plain) {
  const source = `<math xmlns="${MATHML}" display="block">${inside}</math>`;
  const parsed = new DOMParser().parseFromString(source, "application/xml").documentElement;
  if (parsed.namespaceURI !== MATHML || parsed.localName !== "math") return document.createTextNode(plain);
  return document.importNode(parsed, true);
}

/**
 * The text of a fraction such as `-97/68` as MathML.
 * @param {string} fraction
 */
export function fractionMathml(fraction) {
  const [above, below] = fraction.replace("-", "").split("/").map((digits) => `<mn>${digits}</mn>`);
  const sign = fraction.startsWith("-") ? "<mo>\u2212</mo>" : "";
  return `<mrow>${sign}${below ? `<mfrac>${above}${below}</mfrac>` : above}</mrow>`;
}
