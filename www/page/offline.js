/** Has the site's own page kept for when there is no network. */

import { siteFile } from "../kit/site.js";

/**
 * Somebody else's page is theirs to keep, wherever our element stands in it. That it cannot be kept
 * (no secure connection, or the user wants nothing stored) takes nothing from the open page.
 */
export function keepForOffline() {
  const page = location.origin + location.pathname;
  const own = [siteFile("").href, siteFile("index.html").href].includes(page);
  if (!own || !("serviceWorker" in navigator)) return;
  navigator.serviceWorker
    .register(siteFile("service_worker.js"), { updateViaCache: "none" })
    .catch(() => undefined);
}
