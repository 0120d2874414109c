//! How fast the page is: opening it in a fresh browser, a drag in the browser, the engine beside the same code compiled natively,
//! and what it weighs.
//!
//! Run by `cargo xtask bench`. It prints figures and judges none: they depend on the machine.
#![allow(clippy::print_stdout, reason = "printing is what a benchmark is for")]

use std::hint::black_box;
use std::time::Instant;

use anyhow::{Context, Result, anyhow};
use levertrain_core::Train;
use levertrain_tests::browser::{Device, Page, View, page, required};
use levertrain_tests::files;
use serde_json::{Value, json};
use xtask::size;
use xtask::test_environment::SITE;

const SIX_SPEED: &str = "04-six-speed-three-sets";
const ENGINES_COMPARED_ON: [&str; 2] = [SIX_SPEED, "05-eight-speed-four-sets"];

/// How often the page is opened.
const OPENINGS: usize = 9;
/// Movements of the drag that is timed.
const MOVES: usize = 300;
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
    if !filters.is_empty()
        && !filters
            .iter()
            .any(|filter| "page".contains(filter.as_str()))
    {
        return Ok(());
    }
    println!("Page, at 1280 × 800 in headless Chromium without graphics hardware:");
    report_opening()?;
    page::open(View::LAPTOP, &format!("#s={SIX_SPEED}&on=W,J"), |page| {
        report_drag(page)?;
        for stem in ENGINES_COMPARED_ON {
            report_engines(page, stem)?;
        }
        let engine = required(SITE)?.join("engine/levertrain_bg.wasm");
        println!("  engine: {}", size::measure(&engine)?);
        Ok(())
    })
}

/// What the browser itself says of opening the page with nothing in its cache.
fn report_opening() -> Result<()> {
    let [mut drawn, mut requests, mut shift, mut longest] = [const { Vec::new() }; 4];
    for _ in 0..OPENINGS {
        page::open(View::LAPTOP, "", |page| {
            page.rest()?;
            let figures: [f64; 4] = page.get(
                "(async () => { \
                    const seen = (type) => new Promise((resolve) => { \
                        new PerformanceObserver((list) => resolve(list.getEntries())) \
                            .observe({ type, buffered: true }); \
                        setTimeout(() => resolve([]), 500); \
                    }); \
                    const sum = (entries) => entries.reduce((all, { value }) => all + value, 0); \
                    const longest = (entries) => \
                        Math.max(0, ...entries.map(({ duration }) => duration)); \
                    return [ \
                        performance.getEntriesByName('levertrain-open')[0].startTime, \
                        1 + performance.getEntriesByType('resource').length, \
                        sum(await seen('layout-shift')), \
                        longest(await seen('longtask')), \
                    ]; \
                })()",
                Value::Null,
            )?;
            for (list, figure) in [&mut drawn, &mut requests, &mut shift, &mut longest]
                .into_iter()
                .zip(figures)
            {
                list.push(figure);
            }
            Ok(())
        })?;
    }
    let median = |figures| -> Result<f64> {
        let figures = Times::new(figures).context("the page was not opened")?;
        Ok(figures.share(0.5))
    };
    println!(
        "  cold open: first drawing after {:.0} ms, {} requests, layout shift {:.3}, \
         longest task {:.0} ms (medians of {OPENINGS})",
        median(drawn)?,
        median(requests)?,
        median(shift)?,
        median(longest)?,
    );
    Ok(())
}

/// Script time from the handling of a pointer event to finished drawings, as the page measures it.
fn report_drag(page: &Page) -> Result<()> {
    page.run(
        "window.timed = []; new PerformanceObserver((list) => { \
            timed.push(...list.getEntriesByName('levertrain-drag').map(({ duration }) => duration)); \
         }).observe({ type: 'measure' })",
        Value::Null,
    )?;
    let pack = page.pack(&train(SIX_SPEED)?, "J")?;
    // To and fro over most of the way, and back to the start: nothing is changed over.
    let way: Vec<(f64, f64)> = (0..=MOVES)
        .map(|step| step as f64 / MOVES as f64 * 10.0 * std::f64::consts::TAU)
        .map(|angle| pack.point(-0.45 * (1.0 - angle.cos())))
        .collect();
    page.gesture(Device::Mouse, &way)?;
    report_times(page, "drag of a pack, event to drawing")?;

    for _ in 0..PRESSES {
        page.gesture(Device::Mouse, &[pack.centre])?;
        page.rest()?;
    }
    report_times(page, "press of a switch, event to both drawings")
}

fn report_times(page: &Page, what: &str) -> Result<()> {
    page.rest()?;
    let times: Vec<f64> = page.get("timed.splice(0)", Value::Null)?;
    let times = Times::new(times).with_context(|| format!("{what}: no measurement"))?;
    println!(
        "  {what}: median {:.2} ms, 95 % below {:.2} ms, of {}",
        times.share(0.5),
        times.share(0.95),
        times.sorted.len()
    );
    Ok(())
}

/// The engine in the browser and the same code in this program, in turns.
fn report_engines(page: &Page, stem: &str) -> Result<()> {
    let train = train(stem)?;
    page.get::<()>(
        "(async () => { \
            const engine = await import(new URL('engine/levertrain.js', location.href)); \
            await engine.default(); \
            window.sandbox = new engine.Sandbox(); \
            const text = await fetch(`scenarios/${args}.json`); \
            sandbox.open(await text.text()); \
            window.timeCounting = (times) => { \
                const start = performance.now(); \
                sandbox.countDetermined(times); \
                return performance.now() - start; \
            }; \
        })()",
        json!(stem),
    )?;
    let in_page = |times: usize| page.get::<f64>("timeCounting(args)", json!(times));
    let natively = |times: usize| -> Result<f64> {
        let start = Instant::now();
        black_box(count_determined(black_box(&train), times));
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

/// The work that the engine does for `countDetermined`.
fn count_determined(train: &Train, times: usize) -> usize {
    let mut speeds = Vec::new();
    let mut determined = 0;
    for _ in 0..times {
        train.for_each_combination(|combination| {
            determined += combination.shaft_speeds(&mut speeds);
        });
    }
    determined
}

fn train(stem: &str) -> Result<Train> {
    let files = files::scenarios()?;
    let file = files.iter().find(|file| file.stem == stem);
    let file = file.with_context(|| format!("there is no scenario {stem}"))?;
    Train::parse(&file.text).map_err(|problems| anyhow!("{stem}: {problems:?}"))
}

/// Durations, of which at least one is there.
struct Times {
    sorted: Vec<f64>,
}

impl Times {
    fn new(mut times: Vec<f64>) -> Option<Self> {
        times.sort_by(f64::total_cmp);
        (!times.is_empty()).then_some(Self { sorted: times })
    }

    /// The duration that this share of all does not exceed.
    fn share(&self, share: f64) -> f64 {
        let last = self.sorted.len() - 1;
        self.sorted[(share * last as f64).round() as usize]
    }
}
