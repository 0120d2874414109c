// What the tests see of a page: put into it before its own scripts run.
"use strict";

const probe = (() => {
  const faults = [];

  // Capturing, so that a file that does not load is heard of as well.
  addEventListener(
    "error",
    (event) => {
      const { message, filename, lineno, target } = event;
      const what = message ? `${message} (${filename}:${lineno})` : `${target?.src ?? target?.href} did not load`;
      faults.push(`error: ${what}`);
    },
    true,
  );
  addEventListener("unhandledrejection", ({ reason }) => faults.push(`unhandled: ${reason}`));
  addEventListener("securitypolicyviolation", (event) => {
    faults.push(`security policy: ${event.violatedDirective} forbids ${event.blockedURI}`);
  });

  // The page's requests for frames are counted; the probe's own are not.
  const nextFrame = window.requestAnimationFrame.bind(window);
  let requests = 0;
  window.requestAnimationFrame = (callback) => {
    requests += 1;
    return nextFrame(callback);
  };
  const frame = () => new Promise((resolve) => nextFrame(resolve));

  const host = (selector) => document.querySelector(selector);
  const one = (selector, inside = "lever-train") => host(inside)?.shadowRoot?.querySelector(selector) ?? null;
  const all = (selector, inside = "lever-train") => [...(host(inside)?.shadowRoot?.querySelectorAll(selector) ?? [])];
  const text = (selector, inside) => one(selector, inside)?.textContent ?? null;

  function pixels(canvas) {
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    return data;
  }

  /** FNV-1a over whole pixels. */
  function hash(canvas) {
    if (!canvas || canvas.width === 0 || canvas.height === 0) return "";
    let sum = 0x811c9dc5;
    for (const pixel of new Uint32Array(pixels(canvas).buffer)) sum = Math.imul(sum ^ pixel, 0x01000193);
    return `${canvas.width}x${canvas.height}:${(sum >>> 0).toString(16)}`;
  }

  /** What can be said of a drawing without knowing what it should look like. */
  function canvas(drawing, inside) {
    const node = one(`canvas[data-drawing="${drawing}"]`, inside);
    const data = pixels(node);
    const colours = new Map();
    for (const pixel of new Uint32Array(data.buffer)) colours.set(pixel, (colours.get(pixel) ?? 0) + 1);
    let light = 0;
    for (let at = 0; at < data.length; at += 4) light += data[at] + data[at + 1] + data[at + 2];
    const box = node.getBoundingClientRect();
    return {
      hash: hash(node),
      size: [node.width, node.height],
      box: [box.width, box.height],
      colours: colours.size,
      ground: Math.max(...colours.values()) / (data.length / 4),
      lightness: light / (data.length / 4) / 765,
    };
  }

  /** Everything that a change could change. */
  function seen(inside = "lever-train") {
    const checked = all('[role="switch"]', inside).filter((node) => node.getAttribute("aria-checked") === "true");
    const picker = one('[data-part="scenario-picker"]', inside);
    return {
      scenario: picker?.selectedOptions[0]?.textContent ?? null,
      stem: picker?.value ?? null,
      applied: checked.map((node) => node.dataset.elementId).sort(),
      range: one('button[data-range-id][aria-pressed="true"]', inside)?.dataset.rangeId ?? null,
      ratio: text('[data-part="ratio"]', inside),
      exact: text('[data-part="exact"]', inside),
      direction: text('[data-part="direction"]', inside),
      state: text('[data-part="state"]', inside),
      sentences: all('[data-part="sentences"] p', inside).map((node) => node.textContent),
      kicker: text('[data-part="applied"]', inside),
      preview: one('[data-part="answer"]', inside)?.hasAttribute("data-preview") ?? false,
      speed: one("#speed", inside)?.value ?? null,
      section: hash(one('canvas[data-drawing="section"]', inside)),
      lever: hash(one('canvas[data-drawing="lever"]', inside)),
    };
  }

  const drawn = (inside = "lever-train") => Number(host(inside)?.dataset.frame ?? 0);
  const isOpen = (inside) => drawn(inside) > 0 && all('[role="switch"]', inside).length > 0;

  /** Whether a panel is still waiting for what belongs in it, or parts of a drawing may still move. */
  const filling = () =>
    [...document.querySelectorAll("lever-train")].some((node) => node.shadowRoot?.querySelector("[aria-busy], [data-mends]"));

  /** Waits until nothing is drawn and no frame is asked for any more, and every panel is filled. */
  async function rest() {
    const QUIET = 6;
    for (let quiet = 0, last = ""; quiet < QUIET; ) {
      await frame();
      if (filling()) quiet = 0;
      const now = `${requests} ${[...document.querySelectorAll("lever-train")].map((node) => node.dataset.frame)}`;
      quiet = now === last ? quiet + 1 : 0;
      last = now;
    }
  }

  /** Does something and gives the hash of every drawing that follows, until there are none. */
  async function record(drawing, action) {
    const hashes = [];
    const node = one(`canvas[data-drawing="${drawing}"]`);
    const observer = new MutationObserver(() => hashes.push(hash(node)));
    observer.observe(host("lever-train"), { attributeFilter: ["data-frame"] });
    action();
    await rest();
    observer.disconnect();
    return hashes;
  }

  /** How many frames the page asks for while `count` of them pass. */
  async function requestsDuring(count) {
    const before = requests;
    for (let passed = 0; passed < count; passed += 1) await frame();
    return requests - before;
  }

  return { faults, host, one, all, text, canvas, hash, seen, drawn, isOpen, rest, record, requestsDuring };
})();
window.probe = probe;
