/**
 * Names that run from right to left, kept to themselves: wherever one is shown, the sentence around it
 * stays in its order, and the name in its own. All that is shown is watched, as any view may name anything.
 */

/** Letters of scripts that run leftwards: Hebrew, Arabic and their neighbours. */
const LEFTWARDS = "\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefc\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}";
const LEFTWARD = new RegExp(`[${LEFTWARDS}]`, "u");

/** From a first such letter to the last before other letters, for what is none of the train's own names. */
const RUN = `[${LEFTWARDS}](?:[^\\p{Script=Latin}]*[${LEFTWARDS}])?`;

/** The attribute that names what has no text in sight, and what sets names apart in it. */
const ALOUD = "aria-label";
const ISOLATES = /[\u2068\u2069]/g;

/** Where there can be no element, nobody sees any, or somebody writes. */
const CHOICE = "option";
const ALONE = "bdi, option, textarea, .unseen, [contenteditable]";

/**
 * @param {HTMLElement[]} nodes what is watched, with all that is in it
 * @param {import("../state/desk.js").Desk} desk
 * @param {AbortSignal} signal
 */
export function isolateNames(nodes, desk, signal) {
  /** @type {import("../state/desk.js").TrainInfo | undefined} */
  let train;
  let names = new RegExp("");

  /** @param {string} text */
  function pieces(text) {
    if (train !== desk.info || names.source === "(?:)") {
      train = desk.info;
      names = namesIn(train);
    }
    return text.split(names);
  }

  /** @param {Node} node */
  function isolate(node) {
    for (const text of texts(node)) {
      const alone = text.parentElement?.closest(ALONE);
      if (alone?.matches(CHOICE)) text.data = apart(text.data);
      if (alone) continue;
      text.replaceWith(...pieces(text.data).map((piece, at) => (at % 2 === 0 ? piece : bdi(piece))));
    }
    if (!(node instanceof Element)) return;
    for (const named of [node, ...node.querySelectorAll(`[${ALOUD}]`)]) isolateAloud(named);
  }

  /**
   * What is only read aloud, or from a braille display.
   * @param {Element} node
   */
  function isolateAloud(node) {
    const text = node.getAttribute(ALOUD) ?? "";
    if (!LEFTWARD.test(text)) return;
    // Setting it is a change, too.
    if (apart(text) !== text) node.setAttribute(ALOUD, apart(text));
  }

  /** A text that can hold no element: names are set apart by characters. @param {string} text */
  function apart(text) {
    return pieces(text.replaceAll(ISOLATES, "")).map((piece, at) => (at % 2 === 0 ? piece : isolatedText(piece))).join("");
  }

  const observer = new MutationObserver((records) => {
    for (const { target, addedNodes } of records) {
      addedNodes.forEach(isolate);
      if (target instanceof Element) isolateAloud(target);
    }
  });
  const watched = { childList: true, subtree: true, attributeFilter: [ALOUD] };
  for (const node of nodes) observer.observe(node, watched);
  signal.addEventListener("abort", () => observer.disconnect());
}

/**
 * The texts in a node that have something to isolate.
 * @param {Node} node
 */
function texts(node) {
  if (!LEFTWARD.test(node.textContent ?? "")) return [];
  const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
  const found = /** @type {Text[]} */ (node instanceof Text ? [node] : []);
  while (walker.nextNode()) found.push(/** @type {Text} */ (walker.currentNode));
  return found.filter(({ data }) => LEFTWARD.test(data));
}

/**
 * Finds the names of a train, the longest first, and other leftward runs; the found ones are kept.
 * @param {import("../state/desk.js").TrainInfo | undefined} train
 */
function namesIn(train) {
  const { elements = [], shafts = [], couplings = [], ranges = [] } = train ?? {};
  const labels = [
    ...[...elements, ...shafts, ...couplings, ...ranges].map(({ label }) => label),
    ...elements.flatMap(({ nouns }) => nouns),
    ...[train?.name, train?.about, train?.housing, train?.engine, train?.converter, train?.load],
  ];
  const known = labels.flatMap((label) => (label && LEFTWARD.test(label) ? [label] : []));
  known.sort((a, b) => b.length - a.length);
  return new RegExp(`(${[...known.map(literal), RUN].join("|")})`, "u");
}

/** @param {string} text */
function literal(text) {
  return text.replace(/[\\^$.*+?()[\]{}|/-]/g, "\\$&");
}

/** @param {string} text */
function bdi(text) {
  const node = document.createElement("bdi");
  node.textContent = text;
  return node;
}

/**
 * The same for where there can be no element: set apart by characters.
 * @param {string} name
 */
export function isolatedText(name) {
  return LEFTWARD.test(name) ? `\u2068${name}\u2069` : name;
}
