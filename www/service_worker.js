/**
 * Keeps the page working without the network: a service worker for the site's own page.
 *
 * The build puts `SITE` before this: the version of the site, and each file with the digest of what is
 * in it. A version is fetched as a whole, into a cache of its own; where a single file does not come, or
 * is not the one of this version (the host was caught half-way through a change), none of it is taken.
 * All files of a page come from one version: the next one takes over when no page of this one is left.
 */

/** Not a page's global scope, which is all that the type checker knows. */
const worker = /** @type {any} */ (self);
const { version, files } = /** @type {{ version: string, files: Record<string, string> }} */ (worker.SITE);

/** Where the site is; nothing else of the host is ours, so neither is a cache under another name. */
const { scope } = worker.registration;
const OURS = `levertrain ${scope} `;
const CACHE = OURS + version;

worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(fetchAll()));
worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(forgetOthers()));
worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const file = fileAt(event.request);
  if (file !== undefined) event.respondWith(answer(event.request, file));
});

async function fetchAll() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(
      Object.entries(files).map(async ([file, integrity]) => {
        // "no-cache" asks the host whether what the browser has is still the same.
        const response = await fetch(addressOf(file), { integrity, cache: "no-cache" });
        if (!response.ok) throw new Error(`${file}: the host answered ${response.status}`);
        await cache.put(addressOf(file), unredirected(response));
      }),
    );
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/** Browsers refuse a redirected answer for a page. @param {Response} response */
function unredirected(response) {
  const { body, headers, status, statusText } = response;
  return response.redirected ? new Response(body, { headers, status, statusText }) : response;
}

async function forgetOthers() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/**
 * @param {Request} request
 * @param {string} file
 */
async function answer(request, file) {
  const cache = await caches.open(CACHE);
  // A browser that is short of room drops all caches of a site together.
  return (await cache.match(addressOf(file))) ?? fetch(request);
}

/**
 * The file of this version that a request is for, if any.
 * @param {Request} request
 */
function fileAt({ method, url }) {
  const address = new URL(url);
  address.search = address.hash = "";
  if (method !== "GET" || !address.href.startsWith(scope)) return undefined;
  const path = decodeURIComponent(address.href.slice(scope.length));
  const file = path === "index.html" ? "" : path;
  return Object.hasOwn(files, file) ? file : undefined;
}

/** @param {string} file */
function addressOf(file) {
  return new URL(file.split("/").map(encodeURIComponent).join("/"), scope).href;
}
