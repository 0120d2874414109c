/**
 * Where the files of the site are, whichever page the element is in.
 *
 * Only the entry module knows: every other one may end up in a bundle in another folder.
 */

/** @type {URL | undefined} */
let root;

/** @param {string} entry address of a module at the root of the site */
export function rootedAt(entry) {
  root = new URL(".", entry);
}

/**
 * The address of a file of the site.
 * @param {string} path from the root of the site
 */
export function siteFile(path) {
  return new URL(path, root);
}
