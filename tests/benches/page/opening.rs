//! Opening: the page in a fresh browser, and the largest allowed files in the page.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::worst::{self, Worst};
use serde_json::{Value, json};

use crate::times::median;

/// How often the page is opened.
const OPENINGS: usize = 9;
/// How often each file is opened, in a fresh browser each time: the engine is slower there than once the
/// browser has compiled it a second time.
const FILE_OPENINGS: usize = 5;
/// Shorter tasks the browser does not tell of, in milliseconds.
const LONG_TASK_MS: f64 = 50.0;

/// What the browser itself says of opening the page with nothing in its cache.
pub fn report_page() -> Result<()> {
    let [mut drawn, mut requests, mut shift, mut longest] = [const { Vec::new() }; 4];
    for _ in 0..OPENINGS {
        page::open(View::LAPTOP.keeping(), "", |page| {
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

/// What opening each of the largest allowed files takes, once the page stands and is kept.
pub fn report_files() -> Result<()> {
    for worst in worst::files() {
        let [mut drawn, mut longest] = [const { Vec::new() }; 2];
        for _ in 0..FILE_OPENINGS {
            page::open(View::LAPTOP.keeping(), "", |page| {
                // Choosing a file takes a person longer than the browser takes to have the site for later.
                page.until_kept()?;
                let [file_drawn, file_longest] = open_file(page, &worst)?;
                drawn.push(file_drawn);
                longest.push(file_longest);
                Ok(())
            })?;
        }
        let longest = match median(longest)? {
            longest if longest < LONG_TASK_MS => format!("below {LONG_TASK_MS:.0} ms"),
            longest => format!("{longest:.0} ms"),
        };
        println!(
            "  opening a file, {}: drawn after {:.0} ms, longest task {longest} \
             (medians of {FILE_OPENINGS})",
            worst.name,
            median(drawn)?,
        );
    }
    Ok(())
}

/// Watches for the next file: `opened` gives how long it takes from being handed over until a frame with it
/// in has been painted, and the longest task until nothing moves any more.
const WATCH: &str = "window.opened = new Promise((resolve) => { \
    const tasks = []; \
    const observer = new PerformanceObserver((list) => tasks.push(...list.getEntries())); \
    observer.observe({ type: 'longtask' }); \
    let handedOver; \
    probe.one('input[type=file]').addEventListener( \
        'change', () => (handedOver = performance.now()), { capture: true, once: true }); \
    const frames = new MutationObserver(() => { \
        const section = probe.one('canvas[data-drawing=section]'); \
        if (!section.getAttribute('aria-label').includes(args)) return; \
        frames.disconnect(); \
        requestAnimationFrame(() => { \
            const { port1, port2 } = new MessageChannel(); \
            port1.onmessage = async () => { \
                const drawn = performance.now() - handedOver; \
                await probe.rest(); \
                tasks.push(...observer.takeRecords()); \
                const since = tasks.filter((task) => task.startTime + task.duration > handedOver); \
                resolve([drawn, Math.max(0, ...since.map(({ duration }) => duration))]); \
            }; \
            port2.postMessage(null); \
        }); \
    }); \
    frames.observe(probe.host('lever-train'), { attributeFilter: ['data-frame'] }); \
})";

/// Opens a file in a page that shows something else.
///
/// # Errors
/// It is refused.
pub fn open_file(page: &Page, worst: &Worst) -> Result<[f64; 2]> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("worst.json");
    fs::write(&path, &worst.text)?;
    page.run(WATCH, json!(format!("Worst: {}", worst.name)))?;
    page.open_file(&path)?;
    let figures = page.get("opened", Value::Null)?;
    let messages = page.messages()?;
    ensure!(messages.is_empty(), "{}: {messages:?}", worst.name);
    Ok(figures)
}
