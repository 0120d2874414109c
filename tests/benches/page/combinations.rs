//! How long all combinations of a train with 16 elements take until they are listed, and to be put in order.

use anyhow::{Context, Result};
use levertrain_tests::browser::{View, page};
use levertrain_tests::worst;
use serde_json::Value;

use crate::LARGEST;
use crate::opening;

/// Unfolds the panel and waits for all rows, then orders them each way; the time of each in milliseconds, and
/// the longest task meanwhile.
const LIST: &str = "(async () => { \
    const tasks = []; \
    new PerformanceObserver((list) => tasks.push(...list.getEntries())).observe({ type: 'longtask' }); \
    const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms)); \
    const panel = probe.one('[data-part=combinations]'); \
    const begun = performance.now(); \
    panel.open = true; \
    while (!/\\d/.test(panel.querySelector('[role=status]')?.textContent ?? '')) await pause(1); \
    const listed = performance.now() - begun; \
    const order = panel.querySelector('#order'); \
    const times = []; \
    for (const { value } of [...order.options]) { \
        order.value = value; \
        const start = performance.now(); \
        order.dispatchEvent(new Event('change')); \
        times.push(performance.now() - start); \
        await pause(120); \
    } \
    return [listed, Math.max(...times), Math.max(0, ...tasks.map(({ duration }) => duration))]; \
})()";

/// Times the largest file.
pub fn report() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        let files = worst::files();
        let largest = files.iter().find(|file| file.name == LARGEST);
        opening::open_file(page, largest.context(LARGEST)?)?;
        page.rest()?;
        let [listed, order, longest]: [f64; 3] = page.get(LIST, Value::Null)?;
        println!(
            "  65 536 combinations, {LARGEST}: listed after {listed:.0} ms, put in another order in {order:.0} ms \
             at most, longest task {longest:.0} ms (0: none over 50)"
        );
        Ok(())
    })
}
