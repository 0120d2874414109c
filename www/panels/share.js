/** Taking things away: pictures, a link to this view, and the markup that embeds it. */

import { h } from "../kit/dom.js";
import { follow } from "../state/follow.js";
import { fragmentOf, unusualCodes } from "../address/link.js";
import { MOST_CODE, packed } from "../address/packed.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { stageFigure, takeSvg } from "../stage/take_away.js";

/** @typedef {import("../state/desk.js").Desk} Desk */
/** @typedef {import("./registry.js").Surroundings} Surroundings */
/** @typedef {import("../kit/panel.js").Panel} Panel */

/**
 * @param {Panel} panel
 * @param {Surroundings} surroundings
 */
export function fill(panel, { desk }) {
  const link = /** @type {HTMLInputElement} */ (
    h("input", { id: "link", readonly: true, "data-part": "link", focus: () => link.select() })
  );
  const embed = /** @type {HTMLTextAreaElement} */ (
    h("textarea", { id: "embed", readonly: true, rows: 4, spellcheck: "false", "data-part": "embed", focus: () => embed.select() })
  );
  const full = /** @type {HTMLInputElement} */ (h("input", { type: "checkbox", "data-part": "embed-all", change: update }));
  const own = h("p", { class: "note" }, say("page-share-own", { most: MOST_CODE }));
  const embedding = [
    h("label", { for: "embed" }, say("page-share-embed")),
    embed,
    h("label", { class: "control check" }, full, h("span", {}, say("page-share-full"))),
    copyButton(embed),
  ];
  const linked = h(
    "div",
    { class: "linked" },
    h("label", { for: "link" }, say("page-share-link")),
    h("div", { class: "copy" }, link, copyButton(link)),
    ...embedding,
  );
  panel.fill(
    h(
      "p",
      { class: "row" },
      pictureButton(desk, "section", say("page-share-section")),
      pictureButton(desk, "lever", say("page-share-lever")),
    ),
    linked,
    own,
  );

  function update() {
    const { source, answer } = desk;
    const stem = source && "stem" in source ? source.stem : undefined;
    for (const node of embedding) node.hidden = stem === undefined;
    if (!source || !answer) return;
    if (stem === undefined) {
      updateOwn();
      return;
    }
    showLink({ stem });
    const module = siteFile("element.js");
    const attributes = { scenario: stem, applied: answer.applied.join(), speed: desk.speed, ...unusualCodes(desk), with: full.checked ? "all" : undefined };
    const said = Object.entries(attributes).filter(([, value]) => value !== undefined);
    embed.value =
      `<script type="module" src="${module}"></script>\n` +
      `<lever-train ${said.map(([name, value]) => `${name}="${value}"`).join(" ")}></lever-train>`;
  }
  /** @param {{ stem: string } | { train: string } | undefined} what */
  function showLink(what) {
    linked.hidden = !what;
    own.hidden = Boolean(what);
    if (what) link.value = new URL(fragmentOf(what, desk.answer?.applied ?? [], desk), pageAddress()).href;
  }

  /** The link to a train of the user's own holds all of it. */
  async function updateOwn() {
    const { text } = desk;
    const train = await packed(text).catch(() => undefined);
    const now = desk.source && "file" in desk.source && text === desk.text;
    if (now) showLink(train === undefined ? undefined : { train });
  }
  follow(desk, ["answer", "speed", "torque", "units", "road", "assumptions", "look"], update);
}

/** The page that comes with the element, whichever page the element is in. */
function pageAddress() {
  return siteFile("index.html");
}

/**
 * @param {Desk} desk
 * @param {"section" | "lever"} drawing
 * @param {string} name
 */
function pictureButton(desk, drawing, name) {
  const take = () => takeSvg(desk, stageFigure(desk, drawing), true).catch((error) => desk.report(error));
  return h("button", { class: "plain", type: "button", "data-export": drawing, click: take }, name);
}

/** @param {HTMLInputElement | HTMLTextAreaElement} field */
function copyButton(field) {
  const button = h("button", { class: "plain", type: "button", click: copy }, say("page-share-copy"));
  return button;

  async function copy() {
    try {
      await navigator.clipboard.writeText(field.value);
      button.textContent = say("page-share-copied");
    } catch {
      // Without the clipboard the text is at least selected, ready for the user's own copy.
      field.select();
      button.textContent = say("page-share-selected");
    }
    setTimeout(() => (button.textContent = say("page-share-copy")), 2000);
  }
}
