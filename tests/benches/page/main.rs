//! How fast the page is: opening it in a fresh browser, opening the largest files, drags, the engine
//! and walkthroughs beside the same code compiled natively, and what it weighs.
//!
//! Run by `cargo xtask bench`. It prints figures and judges none: they depend on the machine.
#![allow(clippy::print_stdout, reason = "printing is what a benchmark is for")]

mod combinations;
mod editing;
mod opening;
mod search;
mod timed;
mod times;
mod walk;

use std::hint::black_box;
use std::time::Instant;

use anyhow::{Context, Result, anyhow};
use levertrain_core::Train;
use levertrain_tests::browser::{Device, Pack, Page, View, page, required};
use levertrain_tests::{files, worst};
use serde_json::{Value, json};
use xtask::size;
use xtask::test_environment::SITE;

use times::Times;

const SIX_SPEED: &str = "04-six-speed-three-sets";
/// The file with the most sets and elements, whose every label is as long as a label may be.
const LARGEST: &str = "longest labels";
const ENGINES_COMPARED_ON: [&str; 2] = [SIX_SPEED, "05-eight-speed-four-sets"];

/// Movements of the drag that is timed.
const MOVES: usize = 300;
/// Movements of each pack of the largest file, once to and fro.
const MOVES_A_PACK: usize = 60;
/// Presses of a switch that are timed.
const PRESSES: usize = 40;
/// How often each engine is timed, in turns with the other.
const SAMPLES: usize = 25;
/// How long a sample takes at least, in milliseconds: the browser's clock ticks in tenths.
const SAMPLE_MS: f64 = 40.0;

fn main() -> Result<()> {
    // Like a filter of the other benchmarks: `cargo bench -- solver` is not for this one.
    let filters: Vec<String> = std::env::args()
        .skip(1)
        .filter(|argument| !argument.starts_with('-'))
        .collect();
    if filters.iter().any(|filter| filter == "timed") {
        page::open(View::LAPTOP, &format!("#s={SIX_SPEED}"), |page| {
            ENGINES_COMPARED_ON
                .iter()
                .try_for_each(|stem| timed::report(page, stem, &train(stem)?))
        })?;
        return timed::report_keys(SIX_SPEED);
    }
    if !filters.is_empty()
        && !filters
            .iter()
            .any(|filter| "page".contains(filter.as_str()))
    {
        return Ok(());
    }
    println!("Page, at 1280 × 800 in headless Chromium without graphics hardware:");
    opening::report_page()?;
    opening::report_files()?;
    page::open(View::LAPTOP, &format!("#s={SIX_SPEED}&on=W,J"), |page| {
        report_drag(page)?;
        for stem in ENGINES_COMPARED_ON {
            report_engines(page, stem)?;
            walk::report(page, stem, &train(stem)?)?;
            timed::report(page, stem, &train(stem)?)?;
        }
        let engine = required(SITE)?.join("engine/levertrain_bg.wasm");
        println!("  engine: {}", size::measure(&engine)?);
        Ok(())
    })?;
    page::open(View::LAPTOP, "", report_largest_drag)?;
    editing::report()?;
    timed::report_keys(SIX_SPEED)?;
    search::report()?;
    combinations::report()
}

/// Keeps the script time from the handling of a pointer event to finished drawings, as the page measures it.
const TIME_DRAGS: &str = "window.timed = []; new PerformanceObserver((list) => { \
    timed.push(...list.getEntriesByName('levertrain-drag').map(({ duration }) => duration)); \
 }).observe({ type: 'measure' })";

fn report_drag(page: &Page) -> Result<()> {
    page.run(TIME_DRAGS, Value::Null)?;
    let pack = page.pack(&train(SIX_SPEED)?, "J")?;
    page.gesture(Device::Mouse, &to_and_fro(&pack, -1.0, 10.0, MOVES))?;
    report_times(page, "drag of a pack, event to drawing")?;

    for _ in 0..PRESSES {
        page.gesture(Device::Mouse, &[pack.centre])?;
        page.rest()?;
    }
    report_times(page, "press of a switch, event to both drawings")
}

/// Every pack in turn, over to the other state and back.
fn report_largest_drag(page: &mut Page) -> Result<()> {
    let files = worst::files();
    let largest = files.iter().find(|file| file.name == LARGEST);
    let largest = largest.with_context(|| format!("there is no file {LARGEST}"))?;
    let train = Train::parse(&largest.text).map_err(|problems| anyhow!("{problems:?}"))?;
    opening::open_file(page, largest)?;
    let applied = page.seen()?.applied;
    page.run(TIME_DRAGS, Value::Null)?;
    for element in &train.scenario().elements {
        let pack = page.pack(&train, element.id())?;
        let direction = if applied.contains(&pack.id) {
            -1.0
        } else {
            1.0
        };
        page.gesture(
            Device::Mouse,
            &to_and_fro(&pack, direction, 1.0, MOVES_A_PACK),
        )?;
    }
    report_times(
        page,
        &format!("drag of each pack, {LARGEST}, event to drawing"),
    )
}

/// To and fro over most of the way, and back to the start: nothing is changed over.
fn to_and_fro(pack: &Pack, direction: f64, times: f64, moves: usize) -> Vec<(f64, f64)> {
    (0..=moves)
        .map(|step| step as f64 / moves as f64 * times * std::f64::consts::TAU)
        .map(|angle| pack.point(direction * 0.45 * (1.0 - angle.cos())))
        .collect()
}

fn report_times(page: &Page, what: &str) -> Result<()> {
    page.rest()?;
    let times: Vec<f64> = page.get("timed.splice(0)", Value::Null)?;
    let times = Times::new(times).with_context(|| format!("{what}: no measurement"))?;
    println!(
        "  {what}: median {:.2} ms, 95 % below {:.2} ms, of {}",
        times.share(0.5),
        times.share(0.95),
        times.count()
    );
    Ok(())
}

/// The engine in the browser and the same code in this program, in turns.
fn report_engines(page: &Page, stem: &str) -> Result<()> {
    let train = train(stem)?;
    page.get::<()>(
        "(async () => { \
            const engine = await import(new URL('engine/levertrain_whole.js', location.href)); \
            await engine.default({ module_or_path: new URL('engine/levertrain_whole_bg.wasm', location.href) }); \
            window.sandbox = new engine.Sandbox(); \
            const text = await fetch(`scenarios/${args}.json`); \
            sandbox.open(await text.text()); \
            window.timeCounting = (times) => { \
                const start = performance.now(); \
                engine.countDetermined(sandbox, times); \
                return performance.now() - start; \
            }; \
        })()",
        json!(stem),
    )?;
    let in_page = |times: usize| page.get::<f64>("timeCounting(args)", json!(times));
    let natively = |times: usize| -> Result<f64> {
        let start = Instant::now();
        black_box(black_box(&train).count_determined(times));
        Ok(start.elapsed().as_secs_f64() * 1e3)
    };
    let [page_times, native_times] = [fill(&in_page)?, fill(&natively)?];
    let (mut wasm, mut native) = (Vec::new(), Vec::new());
    for _ in 0..SAMPLES {
        wasm.push(in_page(page_times)? / page_times as f64);
        native.push(natively(native_times)? / native_times as f64);
    }
    let wasm = Times::new(wasm).context("no sample")?;
    let native = Times::new(native).context("no sample")?;
    println!(
        "  all {} combinations with every speed, {}: wasm {:.1} µs, native {:.1} µs, \
         ratio {:.2} (quickest of {SAMPLES}), {:.2} (median)",
        1_u32 << train.scenario().elements.len(),
        train.scenario().name,
        wasm.share(0.0) * 1e3,
        native.share(0.0) * 1e3,
        wasm.share(0.0) / native.share(0.0),
        wasm.share(0.5) / native.share(0.5),
    );
    Ok(())
}

/// How many repetitions fill a sample; trying it out also warms the engine up.
fn fill(time: &impl Fn(usize) -> Result<f64>) -> Result<usize> {
    let mut times = 1;
    while time(times)? < SAMPLE_MS {
        times *= 2;
    }
    Ok(times)
}

fn train(stem: &str) -> Result<Train> {
    let files = files::scenarios()?;
    let file = files.iter().find(|file| file.stem == stem);
    let file = file.with_context(|| format!("there is no scenario {stem}"))?;
    Train::parse(&file.text).map_err(|problems| anyhow!("{stem}: {problems:?}"))
}
