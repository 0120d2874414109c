/** How much larger drawings are than they are drawn: they grow with the letters of the page. */

/** Height of letters that the sizes in the drawings go with, in CSS pixels. */
const USUAL_LETTERS = 16;

/**
 * How much larger drawings in `place` are shown than they are drawn, at least 1.
 * @param {Element} place
 */
export function growthIn(place) {
  return Math.max(1, parseFloat(getComputedStyle(place).fontSize) / USUAL_LETTERS);
}
