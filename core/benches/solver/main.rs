//! How fast the exact solver is, beside a dense floating-point solve in the same run.
//!
//! `cargo bench -p levertrain-core` checks that both give the same answers on every scenario,
//! runs the criterion groups (a filter may follow `--`) and prints a table of both timed in
//! turns; after `-- search` only what finding teeth takes. With `LEVERTRAIN_BENCH_JSON=FILE` the table is also written to a file, as one line.
#![allow(clippy::print_stdout, reason = "printing is what a benchmark is for")]

mod agreement;
mod comparison;
mod dense;
mod exercises;
mod faults;
mod plain;
mod search;
mod sources;
mod swaps;
mod traction;
mod trains;
mod transient;
mod work;
mod worst;
mod worst_times;

use std::hint::black_box;
use std::process::ExitCode;

use criterion::{BenchmarkId, Criterion};
use levertrain_core::Train;

use comparison::{Comparison, Subject};
use dense::Dense;
use trains::Example;

/// The scenarios whose every combination is timed.
const TIMED: [&str; 2] = ["04-six-speed-three-sets", "05-eight-speed-four-sets"];

/// The scenario with several sources that is timed.
const BRANCHED: &str = "14-input-split";

/// Names the file that the table is written to as JSON.
const JSON_FILE: &str = "LEVERTRAIN_BENCH_JSON";

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("solver benchmark: {message}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), String> {
    let scenarios = trains::scenarios()?;
    for example in &scenarios {
        check(&example.train)?;
    }
    let timed = TIMED
        .iter()
        .map(|name| {
            scenarios
                .iter()
                .find(|example| example.name == *name)
                .ok_or_else(|| format!("scenarios/{name}.json is missing"))
        })
        .collect::<Result<Vec<_>, _>>()?;

    if std::env::args().any(|argument| argument == "search") {
        return timed
            .iter()
            .skip(1)
            .try_for_each(|example| search::report(&example.name, &example.train));
    }
    if std::env::args().any(|argument| argument == "traction") {
        traction::report_worst()?;
        return timed
            .iter()
            .take(1)
            .try_for_each(|example| traction::report(&example.name, &example.train));
    }
    if std::env::args().any(|argument| argument == "transient") {
        transient::report_worst()?;
        return timed
            .iter()
            .try_for_each(|example| transient::report(&example.name, &example.train));
    }
    let mut criterion = Criterion::default().configure_from_args();
    for example in &timed {
        combinations(&mut criterion, example);
        efforts_and_losses(&mut criterion, example);
        chart_and_parse(&mut criterion, example);
    }
    // `cargo test --benches` only tries each benchmark once, without this argument and without
    // optimization, in which the large train would take a minute.
    if std::env::args().any(|argument| argument == "--bench") {
        worst_times::report()?;
        exercises::report_worst()?;
        faults::report_worst()?;
        sources::report_worst()?;
        transient::report_worst()?;
        traction::report_worst()?;
        let branched = scenarios.iter().find(|example| example.name == BRANCHED);
        let branched = branched.ok_or_else(|| format!("scenarios/{BRANCHED}.json is missing"))?;
        sources::report(&branched.name, &branched.train)?;
        for example in timed.iter().take(1) {
            transient::report(example.name.as_str(), &example.train)?;
            traction::report(example.name.as_str(), &example.train)?;
        }
        for example in timed.iter().skip(1) {
            search::report(example.name.as_str(), &example.train)?;
        }
        let synthetic = trains::synthetic()?;
        check(&synthetic)?;
        swaps::report_worst(&synthetic)?;
        sixteen_elements(&mut criterion, &synthetic);
        report(&timed, &synthetic)?;
    }
    criterion.final_summary();
    Ok(())
}

fn check(train: &Train) -> Result<(), String> {
    let count = agreement::check(train)?;
    agreement::check_losses(train)?;
    println!("{}: {count} combinations agree", train.scenario().name);
    Ok(())
}

fn combinations(criterion: &mut Criterion, example: &Example) {
    let train = &example.train;
    let baseline = Dense::new(train);
    let mut group = criterion.benchmark_group("all combinations");
    let id = |how: &str| BenchmarkId::new(how, &example.name);
    group.bench_function(id("walk"), |bencher| bencher.iter(|| work::walk(train)));
    group.bench_function(id("one by one"), |bencher| {
        bencher.iter(|| work::one_by_one(train));
    });
    group.bench_function(id("dense"), |bencher| {
        bencher.iter(|| work::dense(train, &baseline));
    });
    group.finish();
}

fn efforts_and_losses(criterion: &mut Criterion, example: &Example) {
    let train = &example.train;
    let baseline = Dense::new(train);
    let id = |how: &str| BenchmarkId::new(how, &example.name);
    let mut group = criterion.benchmark_group("speeds, torques and powers of all combinations");
    group.bench_function(id("exact"), |bencher| bencher.iter(|| work::efforts(train)));
    group.bench_function(id("dense"), |bencher| {
        bencher.iter(|| work::dense_efforts(train, &baseline));
    });
    group.finish();
    let mut group = criterion.benchmark_group("efficiency of every range");
    group.bench_function(id("exact speeds"), |bencher| {
        bencher.iter(|| work::loss_chart(train));
    });
    group.bench_function(id("dense"), |bencher| {
        bencher.iter(|| work::dense_loss_chart(train, &baseline));
    });
    group.finish();
}

fn chart_and_parse(criterion: &mut Criterion, example: &Example) {
    let train = &example.train;
    criterion
        .benchmark_group("range chart")
        .bench_function(&example.name, |bencher| {
            bencher.iter(|| train.range_chart())
        });
    criterion
        .benchmark_group("shifts and best chains")
        .bench_function(&example.name, |bencher| {
            bencher.iter(|| swaps::shifts(train))
        });
    criterion
        .benchmark_group("walkthroughs of all ranges")
        .bench_function(&example.name, |bencher| {
            bencher.iter(|| work::walkthroughs(train));
        });
    criterion
        .benchmark_group("parse")
        .bench_function(&example.name, |bencher| {
            bencher.iter(|| Train::parse(black_box(&example.text)));
        });
}

fn sixteen_elements(criterion: &mut Criterion, train: &Train) {
    let baseline = Dense::new(train);
    let mut group = criterion.benchmark_group("65536 combinations");
    group.sample_size(10);
    group.bench_function("walk", |bencher| bencher.iter(|| work::walk(train)));
    group.bench_function("dense", |bencher| {
        bencher.iter(|| work::dense(train, &baseline));
    });
    group.finish();
}

/// Times solver and baseline in turns and tells the result.
fn report(timed: &[&Example], synthetic: &Train) -> Result<(), String> {
    let mut comparisons = Vec::new();
    for example in timed {
        comparisons.extend(compare(&example.name, &example.train, 4001));
    }
    comparisons.extend(compare("synthetic", synthetic, 7));
    println!("\n{}", comparison::table(&comparisons));
    if let Some(path) = std::env::var_os(JSON_FILE) {
        let line = serde_json::to_string(&comparisons).map_err(|error| error.to_string())?;
        std::fs::write(&path, line + "\n")
            .map_err(|error| format!("{}: {error}", path.display()))?;
    }
    Ok(())
}

/// Speeds against the baseline and against solving one by one, then torques and powers as well,
/// then the efficiencies of the ranges, if there are any.
fn compare(name: &str, train: &Train, rounds: usize) -> Vec<Comparison> {
    let dense = Dense::new(train);
    let scenario = train.scenario();
    let subject = |work, baseline, rounds| Subject {
        work,
        train: name,
        combinations: 1 << scenario.elements.len(),
        baseline,
        rounds,
    };
    let speeds = || work::walk(train);
    let mut comparisons = vec![
        Comparison::measure(&subject("speeds", "dense", rounds), speeds, || {
            work::dense(train, &dense);
        }),
        Comparison::measure(&subject("speeds", "one by one", rounds), speeds, || {
            work::one_by_one(train);
        }),
        Comparison::measure(
            &subject("and torques", "dense", rounds.div_ceil(4)),
            || work::efforts(train),
            || work::dense_efforts(train, &dense),
        ),
    ];
    if !scenario.ranges.is_empty() {
        let subject = Subject {
            combinations: scenario.ranges.len(),
            ..subject("efficiencies", "dense", rounds)
        };
        comparisons.push(Comparison::measure(
            &subject,
            || work::loss_chart(train),
            || work::dense_loss_chart(train, &dense),
        ));
        let subject = Subject {
            work: "double faults",
            train: name,
            combinations: faults::cells(train),
            baseline: "one by one",
            rounds: rounds.div_ceil(40),
        };
        comparisons.push(Comparison::measure(
            &subject,
            || faults::search(train),
            || faults::one_by_one(train),
        ));
    }
    comparisons
}
