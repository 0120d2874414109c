/** The key "?" unfolds the list of all keys, and Escape in it folds it again and goes back. */

/**
 * @param {EventTarget} ground where keys are heard: the page or, in somebody else's, the element
 * @param {HTMLDetailsElement} list the panel that the list is in
 * @param {() => boolean} offered whether there is to be one
 * @param {AbortSignal} signal
 */
export function answerQuestion(ground, list, offered, signal) {
  /** What had the focus before. @type {HTMLElement | null} */
  let before = null;
  const heading = () => /** @type {HTMLElement} */ (list.querySelector("summary"));

  ground.addEventListener(
    "keydown",
    (given) => {
      const event = /** @type {KeyboardEvent} */ (given);
      const [at] = event.composedPath();
      if (event.key !== "?" || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
      if (!offered() || (at instanceof HTMLElement && isField(at))) return;
      event.preventDefault();
      before = at instanceof HTMLElement && at !== document.body ? at : null;
      list.open = true;
      heading().focus();
      list.scrollIntoView({ block: "nearest" });
    },
    { signal },
  );
  list.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !list.open) return;
    event.stopPropagation();
    list.open = false;
    (before?.isConnected ? before : heading()).focus();
    before = null;
  });
}

/** Whether what is typed goes into it. @param {HTMLElement} node */
function isField(node) {
  return node.matches("input:not([type=range]):not([type=checkbox]), textarea, select") || node.isContentEditable;
}
