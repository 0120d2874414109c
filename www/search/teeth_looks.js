/** What looking for teeth is. */

/** @typedef {import("../engine/levertrain_search.js").TeethSearch} TeethSearch */

const NEWS_MS = 150;
const STANDS_MS = 2000;
/** How often it tells all finds: with thousands of them the page takes some time to read that. */
const FINDS_MS = 1000;

/** @returns {import("./looking.js").Looks<TeethSearch, number>} */
export function teethLooks() {
  /** Which finds it has told last, and when. @type {number | undefined} */
  let told;
  let toldAt = -FINDS_MS;
  /** Whether its finds are those that are shown. */
  let isFirst = false;
  return {
    setUp(engine, { train, ask, which, of }) {
      isFirst = which === 0;
      return new engine.TeethSetUp(train, ask, which, of);
    },
    forecast(search) {
      const forecast = search.forecast();
      return { run: () => forecast.run(), estimate: () => forecast.boxes(), free: () => forecast.free() };
    },
    soon: 0,
    report(search, now) {
      const changes = search.changes();
      const time = performance.now();
      // What other parts find comes to the first one, which so knows all.
      const tells = isFirst && changes !== told && (now || time > toldAt + FINDS_MS);
      if (tells) [told, toldAt] = [changes, time];
      return { report: search.progress(), finds: tells ? search.news() : undefined, fresh: search.fresh() };
    },
    tell: (search, finds) => search.tell(finds),
    newsEvery: NEWS_MS,
    standsEvery: STANDS_MS,
  };
}
