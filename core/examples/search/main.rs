//! Finds teeth for wanted ratios, whole or in shards.
//!
//! `cargo run --release -p levertrain-core --example search -- TASK.json [--shard K/N] [--out FILE] [--language
//! LANGUAGE]`
//!
//! A task is `{"format": 1, "train": …, "ask": …}` (`scenarios/FORMAT.md`). Each line of the output is a find, as JSON; how
//! far the search is, and what has become of all candidates, goes to the error output. A file is written under
//! another name and gets its own once it is complete, so that what is interrupted leaves nothing half: of a search
//! in shards those are lost that were under way.
//!
//! `… -- TASK.json --merge FILE,FILE… [--out FILE]` makes the output of the whole search from those of all its shards, the
//! same whatever their order, and however often one of them is named.
//!
//! Exits with 2 and one line on bad input.

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use levertrain_core::Problem;
use levertrain_core::search::{Search, SearchReport, SearchTask};
use levertrain_core::words::{Catalogue, LANGUAGES, said, word};

/// Most shards: more would have nothing to do.
const MOST_SHARDS: usize = 256;
/// Boxes between looks at the clock.
const BOXES: usize = 1000;
/// How often progress is told.
const NEWS: Duration = Duration::from_secs(2);

struct Options {
    task: String,
    /// Which shard, from 0, and of how many.
    shard: (usize, usize),
    merge: Vec<String>,
    out: Option<PathBuf>,
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
    while let Some(argument) = arguments.next() {
        let mut value = || {
            let missing = || misused(&said("cli-needs-value", &[("option", &*argument)]));
            arguments.next().ok_or_else(missing)
        };
        match argument.as_str() {
            "--shard" => shard = shard_of(&value()?)?,
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

fn run(options: &Options) -> Result<(), String> {
    let text = read(&options.task)?;
    let told = |problems: Vec<Problem>| told(&options.task, &problems);
    let SearchTask { train, ask } = SearchTask::parse(&text).map_err(told)?;
    let mut search = match options.shard {
        (_, 1) => Search::new(&train, &ask),
        (which, of) => Search::shard(&train, &ask, which, of),
    }
    .map_err(told)?;
    if options.merge.is_empty() {
        go_through(&mut search);
    } else {
        for file in &options.merge {
            merge(&mut search, file)?;
        }
    }
    write(&search.report(), options.out.as_deref())
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

fn go_through(search: &mut Search) {
    let mut next = Instant::now() + NEWS;
    while !search.run(BOXES) {
        if Instant::now() > next {
            let report = search.report();
            let done = report.outside + report.beaten + report.tried;
            let percent = format!("{:.1}", 100.0 * done / report.candidates);
            let (all, found) = (large(report.candidates), report.finds.len().to_string());
            let values = [("percent", &*percent), ("all", &all), ("found", &found)];
            eprintln!("{}", said("cli-search-progress", &values));
            next = Instant::now() + NEWS;
        }
    }
    let report = search.report();
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
    eprintln!("{}", said("cli-search-done", &values));
}

fn large(count: f64) -> String {
    format!("{count:.3e}")
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
