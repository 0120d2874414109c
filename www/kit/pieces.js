/** Long work in pieces, between which the browser can do other things. */

/** How long a piece may take, but for its last step. */
const PIECE_MS = 16;

/**
 * Takes steps until one has a result.
 * @template T
 * @param {() => T | undefined} step
 * @param {() => Promise<void>} [rest] what comes between pieces
 * @returns {Promise<T>}
 */
export async function inPieces(step, rest = breath) {
  for (;;) {
    const until = performance.now() + PIECE_MS;
    do {
      const result = step();
      if (result !== undefined) return result;
    } while (performance.now() < until);
    await rest();
  }
}

/** Settles when all else that was waiting is done, timers too, for work that nobody waits for. @returns {Promise<void>} */
export function pause() {
  return new Promise((resolve) => setTimeout(resolve));
}

/** Settles when the browser has done what was waiting. @returns {Promise<void>} */
export function breath() {
  const { scheduler } = /** @type {{ scheduler?: { yield?(): Promise<void> } }} */ (globalThis);
  return scheduler?.yield ? scheduler.yield() : turn();
}

/**
 * Settles when what was waiting before is done. Unlike a timer, a message is not held back the more the longer one goes on.
 * @returns {Promise<void>}
 */
export function turn() {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });
}

/**
 * Settles once the browser has painted what has changed, at the beginning of the frame after that. A page that
 * is not seen is not painted either.
 * @returns {Promise<void>}
 */
export function painted() {
  return new Promise((resolve) => {
    if (document.hidden) setTimeout(resolve);
    else requestAnimationFrame(() => requestAnimationFrame(() => resolve()));
  });
}

/** How long what nobody waits for may wait for a browser that is never idle, in milliseconds. */
const LATEST = 1000;

/** @param {() => void} task */
export function whenIdle(task) {
  // Not every browser tells when it is idle.
  if (typeof requestIdleCallback === "function") requestIdleCallback(task, { timeout: LATEST });
  else setTimeout(task);
}
