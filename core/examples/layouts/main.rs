//! Finds layouts for wanted ratios, whole or in shards.
//!
//! `cargo run --release -p levertrain-core --example layouts -- TASK.json [--shard K/N] [--out FILE] [--save-every SECONDS]
//! [--estimate] [--language LANGUAGE]`
//!
//! A task is `{"format": 1, "layouts": …}` (`scenarios/FORMAT.md`). Each line of the output is a layout, as JSON; how far
//! the search is goes to the error output, at first how long it will take; with `--estimate` nothing else is done. A file is
//! written under another name and gets its own once it is complete. Where a search with such a file stands is kept in
//! `FILE.state` every five seconds, or as often as is said: interrupted and called again, it goes on from there.
//!
//! `… -- --merge FILE,FILE… [--out FILE]` makes the output of the whole search from those of all its shards, the same
//! whatever their order, and however often one of them is named.
//!
//! Exits with 2 and one line on bad input.

// Both searches keep where they stand in the same way, and tell amounts alike.
#[path = "../search/amounts.rs"]
mod amounts;
mod options;
mod output;
#[path = "../search/standing.rs"]
mod standing;

use std::process::ExitCode;
use std::time::{Duration, Instant};

use levertrain_core::Problem;
use levertrain_core::layouts::limits::FOUND;
use levertrain_core::layouts::{LayoutAsk, LayoutEstimate, LayoutReport, LayoutSearch};
use levertrain_core::words::said;

use amounts::{duration, large};
use options::Options;
use standing::{Standing, is_put_there};

/// Steps between looks at the clock.
const STEPS: usize = 20;
/// How long some of it is gone through to tell how long all of it takes.
const PROBE: Duration = Duration::from_secs(2);
/// How often progress is told.
const NEWS: Duration = Duration::from_secs(2);

fn main() -> ExitCode {
    let arguments = std::env::args_os()
        .skip(1)
        .map(|argument| argument.to_string_lossy().into_owned());
    match Options::read(arguments).and_then(|options| run(&options)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("layouts: {message}");
            ExitCode::from(2)
        }
    }
}

fn run(options: &Options) -> Result<(), String> {
    let Some(task) = &options.task else {
        return output::write(&output::merged(&options.merge)?, options.out.as_deref());
    };
    let out = options.out.as_deref();
    let kept = out.filter(|out| is_put_there(out));
    let mut standing = kept.map(|out| Standing::beside(out, options.save_every));
    let lines = found(task, options, standing.as_mut())?;
    if options.only_estimate {
        return Ok(());
    }
    output::write(&lines, out)?;
    if let Some(standing) = &standing {
        standing.forget();
    }
    Ok(())
}

/// A line for each layout that a shard finds; none where only an estimate is asked for.
fn found(
    task: &str,
    options: &Options,
    mut standing: Option<&mut Standing>,
) -> Result<Vec<String>, String> {
    let (which, count) = options.shard;
    let problems = |problems: Vec<Problem>| told(task, &problems);
    let ask = LayoutAsk::parse_task(&output::read(task)?).map_err(problems)?;
    let mut search = LayoutSearch::shard(&ask, which, count).map_err(problems)?;
    if options.only_estimate {
        tell_estimate(&search, count);
        return Ok(Vec::new());
    }
    if let Some(standing) = &standing
        && let Some(text) = standing.read()?
    {
        let problems = |problems: Vec<Problem>| told(&standing.name(), &problems);
        search.resume(&text).map_err(problems)?;
        let percent = percent(&search);
        eprintln!("{}", said("cli-search-resumed", &[("percent", &*percent)]));
    }
    let mut next = Instant::now() + NEWS;
    let mut is_told = false;
    while !search.run(STEPS) {
        if Instant::now() > next {
            // What ends at once needs no telling.
            if !is_told {
                tell_estimate(&search, count);
                is_told = true;
            }
            let percent = percent(&search);
            let count = search.found().len().to_string();
            let values = [("percent", &*percent), ("found", &*count)];
            eprintln!("{}", said("cli-layouts-progress", &values));
            next = Instant::now() + NEWS;
        }
        if let Some(standing) = &mut standing {
            standing.keep(|| search.checkpoint())?;
        }
    }
    summary(&search)
}

fn percent(search: &LayoutSearch) -> String {
    format!("{:.1}", 100.0 * search.progress())
}

/// Tells how long one of so many shards takes, by going through some of it.
fn tell_estimate(search: &LayoutSearch, shards: usize) {
    let mut forecast = search.forecast();
    let end = Instant::now() + PROBE;
    let mut begin = Instant::now();
    while begin < end && forecast.run() {
        forecast.took(begin.elapsed().as_secs_f64());
        begin = Instant::now();
    }
    let LayoutEstimate { frames, seconds } = forecast.estimate();
    let values = [
        ("frames", large(frames)),
        ("time", duration(seconds / shards as f64)),
        ("whole", duration(seconds)),
        ("shards", shards.to_string()),
        (
            "part",
            if shards == 1 { "whole" } else { "shard" }.to_owned(),
        ),
    ];
    let values = values.each_ref().map(|(name, value)| (*name, &**value));
    eprintln!("{}", said("cli-layouts-estimate", &values));
}

/// Tells what has become of all layouts; a line for each that was found.
fn summary(search: &LayoutSearch) -> Result<Vec<String>, String> {
    let report = search.report(FOUND);
    let counts = [
        report.frames,
        report.given_up,
        report.layouts,
        report.useless,
        report.toothless,
        report.unended,
    ];
    let [frames, given_up, layouts, useless, toothless, unended] =
        &counts.map(|count| count.to_string());
    let count = report.found.len().to_string();
    let values = [
        ("frames", &**frames),
        ("given", given_up),
        ("layouts", layouts),
        ("useless", useless),
        ("toothless", toothless),
        ("unended", unended),
        ("found", &count),
    ];
    eprintln!("{}", said("cli-layouts-done", &values));
    if report.found.is_empty() && !report.unreached.is_empty() {
        let forward = search.ask().forward.len();
        let ranges = report.unreached.iter().map(|&at| match at as usize {
            at if at < forward => (at + 1).to_string(),
            _ => "R".to_owned(),
        });
        let ranges: Vec<String> = ranges.collect();
        let values = [("ranges", &*ranges.join(", "))];
        eprintln!("{}", said("cli-layouts-unreached", &values));
    }
    report.found.iter().map(line).collect()
}

fn line(layout: &LayoutReport) -> Result<String, String> {
    serde_json::to_string(layout).map_err(|error| error.to_string())
}

/// The first problem of a file, and how many more there are.
fn told(file: &str, problems: &[Problem]) -> String {
    let first = problems.first().map(ToString::to_string);
    let first = format!("{file}: {}", first.unwrap_or_default());
    match problems.len() {
        0 | 1 => first,
        count => {
            let more = (count - 1).to_string();
            said("cli-and-more", &[("first", &*first), ("more", &more)])
        }
    }
}
