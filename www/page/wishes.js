/** What the attributes of an element ask for. */

/** Those that are heeded whenever they change. */
export const HEEDED = [
  "scenario", "train", "applied", "range", "speed", "torque", "units", "road", "losses", "shows", "with", "views", "locked", "theme",
];

/** Those that are read once, as it starts. */
export const READ_ONCE = ["exercise", "language", "loading", "address"];

/** How the element is to be, apart from the train in it. */
/** @type {(keyof import("./equipment.js").Furnishing)[]} */
const FURNISHING = ["with", "views", "locked", "theme"];

/** What of the train is shown, and how. @param {HTMLElement} element */
export function viewOf(element) {
  const train = textIn(element, "train");
  return {
    stem: textIn(element, "scenario"),
    from: train === undefined ? undefined : new URL(train, document.baseURI),
    applied: listIn(element, "applied"),
    range: textIn(element, "range"),
    speed: numberIn(element, "speed"),
    torque: numberIn(element, "torque"),
    units: listIn(element, "units"),
    road: textIn(element, "road"),
    losses: textIn(element, "losses"),
    shows: listIn(element, "shows"),
  };
}

/**
 * How it is to be.
 * @param {HTMLElement} element
 * @param {Iterable<string>} [only] of these attributes
 */
export function furnishingOf(element, only = HEEDED) {
  /** @type {import("./equipment.js").Furnishing} */
  const asked = {};
  for (const name of FURNISHING) {
    if ([...only].includes(name)) asked[name] = listIn(element, name) ?? [];
  }
  return asked;
}

/**
 * @param {HTMLElement} element
 * @param {string} attribute
 */
function textIn(element, attribute) {
  return element.getAttribute(attribute) ?? undefined;
}

/**
 * @param {HTMLElement} element
 * @param {string} attribute
 */
function listIn(element, attribute) {
  return element.getAttribute(attribute)?.split(",").map((id) => id.trim()).filter(Boolean);
}

/**
 * @param {HTMLElement} element
 * @param {string} attribute
 */
function numberIn(element, attribute) {
  const text = element.getAttribute(attribute);
  return text === null ? undefined : Number(text);
}
