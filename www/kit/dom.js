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

/** @type {Record<string, string>} */
const ICONS = {
  mark:
    '<path class="thin" d="M6 4v24"/><path d="M6 26 27 6"/>' +
    '<circle class="ink" cx="6" cy="26" r="3.4"/><circle class="forward" cx="15" cy="17.4" r="3.4"/>' +
    '<circle class="backward" cx="26" cy="7" r="3.4"/>',
  forward: '<path d="M3 16h23M18 8l9 8-9 8"/>',
  backward: '<path d="M29 16H6M14 8l-9 8 9 8"/>',
  held: '<path d="M4 11h24M8 11l-4 8M16 11l-4 8M24 11l-4 8M29.500 12l-3.500 7"/>',
  free: '<path d="M2 16h5M11 16h4M19 16h4M27 16h3"/>',
  fights: '<path d="M2 16h9l3-8 4 16 3-8h9"/>',
  play: '<path class="fill" d="M9 5v22l18-11z"/>',
  pause: '<path class="fill" d="M7 5h6v22H7zM19 5h6v22h-6z"/>',
  close: '<path d="M7 7l18 18M25 7 7 25"/>',
  auto: '<circle cx="16" cy="16" r="11"/><path class="fill" d="M16 5a11 11 0 0 1 0 22z"/>',
  light: '<circle cx="16" cy="16" r="6"/><path d="M16 2v4M16 26v4M2 16h4M26 16h4M6 6l3 3M23 23l3 3M26 6l-3 3M9 23l-3 3"/>',
  dark: '<path d="M26 19A11 11 0 1 1 13 6a9 9 0 0 0 13 13z"/>',
};

/**
 * A picture beside a word that says the same: hidden from screen readers.
 * @param {string} name
 */
export function icon(name) {
  const template = document.createElement("template");
  template.innerHTML =
    `<svg class="icon icon-${name}" viewBox="0 0 32 32" aria-hidden="true" focusable="false">${ICONS[name]}</svg>`;
  return /** @type {SVGElement} */ (template.content.firstElementChild);
}

/**
 * Text for screen readers only.
 * @param {string} text
 */
export function unseen(text) {
  return h("span", { class: "unseen" }, text);
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
