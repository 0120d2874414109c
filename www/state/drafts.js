/**
 * Trains that were changed, kept in the browser after their tab is closed: each by itself, under a name that
 * only one tab at a time writes to, so that two tabs never write over each other's work.
 */

import { siteFile } from "../kit/site.js";

/** @typedef {{ id: string, name: string, text: string, time: number }} Draft */

/** Other sites of this host have theirs. */
const start = () => `levertrain draft ${siteFile("").href} `;

/** Those that this tab writes to. @type {Set<string>} */
const held = new Set();

/** All that are kept, the latest first; none where the browser keeps nothing. @returns {Draft[]} */
export function drafts() {
  try {
    const ours = Object.entries(localStorage).filter(([key]) => key.startsWith(start()));
    const read = ours.flatMap(([key, value]) => draftOf(key.slice(start().length), value));
    return read.sort((one, other) => other.time - one.time);
  } catch {
    return [];
  }
}

/**
 * @param {string} id
 * @param {string} value
 * @returns {Draft[]} none where it is not ours
 */
function draftOf(id, value) {
  try {
    const { name, text, time } = JSON.parse(value);
    return `${name}` === name && `${text}` === text ? [{ id, name, text, time: Number(time) }] : [];
  } catch {
    return [];
  }
}

/**
 * Keeps a draft, under the id it had, or another where another tab has that or went on with it; throws where
 * the browser keeps nothing, or has no room.
 * @param {{ draft?: string, time?: number }} known by what it was kept last, and when
 * @param {{ name: string, text: string }} draft
 * @returns {Promise<{ draft: string, time: number }>} by what it is kept now
 */
export async function keepDraft({ draft: id, time }, { name, text }) {
  // One that this tab has is kept at once: the page may be about to close.
  const goesOn = id !== undefined && (held.has(id) || ((await hold(id)) && timeOf(id) === time));
  const draft = goesOn ? id : await fresh();
  const now = Date.now();
  localStorage.setItem(start() + draft, JSON.stringify({ name, text, time: now }));
  held.add(draft);
  return { draft, time: now };
}

/** When a draft was kept last. @param {string} id */
function timeOf(id) {
  return drafts().find((draft) => draft.id === id)?.time;
}

/** @param {string} id */
export function forgetDraft(id) {
  try {
    localStorage.removeItem(start() + id);
  } catch {
    // What keeps nothing has nothing to forget.
  }
}

async function fresh() {
  const id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`;
  await hold(id);
  return id;
}

/**
 * Takes a draft for this tab, until it is closed.
 * @param {string} id
 * @returns {Promise<boolean>} whether no other tab has it; not where browsers do not tell
 */
function hold(id) {
  const { locks } = navigator;
  if (!locks) return Promise.resolve(false);
  return new Promise((resolve) => {
    locks
      .request(start() + id, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        if (!lock) return undefined;
        // Held for as long as the tab is there.
        return new Promise(() => undefined);
      })
      .catch(() => resolve(false));
  });
}
