/** Formulas as MathML elements. */

const MATHML = "http://www.w3.org/1998/Math/MathML";

/** A tag, or text up to the next one. */
const PIECE = /<(\/?)(m[a-z]+)>|([^<]+)/y;

/** Something that stands for a character. */
const CHARACTER = /&#x([0-9a-f]+);/gi;

/**
 * A formula from the inside of a `math` element, which comes from the engine and has tags without
 * attributes only. It is read here: a page may let no script hand markup to the browser.
 * @param {string} inside
 * @param {string} plain the same as plain text, for where it cannot be read
 */
export function formula(inside, plain) {
  const math = document.createElementNS(MATHML, "math");
  math.setAttribute("display", "block");
  return fill(math, inside) ? math : document.createTextNode(plain);
}

/**
 * @param {Element} math
 * @param {string} source
 * @returns {boolean} whether all of it could be read
 */
function fill(math, source) {
  const open = [math];
  PIECE.lastIndex = 0;
  while (PIECE.lastIndex < source.length) {
    const piece = PIECE.exec(source);
    if (!piece) return false;
    const [, closes, tag, text] = piece;
    const inner = open[open.length - 1];
    if (text !== undefined) {
      inner.append(text.replaceAll(CHARACTER, (_, code) => String.fromCodePoint(parseInt(code, 16))));
    } else if (closes) {
      if (open.length === 1 || open.pop()?.localName !== tag) return false;
    } else {
      const node = document.createElementNS(MATHML, tag);
      inner.append(node);
      open.push(node);
    }
  }
  return open.length === 1;
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
