/**
 * What is in hand as a page is loaded again in another language: each part of it gives its own, and takes it up once.
 * Names and texts are left out, as the other language has others.
 */

const KEY = "levertrain-carried";

/** What parts have in hand. @type {Map<string, () => unknown>} */
const parts = new Map();
/** What was in hand, by part. @type {Record<string, unknown>} */
let kept = {};

/**
 * @param {string} name
 * @param {() => unknown} give what is to be taken up; undefined where there is nothing
 * @param {AbortSignal} signal
 */
export function carries(name, give, signal) {
  parts.set(name, give);
  signal.addEventListener("abort", () => parts.get(name) === give && parts.delete(name));
}

/** Keeps all of it for the page that is loaded next. Throws where the browser keeps nothing. */
export function carry() {
  sessionStorage.setItem(KEY, JSON.stringify(Object.fromEntries([...parts].map(([name, give]) => [name, give()]))));
}

/** Fetches what was kept, where the page was left for another language. */
export function fetchCarried() {
  try {
    kept = JSON.parse(sessionStorage.getItem(KEY) ?? "{}");
    sessionStorage.removeItem(KEY);
  } catch {
    kept = {};
  }
}

/** What a part had in hand, once. @param {string} name @returns {any} */
export function carried(name) {
  const value = kept[name];
  delete kept[name];
  return value;
}
