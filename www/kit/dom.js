/** Building elements: one short function, and the few icons the page draws itself. */

/**
 * Makes an element. `true` sets an empty attribute, `false`, `null` and `undefined` set none, and
 * a function becomes a listener for the event of that name.
 * @param {string} tag
 * @param {Record<string, unknown>} [attributes]
 * @param {...(Node | string | null)} children
 * @returns {HTMLElement & Record<string, any>}
 */
export function h(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (typeof value === "function") {
      node.addEventListener(name, /** @type {EventListener} */ (value));
    } else {
      node.setAttribute(name, value === true ? "" : String(value));
    }
  }
  node.append(...children.filter((child) => child !== null));
  return node;
}

const SVG = "http://www.w3.org/2000/svg";

/**
 * The lines of the icons by what they are, for pages that let no script write markup: a path as its
 * commands, a dot or a circle as its centre and radius; what else it is called stands before it.
 * @type {Record<string, [string, string | [number, number, number]][]>}
 */
const ICONS = {
  mark: [
    ["thin", "M6 4v24"],
    ["", "M6 26 27 6"],
    ["ink", [6, 26, 3.4]],
    ["forward", [15, 17.4, 3.4]],
    ["backward", [26, 7, 3.4]],
  ],
  forward: [["", "M3 16h23M18 8l9 8-9 8"]],
  backward: [["", "M29 16H6M14 8l-9 8 9 8"]],
  held: [["", "M4 11h24M8 11l-4 8M16 11l-4 8M24 11l-4 8M29.500 12l-3.500 7"]],
  free: [["", "M2 16h5M11 16h4M19 16h4M27 16h3"]],
  fights: [["", "M2 16h9l3-8 4 16 3-8h9"]],
  play: [["fill", "M9 5v22l18-11z"]],
  pause: [["fill", "M7 5h6v22H7zM19 5h6v22h-6z"]],
  close: [["", "M7 7l18 18M25 7 7 25"]],
  board: [["", "M3 5h26v17H3zM16 22v6M10 28h12M9 17l5-5 4 3 5-6"]],
  take: [["", "M16 4v16M9 14l7 7 7-7M5 27h22"]],
  auto: [
    ["", [16, 16, 11]],
    ["fill", "M16 5a11 11 0 0 1 0 22z"],
  ],
  light: [
    ["", [16, 16, 6]],
    ["", "M16 2v4M16 26v4M2 16h4M26 16h4M6 6l3 3M23 23l3 3M26 6l-3 3M9 23l-3 3"],
  ],
  dark: [["", "M26 19A11 11 0 1 1 13 6a9 9 0 0 0 13 13z"]],
};

/**
 * A picture beside a word that says the same: hidden from screen readers.
 * @param {string} name
 */
export function icon(name) {
  const node = svg("svg", {
    class: `icon icon-${name}`,
    viewBox: "0 0 32 32",
    "aria-hidden": "true",
    focusable: "false",
  });
  for (const [kind, line] of ICONS[name]) {
    const mark =
      typeof line === "string" ? svg("path", { d: line }) : svg("circle", { cx: line[0], cy: line[1], r: line[2] });
    if (kind !== "") mark.setAttribute("class", kind);
    node.append(mark);
  }
  return node;
}

/**
 * @param {string} tag
 * @param {Record<string, string | number>} attributes
 */
function svg(tag, attributes) {
  const node = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  return node;
}

/**
 * Text for screen readers only.
 * @param {string} text
 */
export function unseen(text) {
  return h("span", { class: "unseen" }, text);
}

/**
 * Has exactly these in a node, in this order; what stays is not taken out meanwhile.
 * @param {HTMLElement} node
 * @param {Node[]} children
 */
export function keepIn(node, children) {
  const wanted = new Set(children);
  for (const child of [...node.childNodes]) if (!wanted.has(child)) child.remove();
  let at = node.firstChild;
  for (const child of children) {
    if (child === at) at = at.nextSibling;
    else node.insertBefore(child, at);
  }
}

/**
 * Puts words into a node that has others: the same ones put in anew would be laid out anew.
 * @param {HTMLElement} node
 * @param {string} words
 */
export function write(node, words) {
  if (node.textContent !== words) node.textContent = words;
}

/**
 * Does something again only where what it is made of has changed: what is put anew into a page is laid out anew.
 * @param {() => unknown} shape what decides how it comes out
 * @param {() => void} make
 */
export function whenOther(shape, make) {
  /** @type {string | undefined} */
  let made;
  return () => {
    const now = JSON.stringify(shape());
    if (now === made) return;
    made = now;
    make();
  };
}

/** What in a node has the focus. @param {Node} node @returns {HTMLElement | null} */
export function focusedIn(node) {
  const root = /** @type {ShadowRoot | Document} */ (node.getRootNode());
  const active = /** @type {HTMLElement | null} */ (root.activeElement);
  return active && node.contains(active) ? active : null;
}

/**
 * Moves the single tab stop of a group to one of its items.
 * @param {HTMLElement[]} items
 * @param {HTMLElement | undefined} current
 */
export function rove(items, current) {
  const stop = current ?? items[0];
  for (const item of items) item.tabIndex = item === stop ? 0 : -1;
}

/**
 * The item an arrow key leads to, or none for any other key.
 * @param {KeyboardEvent} event
 * @param {HTMLElement[]} items
 * @param {HTMLElement} from
 */
export function arrowTarget(event, items, from) {
  const index = items.indexOf(from);
  switch (event.key) {
    case "ArrowRight":
    case "ArrowDown":
      return items[(index + 1) % items.length];
    case "ArrowLeft":
    case "ArrowUp":
      return items[(index - 1 + items.length) % items.length];
    case "Home":
      return items[0];
    case "End":
      return items[items.length - 1];
    default:
      return undefined;
  }
}
