//! How long a search for teeth takes in the program that workers load, beside the same code compiled natively.

use std::time::Instant;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::search::{Ask, Search, SearchTask};
use levertrain_tests::browser::{View, page};
use levertrain_tests::files::scenario_folder;
use serde_json::json;

use crate::times::Times;

/// How often each is timed, in turns.
const SAMPLES: usize = 7;
/// How far ratios may be off in the task that is timed: enough for some tenths of a second.
const TOLERANCE: f64 = 0.09;

/// Loads the program, and has it look through everything; milliseconds, and how many finds there are.
const LOOK: &str = "(async () => { \
    if (!window.searchEngine) { \
        window.searchEngine = await import(new URL('engine/levertrain_search.js', location.href)); \
        await searchEngine.default({ module_or_path: new URL('engine/levertrain_search_bg.wasm', location.href) }); \
        searchEngine.speak(await (await fetch('words/en.ftl')).text()); \
    } \
    const setUp = new searchEngine.TeethSetUp(args.train, args.ask, 0, 1); \
    let search; \
    while (!(search = setUp.run())); \
    const start = performance.now(); \
    while (!search.run(1000)); \
    const took = performance.now() - start; \
    const finds = JSON.parse(search.news()); \
    search.free(); \
    return [took, finds.length]; \
})()";

/// Times it in turns.
pub fn report() -> Result<()> {
    let text = std::fs::read_to_string(scenario_folder().join("searches/01-six-speed.json"))?;
    let SearchTask { train, ask } =
        SearchTask::parse(&text).map_err(|problems| anyhow!("{problems:?}"))?;
    let wanted = ask.wanted.iter().cloned().map(|mut wanted| {
        wanted.tolerance = Some(TOLERANCE);
        wanted
    });
    let ask = Ask {
        wanted: wanted.collect(),
        ..ask
    };
    let task = json!({
        "train": serde_json::to_string(train.scenario())?,
        "ask": serde_json::to_string(&ask)?,
    });
    page::open(View::LAPTOP, "", |page| {
        let (mut wasm, mut native) = (Vec::new(), Vec::new());
        for _ in 0..SAMPLES {
            let [took, found]: [f64; 2] = page.get(LOOK, task.clone())?;
            wasm.push(took);
            let refused = |problems| anyhow!("{problems:?}");
            let mut search = Search::new(&train, &ask).map_err(refused)?;
            let start = Instant::now();
            while !search.run(1000) {}
            native.push(start.elapsed().as_secs_f64() * 1e3);
            ensure!(search.finds().len() as f64 == found, "{found} finds");
        }
        let wasm = Times::new(wasm).context("no sample")?;
        let native = Times::new(native).context("no sample")?;
        println!(
            "  teeth of the six-speed, one part: wasm {:.0} ms, native {:.0} ms, ratio {:.2} (quickest of {SAMPLES})",
            wasm.share(0.0),
            native.share(0.0),
            wasm.share(0.0) / native.share(0.0),
        );
        Ok(())
    })
}
