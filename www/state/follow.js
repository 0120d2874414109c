/** Keeping a view up to date with the desk. */

/**
 * Calls `update` now and after these events; once for several that are said together.
 * @param {import("./desk.js").Desk} desk
 * @param {string[]} names
 * @param {() => void} update
 */
export function follow(desk, names, update) {
  let heard = desk.said;
  const hear = () => {
    if (heard === desk.said) return;
    heard = desk.said;
    update();
  };
  for (const name of names) desk.addEventListener(name, hear);
  if (desk.info) update();
}
