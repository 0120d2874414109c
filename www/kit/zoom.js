/** How far the reader has zoomed in, for sizes that go with the window: a zoomed window is a small one. */

/** What styles know it by. */
const ZOOM = "--levertrain-zoom";

/**
 * Tells the styles of a node of the reader's zoom. Most browsers give the outside of a window in the pixels
 * of the screen, and the inside in those of the page; where they do not, nothing is told.
 * @param {HTMLElement} node
 * @param {AbortSignal} signal
 */
export function tellZoom(node, signal) {
  const tell = () => node.style.setProperty(ZOOM, String(Math.max(1, outerWidth / innerWidth)));
  addEventListener("resize", tell, { signal });
  tell();
}
