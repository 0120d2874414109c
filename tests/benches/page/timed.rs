//! How long a shift in time takes: one with all its events as the page gets it, and a map of timings, beside the same code
//! natively; and from a key on a ramp until its plot is painted.

use std::hint::black_box;
use std::time::Instant;

use anyhow::{Context, Result, anyhow};
use levertrain_core::Train;
use levertrain_core::transient::{Dynamics, Plan, Shift, TransientReport, timings};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::worst;
use serde_json::{Value, json};

use crate::times::Times;
use crate::{SAMPLES, opening};

/// Timings of a map, either way.
const COUNT: usize = 32;
/// Seconds between two of them.
const APART: f64 = 0.016;
/// Keys on a ramp.
const KEYS: usize = 40;

/// Shifts from the first range of a scenario to the second.
pub fn report(page: &Page, stem: &str, train: &Train) -> Result<()> {
    page.get::<()>(
        "(async () => { \
            const engine = await import(new URL('engine/levertrain_whole.js', location.href)); \
            await engine.default({ module_or_path: new URL('engine/levertrain_whole_bg.wasm', location.href) }); \
            engine.speak(await (await fetch('words/en.ftl')).text()); \
            const text = await (await fetch(`scenarios/${args}.json`)).text(); \
            const { ranges } = JSON.parse(text); \
            const shift = new engine.TimedShift(text, ranges[0].applied, ranges[1].applied); \
            const { input_speed, input_torque, output_torque, until } = shift.plan(); \
            const once = () => { \
                shift.begin(input_speed, input_torque, output_torque, until); \
                return shift.report(); \
            }; \
            const offsets = Float64Array.from({ length: 32 }, (_, at) => at * 0.016); \
            const time = (what, rounds) => { \
                const start = performance.now(); \
                for (let round = 0; round < rounds; round++) what(); \
                return (performance.now() - start) / rounds; \
            }; \
            window.timeShift = () => time(once, 200); \
            window.timeMap = () => time(() => shift.timings(offsets, offsets), 1); \
            timeShift(); \
        })()",
        json!(stem),
    )?;
    let (dynamics, _) = Dynamics::of(train);
    let plan = Plan::suited(train, &dynamics, train.range(0), train.range(1));
    let once = || {
        let shift = Shift::of(train, &dynamics, plan.clone());
        black_box(shift.map(|shift| TransientReport::of(train, &shift))).ok();
    };
    let offsets: Vec<f64> = (0..COUNT).map(|at| at as f64 * APART).collect();
    let map = || {
        black_box(timings(train, &dynamics, &plan, &offsets, &offsets));
    };
    let [mut shifts, mut maps, mut native_shifts, mut native_maps] = [const { Vec::new() }; 4];
    for _ in 0..SAMPLES {
        shifts.push(page.get::<f64>("timeShift()", json!(null))?);
        native_shifts.push(time(&once, 200));
        maps.push(page.get::<f64>("timeMap()", json!(null))?);
        native_maps.push(time(&map, 1));
    }
    let median = |times| -> Result<f64> { Ok(Times::new(times).context("no sample")?.share(0.5)) };
    println!(
        "  a shift of {} with its report: in the page {:.3} ms, native {:.3} ms; a map of {} timings {:.0} ms, {:.0} ms (medians of {SAMPLES})",
        train.scenario().name,
        median(shifts)?,
        median(native_shifts)?,
        COUNT * COUNT,
        median(maps)?,
        median(native_maps)?,
    );
    Ok(())
}

/// The mean of some rounds in milliseconds.
fn time(what: &impl Fn(), rounds: u32) -> f64 {
    let start = Instant::now();
    for _ in 0..rounds {
        what();
    }
    start.elapsed().as_secs_f64() * 1e3 / f64::from(rounds)
}

/// From a key on a ramp to the painted plot, in the six-speed and in the largest files allowed; and their slowest shift natively.
pub fn report_keys(six_speed: &str) -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={six_speed}"), |page| {
        keys(page, six_speed)
    })?;
    for file in worst::files() {
        let train = Train::parse(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        if train.scenario().ranges.len() < 2 {
            continue;
        }
        page::open(View::LAPTOP, "", |page| {
            opening::open_file(page, &file)?;
            keys(page, file.name)
        })?;
    }
    Ok(())
}

fn keys(page: &Page, name: &str) -> Result<()> {
    page.unfold("timed")?;
    page.until(
        "the plot or a refusal is there",
        // Where all elements are one-way clutches there is nothing to command, and so no handle.
        "probe.one('.timed-found')?.hidden === false || probe.one('[data-part=timed-refused]')?.hidden === false",
    )?;
    page.rest()?;
    let grips: usize = page.get("probe.all('.timed-grip').length", Value::Null)?;
    if grips == 0 {
        println!(
            "  {name}: no shift from its first range to the second, or nothing to command in it"
        );
        return Ok(());
    }
    // Script alone: handling the key, and then the frame that it asks for, whose callbacks come in the order they were
    // asked for.
    let times: Vec<f64> = page.get(
        "(async () => { \
            const grip = probe.one('.timed-grip'); \
            const times = []; \
            for (let key = 0; key < args; key++) { \
                let begin = 0; \
                requestAnimationFrame(() => (begin = performance.now())); \
                const start = performance.now(); \
                grip.dispatchEvent(new KeyboardEvent('keydown', { key: key % 2 ? 'ArrowLeft' : 'ArrowRight' })); \
                const handled = performance.now() - start; \
                const end = await new Promise((done) => requestAnimationFrame(() => done(performance.now()))); \
                times.push(handled + end - begin); \
            } \
            return times; \
        })()",
        json!(KEYS),
    )?;
    let times = Times::new(times).context("no sample")?;
    println!(
        "  a key on a ramp of {name}, script until all is drawn: median {:.1} ms, 95 % below {:.1} ms",
        times.share(0.5),
        times.share(0.95),
    );
    Ok(())
}
