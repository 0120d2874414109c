/** The button and the key that show what is on stage to a class. What they show is a module of its own, fetched then. */

import { h, icon, unseen } from "../kit/dom.js";
import { Failure, problemsOf } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { parted, say, voice } from "../kit/words.js";

/** The key, which no letter is typed with. */
const KEY = "F8";
const MODULE = "learn/in_class.js";

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {{ host: HTMLElement, keys: EventTarget, rest(resting: boolean): void, signal: AbortSignal }} page where the element
 *   is, where keys are heard, and how its own drawings are told to rest
 */
export function inClass(desk, { host, keys, rest, signal }) {
  /** What is shown instead of the drawings. @type {{ draw(changed: boolean): void } | undefined} */
  let shown;
  let coming = false;
  const title = say("page-class-title", { key: KEY });
  const button = h("button", { class: "plain board", type: "button", title, "aria-keyshortcuts": KEY, "data-part": "class-begin", click: begin }, icon("board"), unseen(say("page-class")));

  async function begin() {
    // While a question is open there is nothing to show.
    if (coming || shown || desk.veiled || !desk.info) return;
    coming = true;
    try {
      const [module] = await Promise.all([import(siteFile(MODULE).href), desk.becomeWhole()]);
      /** @type {typeof import("../learn/in_class.js")} */
      const { show } = module;
      const root = /** @type {ShadowRoot} */ (host.shadowRoot);
      rest(true);
      shown = await show(desk, { root, voice, signal, ended });
    } catch (error) {
      ended();
      const reasons = parted(problemsOf(error).map(({ problem }) => problem));
      desk.report(new Failure(say("page-class"), say("page-problem-panel", { reasons }), say("page-fix-class")));
    } finally {
      coming = false;
    }
  }

  function ended() {
    shown = undefined;
    rest(false);
    button.focus({ preventScroll: true });
  }

  keys.addEventListener(
    "keydown",
    (given) => {
      const event = /** @type {KeyboardEvent} */ (given);
      if (event.key !== KEY || event.defaultPrevented || !button.checkVisibility()) return;
      event.preventDefault();
      begin();
    },
    { signal },
  );
  const offer = () => (button.disabled = desk.veiled !== undefined);
  desk.addEventListener("veil", offer);
  return { button, drawing: () => shown };
}
