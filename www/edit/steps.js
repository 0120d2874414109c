/** Steps of the train's history: where one ends while the same is changed again and again, and the keys that take one back. */

/**
 * Tells whether an edit goes on with the one before it: not after another press, or in another field.
 * @param {HTMLElement} node what the fields are in, each known by its key
 * @returns {(continues: boolean) => boolean}
 */
export function goesOn(node) {
  let fresh = true;
  /** @type {string | undefined} */
  let at;
  node.addEventListener("pointerdown", () => (fresh = true), true);
  node.addEventListener("focusin", ({ target }) => {
    const { key } = /** @type {HTMLElement} */ (target).dataset;
    // A field that is made anew while somebody types in it is the same.
    if (key !== at) fresh = true;
    at = key;
  });
  return (continues) => {
    const on = continues && !fresh;
    fresh = false;
    return on;
  };
}

/**
 * Has the usual keys take a step back, and make it again, wherever the focus is but in another text, which has a way
 * back of its own.
 * @param {EventTarget} keys what hears them
 * @param {(node: Node) => boolean} owns whether a text field is one whose letters are steps
 * @param {{ active: () => boolean, back: () => void, again: () => void }} steps
 * @param {AbortSignal} signal
 */
export function takeSteps(keys, owns, { active, back, again }, signal) {
  keys.addEventListener(
    "keydown",
    (heard) => {
      const event = /** @type {KeyboardEvent} */ (heard);
      if (!active() || event.defaultPrevented || !(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      const forward = key === "y" || (key === "z" && event.shiftKey);
      if (!forward && key !== "z") return;
      const [target] = /** @type {Node[]} */ (event.composedPath());
      if (isText(target) && !owns(target)) return;
      event.preventDefault();
      if (forward) again();
      else back();
    },
    { signal },
  );
}

/** @param {Node | undefined} node */
function isText(node) {
  return node instanceof HTMLInputElement || node instanceof HTMLTextAreaElement || (node instanceof HTMLElement && node.isContentEditable);
}
