/** Which of some folds are open, by names that are the same in every language: they outlive being made anew. */

export class Folds {
  /** @type {Set<string>} */
  #open;

  /** @param {string[]} [open] */
  constructor(open = []) {
    this.#open = new Set(open);
  }

  /** The names of those that are. */
  get open() {
    return [...this.#open];
  }

  /**
   * Has one be as it was left.
   * @template {HTMLElement} Node
   * @param {string} name
   * @param {Node} node
   */
  keep(name, node) {
    const fold = /** @type {HTMLDetailsElement} */ (/** @type {unknown} */ (node));
    fold.open = this.#open.has(name);
    fold.addEventListener("toggle", () => (fold.open ? this.#open.add(name) : this.#open.delete(name)));
    return node;
  }
}
