/**
 * Digits apply ranges: 1 the first, 2 the second…, and 0 releases all. Only while one is at the switches or the
 * ranges: elsewhere in a page a letter or digit may be meant for something else.
 */

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {HTMLElement} node
 */
export function takeDigits(desk, node) {
  node.addEventListener("keydown", (event) => {
    // What is not to be seen is not to be tried either.
    if (desk.veiled) return;
    if (event.ctrlKey || event.metaKey || event.altKey || !/^[0-9]$/.test(event.key)) return;
    const digit = Number(event.key);
    const range = desk.info?.ranges[digit - 1];
    if (digit > 0 && !range) return;
    event.preventDefault();
    desk.apply(range?.applied ?? []);
  });
}
