/** A scenario file dropped on the page. */

/**
 * @param {HTMLElement} target where files may be dropped
 * @param {HTMLElement} host marked while a file hovers over it
 * @param {(file: File) => void} open
 * @param {AbortSignal} signal
 */
export function acceptDrops(target, host, open, signal) {
  const options = { signal };
  target.addEventListener(
    "dragover",
    (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      host.setAttribute("data-drop", "");
    },
    options,
  );
  target.addEventListener(
    "dragleave",
    (event) => {
      // Leaving a child for another is no leaving.
      if (!event.relatedTarget) host.removeAttribute("data-drop");
    },
    options,
  );
  target.addEventListener(
    "drop",
    (event) => {
      host.removeAttribute("data-drop");
      const file = event.dataTransfer?.files[0];
      if (!file) return;
      event.preventDefault();
      open(file);
    },
    options,
  );
}
