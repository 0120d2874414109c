/** What the samples of the page about embedding do when they are tried: what their markup says. */

/** @typedef {HTMLElement & { range: string | null, apply(ids: string[]): Promise<{ range: string | null, stateWords: string, ratio: { fraction: string } | null } | undefined> }} Train */

/** @param {string} name @param {string} words */
function tell(name, words) {
  const place = document.querySelector(`[data-told="${name}"]`);
  if (place) place.textContent = words;
}

/** @param {string} name @param {() => void} action */
function on(name, action) {
  document.querySelector(`[data-do="${name}"]`)?.addEventListener("click", action);
}

const worked = /** @type {Train} */ (document.querySelector("#worked"));

/** @param {string[]} ids */
async function apply(ids) {
  const answer = await worked.apply(ids);
  if (answer) tell("script", answer.ratio ? `ratio.fraction is ${answer.ratio.fraction}` : `stateWords is ${answer.stateWords}`);
}
on("apply", () => apply(["V", "H"]));
on("none", () => apply([]));
on("range", () => {
  worked.range = "2";
  tell("script", "range is 2");
});

document.querySelector("#heard")?.addEventListener("levertrain-change", (event) => {
  const { range, stateWords } = /** @type {CustomEvent} */ (event).detail;
  tell("events", `heard, ${range ?? "no range"}, ${stateWords}`);
});

const frame = /** @type {HTMLIFrameElement} */ (document.querySelector("#talks"));
/** Here both are of one origin. */
const own = location.origin;

addEventListener("message", (message) => {
  if (message.origin !== own || message.source !== frame.contentWindow) return;
  const { event, detail, reply } = message.data;
  if (event === "size") frame.height = detail.height;
  if (event === "change") tell("frame", `change: ${detail.range ?? "no range"}`);
  if (reply !== undefined) tell("frame", `reply ${reply}: ${message.data.value?.stateWords ?? message.data.error}`);
});
on("message", () => frame.contentWindow?.postMessage({ levertrain: 1, id: 1, command: "apply", elements: [] }, own));

// A frame that would be lazy by itself could not be told its host in the markup: that is wherever this page is.
new IntersectionObserver((seen, observer) => {
  if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
  observer.disconnect();
  frame.src = `${frame.dataset.frame}&host=${encodeURIComponent(own)}`;
}, { rootMargin: "400px" }).observe(frame);
