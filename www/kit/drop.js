/** A scenario file dropped on the page. */

/**
 * @param {HTMLElement} target where files may be dropped
 * @param {HTMLElement} host marked while a file hovers over it
 * @param {(file: File) => void} open
 * @param {() => boolean} takes whether one is taken just now
 * @param {AbortSignal} signal
 */
export function acceptDrops(target, host, open, takes, signal) {
  const options = { signal };
  target.addEventListener(
    "dragover",
    (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      // Where none is taken the browser shows that, and does not leave the page for it.
      event.preventDefault();
      if (takes()) host.setAttribute("data-drop", "");
      else event.dataTransfer.dropEffect = "none";
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
