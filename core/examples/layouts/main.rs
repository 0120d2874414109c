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
//! The first line of what a shard writes says which one of which search it is. `… -- --merge FILE,FILE… [--out FILE]` makes the
//! output of the whole search from those of all its shards, the same whatever their order, and however often one of
//! them is named; if one is missing, or of another search or version, that is said.
//!
//! Exits with 2 and one line on bad input.

// Both searches are told the same, keep where they stand and write what they find in the same way.
#[path = "../search/amounts.rs"]
mod amounts;
#[path = "../chart/input.rs"]
mod input;
#[path = "../search/lines.rs"]
mod lines;
mod merging;
#[path = "../search/options.rs"]
mod options;
#[path = "../search/standing.rs"]
mod standing;

use std::process::ExitCode;
use std::time::{Duration, Instant};

use levertrain_core::Problem;
use levertrain_core::layouts::limits::FOUND;
use levertrain_core::layouts::{LayoutAsk, LayoutEstimate, LayoutReport, LayoutSearch};
use levertrain_core::words::{said, word};

use amounts::{duration, large};
use lines::{read_task, told, write};
use options::{Command, Options};
use standing::{Standing, is_put_there};

const COMMAND: Command = Command {
    usage: "cli-layouts-usage",
    most_shards: 64,
    has_threads: false,
};
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
    match COMMAND.read(arguments).and_then(|options| run(&options)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("layouts: {message}");
            ExitCode::from(2)
        }
    }
}

fn run(options: &Options) -> Result<(), String> {
    let out = options.out.as_deref();
    // Either a task is gone through, or what its shards wrote is merged.
    let task = match &options.task {
        Some(task) if options.merge.is_empty() => task,
        None if !options.merge.is_empty() => {
            let (lines, counts) = merging::merged(&options.merge)?;
            let counts: Vec<String> = counts.iter().map(u128::to_string).collect();
            tell_counts(&counts, lines.len());
            return write(None, &lines, out);
        }
        _ => return Err(COMMAND.misused(word("cli-layouts-no-task"))),
    };
    let problems = |problems: Vec<Problem>| told(task, &problems);
    let ask = LayoutAsk::parse_task(&read_task(task)?).map_err(problems)?;
    let (which, count) = options.shard.unwrap_or((0, 1));
    let mut search = LayoutSearch::shard(&ask, which, count).map_err(problems)?;
    if options.only_estimate {
        tell_estimate(&search, count);
        return Ok(());
    }
    let kept = out.filter(|out| is_put_there(out));
    let mut standing = kept.map(|out| Standing::beside(out, options.save_every));
    go_through(&mut search, count, standing.as_mut())?;
    summary(&search);
    let found = search.report(FOUND).found;
    let lines: Result<Vec<String>, String> = found.iter().map(line).collect();
    let mark = options.shard.map(|_| search.mark());
    write(mark.as_ref(), &lines?, out)?;
    if let Some(standing) = &standing {
        standing.forget();
    }
    Ok(())
}

/// Goes through one of so many shards, from where it stood, if it was interrupted.
fn go_through(
    search: &mut LayoutSearch,
    count: usize,
    mut standing: Option<&mut Standing>,
) -> Result<(), String> {
    if let Some(standing) = &standing
        && let Some(text) = standing.read()?
    {
        let problems = |problems: Vec<Problem>| told(&standing.name(), &problems);
        search.resume(&text).map_err(problems)?;
        let percent = percent(search);
        eprintln!("{}", said("cli-search-resumed", &[("percent", &*percent)]));
    }
    let mut next = Instant::now() + NEWS;
    let mut is_told = false;
    while !search.run(STEPS) {
        if Instant::now() > next {
            // What ends at once needs no telling.
            if !is_told {
                tell_estimate(search, count);
                is_told = true;
            }
            let percent = percent(search);
            let count = search.found().len().to_string();
            let values = [("percent", &*percent), ("found", &*count)];
            eprintln!("{}", said("cli-layouts-progress", &values));
            next = Instant::now() + NEWS;
        }
        if let Some(standing) = &mut standing {
            standing.keep(|| search.checkpoint())?;
        }
    }
    Ok(())
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

/// Tells what has become of all layouts.
fn summary(search: &LayoutSearch) {
    let report = search.report(FOUND);
    tell_counts(&search.mark().counts, report.found.len());
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
}

/// Tells counts, in the order of those of a search.
fn tell_counts(counts: &[String], found: usize) {
    let found = found.to_string();
    let count = |at: usize| counts.get(at).map_or("", |count| &**count);
    let values = [
        ("frames", count(0)),
        ("given", count(2)),
        ("layouts", count(3)),
        ("useless", count(4)),
        ("toothless", count(5)),
        ("unended", count(6)),
        ("found", &*found),
    ];
    eprintln!("{}", said("cli-layouts-done", &values));
}

fn line(layout: &LayoutReport) -> Result<String, String> {
    serde_json::to_string(layout).map_err(|error| error.to_string())
}
