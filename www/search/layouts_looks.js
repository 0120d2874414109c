/** What looking for layouts is. */

/** @typedef {import("../engine/levertrain_search.js").LayoutsSearch} LayoutsSearch */
/** @typedef {{ frames: number, seconds: number }} Estimate about how much all parts together do, and how long that takes one */

const NEWS_MS = 250;
const STANDS_MS = 5000;
/** What ends sooner is not told how long it takes. */
const SOON_MS = 400;
/** How long some of it is gone through to tell how long all of it takes. */
const SAMPLE_MS = 1500;
/** How many layouts are told. */
const MOST = 200;
const MS = 1000;

/** @returns {import("./looking.js").Looks<LayoutsSearch, Estimate>} */
export function layoutsLooks() {
  return {
    setUp: (engine, { ask, which, of }) => new engine.LayoutsSetUp(ask, which, of),
    forecast(search) {
      const forecast = search.forecast();
      const end = performance.now() + SAMPLE_MS;
      return {
        run() {
          const begin = performance.now();
          const goes = forecast.run();
          const now = performance.now();
          forecast.took((now - begin) / MS);
          return goes && now < end;
        },
        estimate: () => ({ frames: forecast.frames(), seconds: forecast.seconds() }),
        free: () => forecast.free(),
      };
    },
    soon: SOON_MS,
    report: (search) => ({ report: search.report(MOST) }),
    newsEvery: NEWS_MS,
    standsEvery: STANDS_MS,
  };
}
