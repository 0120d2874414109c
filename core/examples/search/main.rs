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
//! `… -- TASK.json --merge FILE,FILE… [--out FILE]` makes the output of the whole search from those of all its shards, the
//! same whatever their order, and however often one of them is named.
//!
//! Exits with 2 and one line on bad input.

mod amounts;
mod going;
mod standing;

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use amounts::large;
use going::{go_through, resume};
use levertrain_core::Problem;
use levertrain_core::search::{Search, SearchReport, SearchTask};
use levertrain_core::words::{Catalogue, LANGUAGES, said, word};
use standing::{Standing, is_put_there};

/// Most shards: more would have nothing to do.
const MOST_SHARDS: usize = 256;
/// Most threads.
const MOST_THREADS: usize = 1024;
/// How often it is kept where a search stands, if nothing else is said: no more than that is lost.
const SAVE_EVERY: Duration = Duration::from_secs(5);
/// What may be said, in seconds.
const SAVES: (f64, f64) = (0.01, 86_400.0);

struct Options {
    task: String,
    /// Which shard, from 0, and of how many.
    shard: (usize, usize),
    merge: Vec<String>,
    out: Option<PathBuf>,
    threads: usize,
    /// Whether it is only told how long it would take.
    only_estimate: bool,
    /// How often it is kept where the search stands.
    save_every: Duration,
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args_os()
        .skip(1)
        .map(|argument| argument.to_string_lossy().into_owned())
        .collect();
    match options(arguments.into_iter()).and_then(|options| run(&options)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("search: {message}");
            ExitCode::from(2)
        }
    }
}

/// What is wrong with the arguments, and how they are meant.
fn misused(what: &str) -> String {
    let values = [("what", what), ("usage", word("cli-search-usage"))];
    said("cli-misused", &values)
}

fn options(mut arguments: impl Iterator<Item = String>) -> Result<Options, String> {
    let (mut task, mut merge, mut out) = (None, Vec::new(), None);
    let mut shard = (0, 1);
    let mut threads = std::thread::available_parallelism().map_or(1, usize::from);
    let (mut only_estimate, mut save_every) = (false, SAVE_EVERY);
    while let Some(argument) = arguments.next() {
        let mut value = || {
            let missing = || misused(&said("cli-needs-value", &[("option", &*argument)]));
            arguments.next().ok_or_else(missing)
        };
        match argument.as_str() {
            "--shard" => shard = shard_of(&value()?)?,
            "--threads" => threads = threads_of(&value()?)?,
            "--estimate" => only_estimate = true,
            "--save-every" => save_every = save_every_of(&value()?)?,
            "--out" => out = Some(PathBuf::from(value()?)),
            "--merge" => merge = value()?.split(',').map(str::to_owned).collect(),
            "--language" => speak(&value()?)?,
            option if option.starts_with("--") => {
                return Err(misused(&said("cli-unknown-option", &[("option", option)])));
            }
            _ if task.is_some() => return Err(misused(word("cli-one-file"))),
            _ => task = Some(argument),
        }
    }
    let task = task.ok_or_else(|| misused(word("cli-search-no-task")))?;
    Ok(Options {
        task,
        shard,
        merge,
        out,
        threads,
        only_estimate,
        save_every,
    })
}

fn speak(code: &str) -> Result<(), String> {
    let Some(catalogue) = Catalogue::of_language(code) else {
        let names = LANGUAGES.join(", ");
        let values = [("found", code), ("names", &*names)];
        return Err(misused(&said("cli-language", &values)));
    };
    catalogue.speak();
    Ok(())
}

fn shard_of(text: &str) -> Result<(usize, usize), String> {
    let numbers = text.split_once('/').and_then(|(which, of)| {
        let (which, of) = (which.parse::<usize>().ok()?, of.parse::<usize>().ok()?);
        (1..=of).contains(&which).then(|| (which - 1, of))
    });
    numbers.filter(|(_, of)| *of <= MOST_SHARDS).ok_or_else(|| {
        let most = MOST_SHARDS.to_string();
        misused(&said(
            "cli-search-shard",
            &[("found", text), ("most", &most)],
        ))
    })
}

fn threads_of(text: &str) -> Result<usize, String> {
    let count = text.parse::<usize>().ok();
    count
        .filter(|count| (1..=MOST_THREADS).contains(count))
        .ok_or_else(|| {
            let most = MOST_THREADS.to_string();
            misused(&said(
                "cli-search-threads",
                &[("found", text), ("most", &most)],
            ))
        })
}

fn save_every_of(text: &str) -> Result<Duration, String> {
    let (least, most) = SAVES;
    let seconds = text.parse::<f64>().ok();
    seconds
        .filter(|seconds| (least..=most).contains(seconds))
        .map(Duration::from_secs_f64)
        .ok_or_else(|| {
            let [least, most] = [least, most].map(|end| end.to_string());
            misused(&said(
                "cli-search-save",
                &[("found", text), ("least", &least), ("most", &most)],
            ))
        })
}

fn run(options: &Options) -> Result<(), String> {
    let text = read(&options.task)?;
    let told = |problems: Vec<Problem>| told(&options.task, &problems);
    let SearchTask { train, ask } = SearchTask::parse(&text).map_err(told)?;
    let mut search = match options.shard {
        (_, 1) => Search::new(&train, &ask),
        (which, of) => Search::shard(&train, &ask, which, of),
    }
    .map_err(told)?;
    let every = options.save_every;
    let mut standing = options
        .out
        .as_deref()
        .filter(|out| is_put_there(out))
        .map(|out| Standing::beside(out, every));
    if options.merge.is_empty() {
        if let Some(standing) = &standing {
            resume(&mut search, standing)?;
        }
        let only = options.only_estimate;
        search = go_through(search, options.threads, standing.as_mut(), only)?;
        if only {
            return Ok(());
        }
        summary(&search.report());
    } else {
        for file in &options.merge {
            merge(&mut search, file)?;
        }
    }
    write(&search.report(), options.out.as_deref())?;
    if let Some(standing) = &standing {
        standing.forget();
    }
    Ok(())
}

fn read(file: &str) -> Result<String, String> {
    fs::read_to_string(file).map_err(|error| format!("{file}: {error}"))
}

/// The first problem of a file, and how many more there are.
fn told(file: &str, problems: &[Problem]) -> String {
    let first = problems
        .first()
        .map(ToString::to_string)
        .unwrap_or_default();
    let first = format!("{file}: {first}");
    match problems.len() {
        0 | 1 => first,
        count => said(
            "cli-and-more",
            &[("first", &*first), ("more", &(count - 1).to_string())],
        ),
    }
}

/// Tells what has become of all candidates.
fn summary(report: &SearchReport) {
    let found = report.finds.len().to_string();
    let counts = [
        report.candidates,
        report.outside,
        report.beaten,
        report.tried,
    ]
    .map(large);
    let [all, outside, beaten, tried] = &counts;
    let values = [
        ("all", &**all),
        ("outside", outside),
        ("beaten", beaten),
        ("tried", tried),
        ("found", &found),
    ];
    let done = if report.full {
        "cli-search-full"
    } else {
        "cli-search-done"
    };
    eprintln!("{}", said(done, &values));
}

/// Takes in the finds of a shard's file.
fn merge(search: &mut Search, file: &str) -> Result<(), String> {
    for (at, line) in read(file)?.lines().enumerate() {
        search.tell_reported(line).map_err(|_| {
            let number = (at + 1).to_string();
            said("cli-search-line", &[("file", file), ("line", &number)])
        })?;
    }
    Ok(())
}

fn write(report: &SearchReport, out: Option<&Path>) -> Result<(), String> {
    let unwritten = |error: io::Error| said("cli-unwritten", &[("error", &error.to_string())]);
    let Some(file) = out else {
        return lines(report, &mut io::stdout().lock()).map_err(unwritten);
    };
    if !is_put_there(file) {
        let mut writer = BufWriter::new(fs::File::create(file).map_err(unwritten)?);
        lines(report, &mut writer).map_err(unwritten)?;
        return writer.flush().map_err(unwritten);
    }
    let mut unfinished = file.as_os_str().to_owned();
    unfinished.push(".part");
    let mut writer = BufWriter::new(fs::File::create(&unfinished).map_err(unwritten)?);
    lines(report, &mut writer).map_err(unwritten)?;
    writer.flush().map_err(unwritten)?;
    fs::rename(&unfinished, file).map_err(unwritten)
}

fn lines(report: &SearchReport, writer: &mut impl Write) -> io::Result<()> {
    for find in &report.finds {
        serde_json::to_writer(&mut *writer, find)?;
        writeln!(writer)?;
    }
    Ok(())
}
