/**
 * The language that the page speaks, and its elements with it: one for a page, as they share an engine.
 * Each is a catalogue in `words/`, of which the page fetches the one it speaks.
 */

/** Their names, each in itself, by their codes. The first is spoken where none is known that is asked for. */
export const LANGUAGES = { en: "English", de: "Deutsch" };

/** @typedef {keyof typeof LANGUAGES} Language */

const USUAL = "en";
const KEY = "levertrain-language";
const UNFOLDED = "levertrain-unfolded";

/** @type {Language | undefined} */
let spoken;

/** What is spoken. */
export function language() {
  return spoken ?? USUAL;
}

/**
 * Settles what is spoken, unless another element of the page has: what is asked for by the element, by
 * the page around it, or else by the browser. Where the page is the element's own, its reader's choice
 * comes first, and the page speaks as the element does.
 * @param {HTMLElement} host
 */
export function settleLanguage(host) {
  const own = host.hasAttribute("address");
  const asked = host.getAttribute("language") ?? (own ? undefined : around(host));
  const named = asked ? [asked] : navigator.languages;
  spoken ??= (own ? remembered() : undefined) ?? named.map(known).find(Boolean) ?? USUAL;
  if (own) document.documentElement.lang = spoken;
  return spoken;
}

/**
 * Has another language be spoken when the page is loaded again. Throws where the browser keeps nothing.
 * @param {string} code
 */
export function rememberLanguage(code) {
  localStorage.setItem(KEY, code);
}

/**
 * Keeps which panels are unfolded, for the page that is loaded in another language.
 * @param {string[]} ids
 */
export function keepUnfolded(ids) {
  sessionStorage.setItem(UNFOLDED, ids.join());
}

/** Those that were; nothing where the page was not left for another language. */
export function keptUnfolded() {
  try {
    const ids = sessionStorage.getItem(UNFOLDED);
    sessionStorage.removeItem(UNFOLDED);
    return ids?.split(",");
  } catch {
    return undefined;
  }
}

function remembered() {
  try {
    return known(localStorage.getItem(KEY) ?? "");
  } catch {
    return undefined;
  }
}

/**
 * What the page around an element says of its language; it may be in an element's own tree.
 * @param {Element} host
 * @returns {string | undefined}
 */
function around(host) {
  const said = host.closest("[lang]")?.getAttribute("lang");
  const root = host.getRootNode();
  if (said || !(root instanceof ShadowRoot)) return said || undefined;
  return around(root.host);
}

/**
 * The language of a code such as `de-AT`.
 * @param {string} code
 * @returns {Language | undefined}
 */
function known(code) {
  const [main] = code.toLowerCase().split("-");
  return Object.hasOwn(LANGUAGES, main) ? /** @type {Language} */ (main) : undefined;
}
