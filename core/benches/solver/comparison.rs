//! Exact solver against baseline, timed in turns within one run, so that a busy machine slows
//! both alike and their quotient means something.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use serde::Serialize;

/// How long one batch of repetitions should take at least: far above the clock's resolution,
/// and far below a scheduler's time slice, so that on a busy machine most batches are not
/// interrupted and the median is of those.
const BATCH: Duration = Duration::from_micros(100);

/// One line of the table.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Comparison {
    /// What was done.
    pub work: &'static str,
    /// The train it was done with.
    pub train: String,
    /// How many combinations of its elements, or ranges.
    pub combinations: usize,
    /// What the exact solver is compared with.
    pub baseline: &'static str,
    /// Median nanoseconds of the exact solver over all combinations.
    pub exact_ns: f64,
    /// Median nanoseconds of the baseline over all combinations.
    pub baseline_ns: f64,
    /// How many times faster the exact solver is: the median of the quotients of neighbouring
    /// batches, which a machine that slows down and recovers disturbs least.
    pub times_faster: f64,
}

/// What is compared, and how often.
pub struct Subject<'a> {
    /// What is done.
    pub work: &'static str,
    /// The name of the train.
    pub train: &'a str,
    /// How many combinations or ranges.
    pub combinations: usize,
    /// What the exact solver is compared with.
    pub baseline: &'static str,
    /// Batches of each.
    pub rounds: usize,
}

impl Comparison {
    /// Times the exact solver and a baseline in turns.
    pub fn measure(
        subject: &Subject<'_>,
        mut exact: impl FnMut(),
        mut other: impl FnMut(),
    ) -> Self {
        let (exact_count, other_count) = (repetitions(&mut exact), repetitions(&mut other));
        let rounds: Vec<(f64, f64)> = (0..subject.rounds)
            .map(|_| {
                (
                    batch(exact_count, &mut exact),
                    batch(other_count, &mut other),
                )
            })
            .collect();
        Self {
            work: subject.work,
            train: subject.train.to_owned(),
            combinations: subject.combinations,
            baseline: subject.baseline,
            exact_ns: median(rounds.iter().map(|(exact, _)| *exact)),
            baseline_ns: median(rounds.iter().map(|(_, other)| *other)),
            times_faster: median(rounds.iter().map(|(exact, other)| other / exact)),
        }
    }
}

/// How many repetitions fill a batch.
fn repetitions(work: &mut impl FnMut()) -> u32 {
    let mut count = 1;
    while batch(count, work) * f64::from(count) < BATCH.as_nanos() as f64 && count < 1 << 24 {
        count *= 2;
    }
    count
}

/// Nanoseconds of one repetition, over a batch.
fn batch(count: u32, work: &mut impl FnMut()) -> f64 {
    let start = Instant::now();
    for _ in 0..count {
        work();
    }
    start.elapsed().as_nanos() as f64 / f64::from(count)
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// The comparisons as lines for a reader.
pub fn table(comparisons: &[Comparison]) -> String {
    let mut text = format!(
        "{:<14} {:<26} {:>12} {:>14}   {:<10} {:>14} {:>7}\n",
        "median", "", "combinations", "exact", "baseline", "", "ratio"
    );
    for comparison in comparisons {
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{:<14} {:<26} {:>12} {:>11.2} µs   {:<10} {:>11.2} µs {:>6.1}×",
            comparison.work,
            comparison.train,
            comparison.combinations,
            comparison.exact_ns / 1e3,
            comparison.baseline,
            comparison.baseline_ns / 1e3,
            comparison.times_faster
        );
    }
    text
}
