//! Finds teeth for wanted ratios, whole or in shards.
//!
//! `cargo run --release -p levertrain-core --example search -- TASK.json [--shard K/N] [--out FILE] [--threads N]
//! [--save-every SECONDS] [--estimate] [--language LANGUAGE]`
//!
//! A task is `{"format": 1, "train": …, "ask": …}` (`scenarios/FORMAT.md`). Each line of the output is a find, as JSON; how
//! far the search is, and what has become of all candidates, goes to the error output, at first how long it will take;
//! with `--estimate` nothing else is done. It runs in as many threads as there are processors, if nothing else is
//! said; what is found does not depend on that. A file is written under
//! another name and gets its own once it is complete. Where a search with such a file stands is kept in `FILE.state`
//! every five seconds, or as often as is said: interrupted and called again, it goes on from there.
//!
//! The first line of what a shard writes says which one of which search it is. `… -- TASK.json --merge FILE,FILE… [--out FILE]`
//! makes the output of the whole search from those of all its shards, the same whatever their order, and however often
//! one of them is named; if one is missing, or of another search or version, that is said.
//!
//! Exits with 2 and one line on bad input.

mod amounts;
mod going;
#[path = "../chart/input.rs"]
mod input;
mod lines;
mod options;
mod standing;

use std::process::ExitCode;

use amounts::large;
use going::{go_through, resume};
use levertrain_core::Problem;
use levertrain_core::search::limits::FINDS;
use levertrain_core::search::{Search, SearchTask};
use levertrain_core::words::{said, word};
use lines::{read_task, told, write};
use options::{Command, Options};
use standing::{Standing, is_put_there};

const COMMAND: Command = Command {
    usage: "cli-search-usage",
    most_shards: 256,
    has_threads: true,
};

/// Most fields of a line that is merged: a find of six sets with 32 ratios has not half as many. The fields of an object are
/// compared with each other, which of very many would take long.
const FIELDS: usize = 200;

fn main() -> ExitCode {
    let arguments = std::env::args_os()
        .skip(1)
        .map(|argument| argument.to_string_lossy().into_owned());
    match COMMAND.read(arguments).and_then(|options| run(&options)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("search: {message}");
            ExitCode::from(2)
        }
    }
}

fn run(options: &Options) -> Result<(), String> {
    let no_task = || COMMAND.misused(word("cli-search-no-task"));
    let file = options.task.as_ref().ok_or_else(no_task)?;
    let problems = |problems: Vec<Problem>| told(file, &problems);
    let SearchTask { train, ask } = SearchTask::parse(&read_task(file)?).map_err(problems)?;
    let search = match options.shard {
        None => Search::new(&train, &ask),
        Some((which, of)) => Search::shard(&train, &ask, which, of),
    };
    let mut search = search.map_err(problems)?;
    let out = options.out.as_deref();
    if !options.merge.is_empty() {
        let shards = search.merge();
        let take = |line: &str| {
            let fields = line.matches(':').count();
            (fields <= FIELDS).then(|| search.tell_reported(line).ok())?
        };
        let (counts, full) = lines::merge(&options.merge, shards, take)?;
        summary(&search, &counts, full || search.is_full());
        return write(None, &finds(&search)?, out);
    }
    let kept = out.filter(|out| is_put_there(out));
    let mut standing = kept.map(|out| Standing::beside(out, options.save_every));
    if let Some(standing) = &standing {
        resume(&mut search, standing)?;
    }
    let only = options.only_estimate;
    let shards = options.shard.map_or(1, |(_, count)| count);
    search = go_through(search, shards, options.threads, standing.as_mut(), only)?;
    if only {
        return Ok(());
    }
    let counts = search.counts();
    let counts = [counts.outside, counts.beaten, counts.tried];
    summary(&search, &counts, search.is_full());
    let mark = options.shard.map(|_| search.mark());
    write(mark.as_ref(), &finds(&search)?, out)?;
    if let Some(standing) = &standing {
        standing.forget();
    }
    Ok(())
}

/// A line for each find, of no more than are kept: in many threads a search has found more by the time that it ends early.
fn finds(search: &Search) -> Result<Vec<String>, String> {
    let finds = search.report().finds;
    let lines = finds.iter().take(FINDS).map(serde_json::to_string);
    let lines: Result<_, _> = lines.collect();
    lines.map_err(|error| error.to_string())
}

/// Tells what has become of all candidates.
fn summary(search: &Search, counts: &[u128], full: bool) {
    let found = search.finds().len().to_string();
    let all = large(search.candidates() as f64);
    let count = |at: usize| large(counts.get(at).copied().unwrap_or(0) as f64);
    let [outside, beaten, tried] = [0, 1, 2].map(count);
    let values = [
        ("all", &*all),
        ("outside", &outside),
        ("beaten", &beaten),
        ("tried", &tried),
        ("found", &found),
    ];
    let done = if full {
        "cli-search-full"
    } else {
        "cli-search-done"
    };
    eprintln!("{}", said(done, &values));
}
