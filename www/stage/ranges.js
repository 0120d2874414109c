/** One button a range; arrow keys step through them. */

import { arrowTarget, h, rove, whenOther } from "../kit/dom.js";
import { say } from "../kit/words.js";
import { follow } from "../state/follow.js";
import { markLocked } from "../state/lockable.js";
import { takeDigits } from "./digits.js";

/** Labels of more characters than this are set smaller, so that a row still holds several. */
const LONG = 10;

/**
 * @param {import("../state/desk.js").Desk} desk
 * @param {HTMLElement[]} beside what stands in the same row
 */
export function ranges(desk, beside) {
  /** Whether there are to be buttons at all. */
  let offered = true;
  const buttons = h("div", { class: "range-buttons", role: "group", "aria-label": say("page-ranges") });
  const release = h(
    "button",
    { class: "plain", type: "button", "data-part": "release-all", click: () => desk.apply([]) },
    say("page-release-all"),
  );
  const node = h("div", { class: "ranges", part: "ranges" }, buttons, h("div", { class: "ranges-end" }, ...beside, release));

  buttons.addEventListener("keydown", (event) => {
    const items = all();
    const target = arrowTarget(event, items, /** @type {HTMLElement} */ (event.target));
    if (!target) return;
    event.preventDefault();
    target.focus();
    target.click();
  });
  takeDigits(desk, buttons);

  const named = () => (desk.info?.ranges ?? []).map(({ id, label }) => ({ id, label }));
  /** @param {string} id */
  const applied = (id) => desk.info?.ranges.find((range) => range.id === id)?.applied ?? [];
  const build = whenOther(named, () => {
    buttons.replaceChildren(
      ...named().map(({ id, label }, at) =>
        h(
          "button",
          {
            type: "button",
            "data-range-id": id,
            "aria-keyshortcuts": at < 9 ? at + 1 : undefined,
            click: () => desk.apply(applied(id)),
          },
          label,
        ),
      ),
    );
    buttons.toggleAttribute("data-long", named().some(({ label }) => label.length > LONG));
  });

  /** Whether a question is open that they would answer. */
  let veiled = false;

  function show() {
    const shown = offered && !veiled;
    buttons.hidden = !shown;
    release.hidden = !shown || (desk.info?.elements.length ?? 0) === 0;
  }

  /** @param {boolean} now */
  function veil(now) {
    veiled = now;
    show();
  }

  /** @param {boolean} wanted */
  function offer(wanted) {
    offered = wanted;
    show();
  }

  function update() {
    const items = all();
    let current;
    for (const item of items) {
      const pressed = item.dataset.rangeId === desk.answer?.range;
      item.setAttribute("aria-pressed", String(pressed));
      markLocked(desk, "elements", item);
      if (pressed) current = item;
    }
    rove(items, current);
    const nothing = desk.answer?.applied.length === 0;
    // It keeps the focus of whoever has just pressed it.
    release.setAttribute("aria-disabled", String(nothing || desk.isLocked("elements")));
  }

  function all() {
    return /** @type {HTMLElement[]} */ ([...buttons.children]);
  }

  follow(desk, ["train"], () => {
    build();
    show();
  });
  follow(desk, ["answer", "lock", "veil"], update);
  return { node, offer, veil };
}
