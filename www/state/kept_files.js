/** The user's own files, kept in the browser for as long as its tab is open: a reload has them still. */

import { siteFile } from "../kit/site.js";

/** A file of the user's own: what it is kept by where it was changed here, whether that was since it was
 * opened, and whether it was deleted.
 * @typedef {{ text: string, name: string, draft?: string, time?: number, gone?: boolean, changed?: boolean }} OwnFile */
/**
 * What can be done with trains: begin another, open one more like the one on screen, delete that, which gives what
 * brings it back, and open one that was there before.
 * @typedef {object} Files
 * @property {{ name: string, gone?: boolean }[]} files those there are, by their numbers
 * @property {(text: string, name: string) => void} begin
 * @property {() => void} repeat
 * @property {() => Promise<(() => void) | undefined>} forget
 * @property {(key: number) => void} pick opens the one of this number
 * @property {(view: { stem: string }) => Promise<void>} show opens a scenario
 */

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
