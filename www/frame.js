/**
 * The sandbox in a frame of another page: what stands in the address are the attributes of the element, and `host`
 * names the one origin that may send messages to it and is sent some. `embedding.html` tells what they are.
 *
 * What goes wrong here is said in English, as a console says it: it is for whoever writes the page around it.
 */

/** Version of the messages, in each of them. */
const VERSION = 1;

/** Attributes that a frame takes besides those that are heeded when they change. */
const AT_START = ["exercise", "language"];
/** Those of them that name files. */
const FILES = ["train", "exercise"];
/** The parameter that is no attribute. */
const HOST = "host";

/** Longest texts and lists of a message: more than any train can have. */
const MOST_TEXT = 65_536;
const MOST_VALUE = 8_000;
const MOST_NAME = 200;
const MOST_NAMES = 100;

/** @typedef {import("./engine/levertrain.js").Answer} Answer */
/** What of the element is used here.
 * @typedef {HTMLElement & { answer?: Answer, progress: string | null, apply(ids: string[]): Promise<Answer | undefined>, open(text: string, name?: string): Promise<Answer | undefined> }} Train */

await customElements.whenDefined("lever-train");
const heeded = /** @type {{ observedAttributes: string[] }} */ (/** @type {unknown} */ (customElements.get("lever-train"))).observedAttributes;

const train = /** @type {Train} */ (document.createElement("lever-train"));
const main = /** @type {HTMLElement} */ (document.querySelector("main"));
/** The origin that messages are read from and sent to. @type {string | undefined} */
let host;
/** @type {string[]} */
const problems = [];

for (const [name, value] of new URLSearchParams(location.search)) {
  try {
    if (name === HOST) host = originIn(value);
    else train.setAttribute(name, checked(name, value, [...heeded, ...AT_START]));
  } catch (error) {
    problems.push(reasonOf(error));
  }
}

/**
 * What can be asked for, by what names the question.
 * @type {Record<string, { needs: string[], may?: string[], answer(asked: Record<string, unknown>): unknown }>}
 */
const COMMANDS = {
  answer: { needs: [], answer: () => train.answer ?? null },
  apply: { needs: ["elements"], answer: ({ elements }) => train.apply(names(elements, "elements")) },
  open: {
    needs: ["text"],
    may: ["name"],
    answer: ({ text, name }) => train.open(textIn(text, "text", MOST_TEXT), name === undefined ? undefined : textIn(name, "name", MOST_NAME)),
  },
  set: { needs: ["attributes"], answer: ({ attributes }) => set(attributes) },
  progress: {
    needs: [],
    may: ["text"],
    answer: ({ text }) => {
      if (text !== undefined) train.progress = text === null ? null : textIn(text, "text", MOST_VALUE);
      return train.progress;
    },
  },
};

if (host !== undefined && parent !== window) {
  addEventListener("message", hear);
  train.addEventListener("levertrain-ready", () => tell("ready", train.answer));
  train.addEventListener("levertrain-change", (event) => tell("change", detailOf(event)));
  train.addEventListener("levertrain-score", (event) => tell("score", detailOf(event)));
  train.addEventListener("levertrain-walk", (event) => tell("walk", detailOf(event)));
  train.addEventListener("levertrain-error", (event) => tell("error", { message: reasonOf(detailOf(event)) }));
  let height = 0;
  new ResizeObserver(() => {
    const now = Math.ceil(document.body.getBoundingClientRect().height);
    if (now !== height) tell("size", { height: now });
    height = now;
  }).observe(document.body);
}
train.addEventListener("levertrain-ready", () => {
  document.documentElement.lang = train.shadowRoot?.querySelector("[lang]")?.getAttribute("lang") ?? "en";
});
// The page says nothing of its language before: it is that of the address, or of the browser.
document.documentElement.removeAttribute("lang");
for (const problem of problems) {
  const said = document.createElement("p");
  said.className = "frame-problem";
  said.setAttribute("role", "alert");
  said.lang = "en";
  said.textContent = problem;
  main.append(said);
  tell("error", { message: problem });
}
main.append(train);

/** @param {MessageEvent} event */
async function hear({ data, origin, source }) {
  if (origin !== host || source !== parent || isOurs(data)) return;
  const id = idIn(data);
  try {
    const value = await answerTo(data);
    send({ reply: id, value });
  } catch (error) {
    send({ reply: id, error: reasonOf(error) });
  }
}

/** Whether a message is one that was sent from here: somebody sends all back. @param {unknown} data */
function isOurs(data) {
  return isRecord(data) && ("reply" in data || "event" in data);
}

/** @param {unknown} data */
function answerTo(data) {
  if (!isRecord(data)) throw new Error("a message is an object");
  if (data.levertrain !== VERSION) throw new Error(`a message has levertrain: ${VERSION}, its version`);
  if (data.id !== undefined && idIn(data) === null) throw new Error(`id is a number, or a text of up to ${MOST_NAME} characters`);
  const known = Object.keys(COMMANDS).join(", ");
  const { command } = data;
  if (typeof command !== "string" || !Object.hasOwn(COMMANDS, command)) throw new Error(`command is one of ${known}`);
  const { needs, may = [], answer } = COMMANDS[command];
  const parts = [...needs, ...may];
  const missing = needs.find((part) => data[part] === undefined);
  if (missing) throw new Error(`${command} needs ${missing}`);
  const unknown = Object.keys(data).find((part) => !["levertrain", "id", "command", ...parts].includes(part));
  if (unknown !== undefined) throw new Error(`${command} takes ${parts.join(", ") || "nothing"}, and not ${quoted(unknown)}`);
  return answer(data);
}

/** The mark by which the one who asks knows the answer. @param {unknown} data */
function idIn(data) {
  const id = isRecord(data) ? data.id : undefined;
  const fits = Number.isFinite(id) || (typeof id === "string" && id.length <= MOST_NAME);
  return fits ? id : null;
}

/** @param {unknown} attributes */
function set(attributes) {
  if (!isRecord(attributes)) throw new Error("attributes is an object: names, each with a text, or with null to take it away");
  // All of them, or none.
  const all = Object.entries(attributes).map(([name, value]) => /** @type {const} */ ([name, value === null ? null : checked(name, value, heeded)]));
  for (const [name] of all) checked(name, "", heeded);
  for (const [name, value] of all) {
    if (value === null) train.removeAttribute(name);
    else train.setAttribute(name, value);
  }
  return null;
}

/**
 * The value of an attribute; throws where it is none, or may not be had.
 * @param {string} name
 * @param {unknown} value
 * @param {string[]} known
 */
function checked(name, value, known) {
  if (!known.includes(name)) {
    const late = AT_START.includes(name) ? "is read once, from the address of the frame" : `is none of ${known.join(", ")}`;
    throw new Error(`${quoted(name)} ${late}`);
  }
  const text = textIn(value, name, MOST_VALUE);
  if (FILES.includes(name) && text !== "" && !(name === "exercise" && text === "scenario")) checkFile(name, text);
  return text;
}

/**
 * Whoever frames this page must not have it read, with the rights of its reader, what else there is on its host.
 * @param {string} name
 * @param {string} text
 */
function checkFile(name, text) {
  const folder = new URL(".", import.meta.url).href;
  const address = URL.canParse(text, document.baseURI) ? new URL(text, document.baseURI).href : "";
  if (!address.startsWith(folder)) throw new Error(`${name} is a file in ${folder}; send any other as text, by the command open`);
}

/**
 * @param {unknown} value
 * @param {string} name
 * @param {number} most
 */
function textIn(value, name, most) {
  if (typeof value !== "string" || value.length > most) throw new Error(`${name} is a text of up to ${most} characters`);
  return value;
}

/**
 * @param {unknown} value
 * @param {string} name
 */
function names(value, name) {
  if (!Array.isArray(value) || value.length > MOST_NAMES) throw new Error(`${name} is a list of up to ${MOST_NAMES} ids`);
  return value.map((id) => textIn(id, `each of ${name}`, MOST_NAME));
}

/** The origin that a text is; throws where it is more, or less. @param {string} text */
function originIn(text) {
  const origin = URL.canParse(text) ? new URL(text).origin : "null";
  if (origin === "null" || origin !== text) {
    throw new Error(`host is one origin, such as https://school.example, and not ${quoted(text)}: no message is read or sent`);
  }
  return origin;
}

/**
 * @param {string} event
 * @param {unknown} detail
 */
function tell(event, detail) {
  send({ event, detail });
}

/** Only the origin that is named can read it. @param {Record<string, unknown>} message */
function send(message) {
  if (host !== undefined && parent !== window) parent.postMessage({ levertrain: VERSION, ...message }, host);
}

/** @param {unknown} data @returns {data is Record<string, unknown>} */
function isRecord(data) {
  return typeof data === "object" && data !== null && Object.getPrototypeOf(data) === Object.prototype;
}

/** @param {Event} event */
function detailOf(event) {
  return /** @type {CustomEvent} */ (event).detail;
}

/** @param {unknown} error */
function reasonOf(error) {
  return error instanceof Error ? error.message : String(error);
}

/** What somebody else wrote, no longer than a line. @param {string} text */
function quoted(text) {
  return JSON.stringify(text.length > MOST_NAME ? `${text.slice(0, MOST_NAME)}…` : text);
}
