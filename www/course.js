/** What a course page can do with scores: this one only shows them. */

addEventListener("levertrain-score", (event) => {
  const { detail, target } = /** @type {CustomEvent<{ title: string, points: number, of: number, done: boolean }>} */ (event);
  if (!(target instanceof Element)) return;
  const place = document.querySelector(`[data-score="${target.getAttribute("scenario")}"]`);
  if (place) place.textContent = `${detail.points} / ${detail.of}${detail.done ? " ✓" : ""}`;
});
