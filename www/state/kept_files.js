/** The user's own files, kept in the browser for as long as its tab is open: a reload has them still. */

import { siteFile } from "../kit/site.js";

/** @typedef {{ text: string, name: string, draft?: string, time?: number, gone?: boolean, changed?: boolean }} OwnFile */

/** Other sites of this host have theirs. */
const key = () => `levertrain files ${siteFile("").href}`;

/** @returns {OwnFile[]} none where nothing is kept, or what is kept is not ours */
export function keptFiles() {
  try {
    const kept = JSON.parse(sessionStorage.getItem(key()) ?? "[]");
    const whole = Array.isArray(kept) && kept.every(({ text, name }) => `${text}` === text && `${name}` === name);
    return whole ? kept : [];
  } catch {
    return [];
  }
}

/**
 * Throws where the browser keeps nothing, or has no room.
 * @param {OwnFile[]} files
 */
export function keepFiles(files) {
  sessionStorage.setItem(key(), JSON.stringify(files));
}
