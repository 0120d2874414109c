/** A whole train in a link: the text of its file, without spaces, compressed, in letters that addresses may hold. */

import { Failure } from "../kit/problems.js";
import { say } from "../kit/words.js";

/** Longest code a link may hold, in characters: some programs cut longer links off. */
export const MOST_CODE = 8000;
/** Longest text that one may unfold to, in bytes, as for files. */
const MOST_BYTES = 64 * 1024;

const FORMAT = "deflate-raw";

/**
 * @param {string} text of a scenario file
 * @returns {Promise<string | undefined>} nothing where it would be too long, or the browser does not compress
 */
export async function packed(text) {
  if (typeof CompressionStream !== "function") return undefined;
  const short = JSON.stringify(JSON.parse(text));
  const bytes = new Uint8Array(await through(short, new CompressionStream(FORMAT)));
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  const code = btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  return code.length <= MOST_CODE ? code : undefined;
}

/** @param {string} text @param {CompressionStream} stream */
function through(text, stream) {
  return new Response(new Blob([text]).stream().pipeThrough(stream)).arrayBuffer();
}

/**
 * The text that a code stands for; a `Failure` where it stands for none.
 * @param {string} code
 * @returns {Promise<string>}
 */
export async function unpacked(code) {
  try {
    const letters = atob(code.replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
    return await unfolded(new Blob([bytes]).stream().pipeThrough(new DecompressionStream(FORMAT)));
  } catch {
    throw new Failure(say("page-place-link"), say("page-problem-link-train"), say("page-fix-link"));
  }
}

/**
 * Reads no further than a file may be long: a short code can stand for gigabytes.
 * @param {ReadableStream<Uint8Array>} stream
 */
async function unfolded(stream) {
  const reader = stream.getReader();
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let [text, length] = ["", 0];
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return text + decoder.decode();
    length += value.byteLength;
    if (length > MOST_BYTES) {
      reader.cancel().catch(() => undefined);
      throw new RangeError();
    }
    text += decoder.decode(value, { stream: true });
  }
}
