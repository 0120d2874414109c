//! How long a walkthrough takes: the steps of every range, as the page gets them, beside the same code natively.

use std::hint::black_box;
use std::time::Instant;

use anyhow::{Context, Result};
use levertrain_core::lesson::WalkReport;
use levertrain_core::{Duty, Train};
use levertrain_tests::browser::Page;
use serde_json::json;

use crate::SAMPLES;
use crate::times::Times;

/// Walks through every range of a scenario; the times in the page have what hands the steps over in them, those here
/// what settles the one-way clutches, which in the page applying a range has done.
pub fn report(page: &Page, stem: &str, train: &Train) -> Result<()> {
    page.get::<()>(
        "(async () => { \
            const engine = await import(new URL('engine/levertrain_whole.js', location.href)); \
            await engine.default({ module_or_path: new URL('engine/levertrain_whole_bg.wasm', location.href) }); \
            engine.speak(await (await fetch('words/en.ftl')).text()); \
            const sandbox = new engine.Sandbox(); \
            const text = await (await fetch(`scenarios/${args}.json`)).text(); \
            sandbox.open(text); \
            const { ranges } = JSON.parse(text); \
            const time = (walks, rounds = 20) => { \
                const start = performance.now(); \
                for (let round = 0; round < rounds; round++) for (const { applied } of ranges) { \
                    sandbox.apply(applied); \
                    if (walks) engine.walk(sandbox); \
                } \
                return (performance.now() - start) / rounds; \
            }; \
            time(true); \
            window.timeWalks = () => Math.max(0, time(true) - time(false)); \
        })()",
        json!(stem),
    )?;
    let (mut wasm, mut native) = (Vec::new(), Vec::new());
    for _ in 0..SAMPLES {
        wasm.push(page.get::<f64>("timeWalks()", json!(null))?);
        native.push(walk_all(train));
    }
    let [wasm, native] = [wasm, native].map(|times| Times::new(times).context("no sample"));
    let (wasm, native) = (wasm?, native?);
    println!(
        "  walkthroughs of all {} ranges, {}: in the page {:.2} ms, native {:.2} ms (medians of {SAMPLES})",
        train.scenario().ranges.len(),
        train.scenario().name,
        wasm.share(0.5),
        native.share(0.5),
    );
    Ok(())
}

/// The same here, in milliseconds.
fn walk_all(train: &Train) -> f64 {
    let start = Instant::now();
    for range in 0..train.scenario().ranges.len() {
        let settled = train.settle(train.range(range), Duty::Drive);
        black_box(WalkReport::of(&settled.combination));
    }
    start.elapsed().as_secs_f64() * 1e3
}
