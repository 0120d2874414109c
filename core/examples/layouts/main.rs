//! Finds layouts for wanted ratios, whole or in shards.
//!
//! `cargo run --release -p levertrain-core --example layouts -- TASK.json [--shard K/N] [--out FILE] [--language
//! LANGUAGE]`
//!
//! A task is `{"format": 1, "layouts": …}` (`scenarios/FORMAT.md`). Each line of the output is a layout, as JSON; how far
//! the search is goes to the error output. A file is written under another name and gets its own once it is complete.
//!
//! `… -- --merge FILE,FILE… [--out FILE]` makes the output of the whole search from those of all its shards, the same
//! whatever their order, and however often one of them is named.
//!
//! Exits with 2 and one line on bad input.

mod options;
mod output;

use std::process::ExitCode;
use std::time::{Duration, Instant};

use levertrain_core::Problem;
use levertrain_core::layouts::limits::FOUND;
use levertrain_core::layouts::{LayoutAsk, LayoutReport, LayoutSearch};
use levertrain_core::words::said;

use options::Options;

/// Steps between looks at the clock.
const STEPS: usize = 20;
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
    let lines = match &options.task {
        Some(task) => found(task, options.shard)?,
        None => output::merged(&options.merge)?,
    };
    output::write(&lines, options.out.as_deref())
}

/// A line for each layout that a shard finds.
fn found(task: &str, (which, count): (usize, usize)) -> Result<Vec<String>, String> {
    let told = |problems: Vec<Problem>| told(task, &problems);
    let ask = LayoutAsk::parse_task(&output::read(task)?).map_err(told)?;
    let mut search = LayoutSearch::shard(&ask, which, count).map_err(told)?;
    let mut next = Instant::now() + NEWS;
    while !search.run(STEPS) {
        if Instant::now() > next {
            let percent = format!("{:.1}", 100.0 * search.progress());
            let count = search.found().len().to_string();
            let values = [("percent", &*percent), ("found", &*count)];
            eprintln!("{}", said("cli-layouts-progress", &values));
            next = Instant::now() + NEWS;
        }
    }
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
