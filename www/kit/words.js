/** What the page says: messages of the catalogue, written by the engine, so that all has one reader. */

/** @typedef {Pick<typeof import("../engine/levertrain.js"), "say" | "listed">} Speaker */
/** @typedef {Record<string, string | number>} Values the variables of a message by name; `count` is what it counts */

/** Stand for elements while a message is written: characters that are none in any text. */
const PLACES = /([\ufdd0-\ufdef])/;
const FIRST_PLACE = 0xfdd0;

/** @type {Speaker | undefined} */
let speaker;
let sign = ".";

/** @param {Speaker} engine one that knows the catalogue; it speaks from now on */
export function speakWith(engine) {
  speaker = engine;
  sign = say("decimal-sign");
}

/** Whoever speaks by then: for modules that a page has by themselves, with words of their own. */
export const voice = {
  /** @param {string} key @param {number} count @param {string[]} values */
  say: (key, count, values) => /** @type {Speaker} */ (speaker).say(key, count, values),
  /** @param {string[]} names */
  listed: (names) => /** @type {Speaker} */ (speaker).listed(names),
};

/** What stands before decimals. */
export function decimalSign() {
  return sign;
}

/**
 * A message with its variables put in.
 * @param {string} key
 * @param {Values} [values]
 */
export function say(key, { count = 0, ...values } = {}) {
  return spoken((engine) => engine.say(key, Number(count), Object.entries(values).flat().map(String)), key);
}

/**
 * The same where some of the values are elements: the pieces of the message, in order. A message may
 * name each of them once.
 * @param {string} key
 * @param {Record<string, string | number | Node>} values
 * @returns {(string | Node)[]}
 */
export function sayParts(key, values) {
  /** @type {Node[]} */
  const nodes = [];
  /** @type {Values} */
  const texts = {};
  for (const [name, value] of Object.entries(values)) {
    if (value instanceof Node) texts[name] = String.fromCharCode(FIRST_PLACE + nodes.push(value) - 1);
    else texts[name] = value;
  }
  const pieces = say(key, texts).split(PLACES);
  return pieces.map((piece, at) => (at % 2 === 0 ? piece : (nodes[piece.charCodeAt(0) - FIRST_PLACE] ?? "")));
}

/**
 * Names in a sentence: `A`, `A and B`, `A, B and C`. Names that hold a comma or an "and" of their own
 * are parted by semicolons, so that "1st, held" does not read as two.
 * @param {string[]} names
 */
export function listed(names) {
  return spoken((engine) => engine.listed(names), names.join(", "));
}

/**
 * Parts of a sentence that may hold commas of their own.
 * @param {string[]} parts
 */
export function parted(parts) {
  return parts.length === 0 ? "" : parts.reduce((most, last) => say("list-clear", { most, last }));
}

/**
 * A sentence with its first letter in a capital.
 * @param {string} text
 */
export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * @param {(engine: Speaker) => string} words
 * @param {string} otherwise
 */
function spoken(words, otherwise) {
  try {
    return speaker ? words(speaker) : otherwise;
  } catch {
    // An engine that broke may not even speak; another is on its way, and all is said again then.
    return otherwise;
  }
}
