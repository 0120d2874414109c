/** Marks that tell on which sides what scrolls goes on. */

/**
 * Marks a node.
 * @param {Element} node
 * @param {Element} scroller the box that scrolls
 * @param {boolean} [scrolls] whether it does at all
 */
export function tellMore(node, { scrollLeft, scrollWidth, clientWidth }, scrolls = true) {
  node.toggleAttribute("data-more-left", scrolls && scrollLeft > 1);
  node.toggleAttribute("data-more-right", scrolls && scrollLeft + clientWidth < scrollWidth - 1);
}
