/** Which element a page is about: its address, its landmarks and its ground can belong to one only. */

/** @type {HTMLElement | undefined} */
let owner;

/**
 * Whether the page is about this element: it says so, and it is the first that does.
 * @param {HTMLElement} host
 * @param {AbortSignal} signal ends with the element
 */
export function ownsPage(host, signal) {
  if (owner || !host.hasAttribute("address")) return false;
  owner = host;
  signal.addEventListener("abort", () => (owner = undefined));
  return true;
}

/** Whether the page leaves its landmarks and its headline to the element. */
export function hasNoLandmarks() {
  return !document.querySelector("main, [role=main], h1");
}
