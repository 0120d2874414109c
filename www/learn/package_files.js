/** What is in a package: the files of the site that a lesson takes, and those of the lesson itself. */

import { hostAnswered } from "../kit/before.js";
import { Failure, problemsOf } from "../kit/problems.js";
import { siteFile } from "../kit/site.js";
import { say } from "../kit/words.js";
import { PAGE, manifest12, manifest2004 } from "./manifest.js";
import { FORMAT } from "./sheet_text.js";

/** @typedef {"scorm12" | "scorm2004" | "xapi"} Form */

/**
 * @typedef {object} Lesson
 * @property {string} title
 * @property {string} language
 * @property {Form} form what it is for
 * @property {number} [pass] from how many percent it is passed
 * @property {string} train the text of the scenario
 * @property {string} name what the train is called
 * @property {string[]} walk ids of the ranges to walk through first
 * @property {unknown[]} tasks
 */

/** Lists the files of the site. */
const LIST = "service_worker.js";
/** Files of the site that a lesson takes, and folders of which it takes all. */
const FILES = [PAGE, "LICENSE", "element.js", "lesson.js", "mark.svg", "walker.js"];
const FOLDERS = ["address", "course", "css", "edit", "engine", "fonts", "kit", "learn", "page", "panels", "stage", "state", "work"];
const PACKER = "engine/levertrain_packer";
/** What is for instructors, or looks for teeth and layouts, is in no package. */
const NOT_TAKEN = [PACKER, "engine/levertrain_search", "learn/in_class", "learn/handout_paper", "css/in_class", "css/handout"];
/** The scenario of a package. */
const SCENARIO = "lesson";
/** What a page may ask for, and what it may where the course system is on another host, as a store of statements is. */
const OWN_HOST = "connect-src 'self'";
const ANY_HOST = "connect-src 'self' https: http:";

/** The bytes of a package. @param {Lesson} lesson @returns {Promise<Uint8Array<ArrayBuffer>>} */
export async function packed(lesson) {
  const [files, program, { default: start, Packer }] = await Promise.all([filesOf(lesson), bytesOf(`${PACKER}_bg.wasm`), import(siteFile(`${PACKER}.js`).href)]);
  await start({ module_or_path: program });
  const packer = new Packer();
  // In the same order always, as the same lesson is to be the same package.
  for (const name of [...files.keys()].sort()) packer.add(name, files.get(name));
  return packer.finish();
}

/** @param {Lesson} lesson */
async function filesOf(lesson) {
  const words = `words/${lesson.language}.ftl`;
  const listed = Object.entries(await listedFiles());
  const taken = listed.filter(([name]) => name === words || FILES.includes(name) || (FOLDERS.includes(name.split("/")[0]) && !NOT_TAKEN.some((start) => name.startsWith(start))));
  const files = new Map(await Promise.all(taken.map(async ([name, integrity]) => /** @type {const} */ ([name, await bytesOf(name, integrity)]))));
  for (const [name, text] of Object.entries(ownFiles(lesson))) files.set(name, bytes(text));
  if (lesson.form === "xapi") {
    const page = new TextDecoder().decode(files.get(PAGE));
    files.set(PAGE, bytes(page.replace(OWN_HOST, ANY_HOST)));
    return files;
  }
  const { title, pass } = lesson;
  const course = { identifier: `levertrain-${await nameOf(lesson)}`, title, pass, files: [...files.keys()].sort() };
  files.set("imsmanifest.xml", bytes(lesson.form === "scorm12" ? manifest12(course) : manifest2004(course)));
  return files;
}

/** What the lesson itself is, as the page and its elements read it. @param {Lesson} lesson @returns {Record<string, string>} */
function ownFiles({ title, language, form, pass, train, name, walk, tasks }) {
  const first = walk.length > 0 ? { walk } : {};
  return {
    "lesson.json": written({ title, language, form, pass, questions: tasks.length }),
    "sheet.json": written({ format: FORMAT, title, ...first, tasks }),
    "scenarios/index.json": written([{ file: `${SCENARIO}.json`, name, text: train }]),
    // All of it is in the language of the lesson as it is.
    [`scenarios/words/${language}.json`]: written({}),
  };
}

/** Every file of the site with the digest of what is in it. @returns {Promise<Record<string, string>>} */
async function listedFiles() {
  const text = new TextDecoder().decode(await bytesOf(LIST));
  const list = /^self\.SITE = (.*);$/m.exec(text)?.[1];
  if (!list) throw failure(LIST, say("page-problem-list"));
  return JSON.parse(list).files;
}

/** @param {string} name @param {string} [integrity] so that all are of one version of the site */
async function bytesOf(name, integrity) {
  /** @type {string} */
  let reason;
  try {
    const response = await fetch(siteFile(name), { integrity });
    if (response.ok) return new Uint8Array(await response.arrayBuffer());
    reason = hostAnswered(response.status);
  } catch (error) {
    reason = problemsOf(error)[0].problem;
  }
  throw failure(name, reason);
}

/** @param {string} file @param {string} reason */
function failure(file, reason) {
  return new Failure(say("page-package"), say("page-problem-package", { file, reason }), say("page-fix-package"));
}

/** The start of a digest of a lesson: another one has another. @param {Lesson} lesson */
async function nameOf(lesson) {
  let sum = 0xcbf29ce484222325n;
  // FNV-1a of 64 bits: browsers have better digests only for pages of secure hosts.
  for (const byte of bytes(JSON.stringify(lesson))) sum = BigInt.asUintN(64, (sum ^ BigInt(byte)) * 0x100000001b3n);
  return sum.toString(16).padStart(16, "0");
}

/** @param {unknown} value */
function written(value) {
  return `${JSON.stringify(value, null, 2)}\n`;
}

/** @param {string} text */
function bytes(text) {
  return new TextEncoder().encode(text);
}
