/**
 * Guided by what of the page's modules an input reaches: any fragment of an address is a view, or refused in
 * words; any code of a train unfolds to a text of at most the length of a file, or is refused, and a train
 * that unfolds is packed and unfolded as it was. `node tests/guided/link.mjs SECONDS`.
 */

import { readdirSync, readFileSync } from "node:fs";
import { Session } from "node:inspector";

const WWW = new URL("../../www/", import.meta.url);
const MOST_TEXT = 64 * 1024;
/** Inputs longer than any link that can be pasted. */
const MOST_INPUT = 20_000;

globalThis.location = { href: "http://localhost/" };
globalThis.document = { baseURI: location.href };
const { viewOf } = await import(new URL("address/link.js", WWW));
const { packed, unpacked } = await import(new URL("address/packed.js", WWW));
const { Failure } = await import(new URL("kit/problems.js", WWW));

/** @param {Error} error */
function isRefusal(error) {
  if (error instanceof Failure) return true;
  throw error;
}

/** @param {string} input */
async function check(input) {
  let view;
  try {
    view = viewOf(input);
  } catch (error) {
    if (isRefusal(error)) return;
  }
  if (view.failures?.some((failure) => !(failure instanceof Failure))) throw new Error("a failure in no words");
  let text;
  try {
    text = await unpacked(view.train ?? input);
  } catch (error) {
    if (isRefusal(error)) return;
  }
  if (new TextEncoder().encode(text).length > MOST_TEXT) throw new Error(`${text.length} characters unfolded`);
  let short;
  try {
    short = JSON.stringify(JSON.parse(text));
  } catch {
    return;
  }
  const code = await packed(text);
  if (code !== undefined && (await unpacked(code)) !== short) throw new Error("another text comes back");
}

const inspector = new Session();
inspector.connect();
const ask = (method, values) => new Promise((resolve, reject) => inspector.post(method, values, (error, found) => (error ? reject(error) : resolve(found))));
await ask("Profiler.enable");
await ask("Profiler.startPreciseCoverage", { callCount: true, detailed: true });

const seen = new Set();

/** Whether anything of the page's modules ran that had not, or more often than it had. */
async function isNew() {
  const { result } = await ask("Profiler.takePreciseCoverage");
  const before = seen.size;
  for (const { url, functions } of result) {
    if (!url.startsWith(WWW.href)) continue;
    for (const { ranges } of functions) {
      for (const { startOffset, endOffset, count } of ranges) {
        if (count > 0) seen.add(`${url} ${startOffset} ${endOffset} ${Math.ceil(Math.log2(count))}`);
      }
    }
  }
  return seen.size > before;
}

let state = 12_345;
/** @param {number} below */
function random(below) {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  return (state >>> 0) % below;
}

const PIECES = ["#", "&", "=", ",", "%", "%41", "%ff", "s=", "f=", "on=", "n=", "t=", "u=", "o=", "l=", "v=", "power", "1e308", "-0", "NaN", "A", "_", "-", "\u{10ffff}", "\ud800"];

/** @param {string} one @param {string} other */
function changed(one, other) {
  const [at, length] = [random(one.length + 1), random(12)];
  switch (random(5)) {
    case 0:
      return one.slice(0, at) + PIECES[random(PIECES.length)] + one.slice(at);
    case 1:
      return one.slice(0, at) + one.slice(at + length);
    case 2:
      return one.slice(0, at) + String.fromCharCode(32 + random(95)) + one.slice(at + 1);
    case 3:
      return one.slice(0, at) + one.slice(at, at + length).repeat(1 + random(8)) + one.slice(at);
    default:
      return one.slice(0, at) + other.slice(random(other.length + 1));
  }
}

const folder = new URL("../../scenarios/", import.meta.url);
const files = readdirSync(folder).filter((name) => /^\d.*\.json$/.test(name));
const kept = ["", "#s=a&on=V,W&n=1500&t=80&u=lbfft,hp&o=60,5,0&l=98.5,0,0&v=power,joined,scale"];
for (const name of files) {
  const code = await packed(readFileSync(new URL(name, folder), "utf8"));
  kept.push(`#f=${code}&on=V&n=1500`, code);
}
// A short code that stands for megabytes.
const { deflateRawSync } = await import("node:zlib");
kept.push(`#f=${deflateRawSync(Buffer.alloc(4_000_000)).toString("base64url")}`);

for (const input of kept) await check(input).then(isNew);
const end = Date.now() + 1000 * Number(process.argv[2] ?? 600);
let runs = 0;
while (Date.now() < end) {
  let input = kept[random(kept.length)];
  for (let times = random(6); times >= 0; times -= 1) input = changed(input, kept[random(kept.length)]).slice(0, MOST_INPUT);
  try {
    await check(input);
  } catch (error) {
    console.error(JSON.stringify(input));
    throw error;
  }
  runs += 1;
  if (await isNew()) kept.push(input);
}
console.log(`${runs} runs, ${kept.length} inputs kept, ${seen.size} places reached`);
