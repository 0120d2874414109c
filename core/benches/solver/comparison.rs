//! Exact solver against baseline, timed in turns within one run, so that a busy machine slows
//! both alike and their quotient means something.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use serde::Serialize;

/// How long one batch of repetitions should take: far above the clock's resolution, and so
/// short that other programs leave most batches alone.
const BATCH: Duration = Duration::from_millis(1);

/// One line of the table.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Comparison {
    /// What was done.
    pub work: String,
    /// Median nanoseconds of the solver under test.
    pub exact_ns: f64,
    /// Median nanoseconds of what it is compared with.
    pub baseline_ns: f64,
    /// How many times faster the solver is: the median of the quotients of neighbouring
    /// batches, which a machine that slows down and recovers disturbs least.
    pub times_faster: f64,
}

impl Comparison {
    /// Times two pieces of work in turns, `rounds` batches of each.
    pub fn measure(
        work: String,
        rounds: usize,
        mut exact: impl FnMut(),
        mut baseline: impl FnMut(),
    ) -> Self {
        let (exact_count, baseline_count) = (repetitions(&mut exact), repetitions(&mut baseline));
        let rounds: Vec<(f64, f64)> = (0..rounds)
            .map(|_| {
                (
                    batch(exact_count, &mut exact),
                    batch(baseline_count, &mut baseline),
                )
            })
            .collect();
        Self {
            work,
            exact_ns: median(rounds.iter().map(|(exact, _)| *exact)),
            baseline_ns: median(rounds.iter().map(|(_, baseline)| *baseline)),
            times_faster: median(rounds.iter().map(|(exact, baseline)| baseline / exact)),
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
        "{:<58} {:>11} {:>11} {:>7}\n",
        "median time", "exact", "baseline", "ratio"
    );
    for comparison in comparisons {
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{:<58} {:>8.2} µs {:>8.2} µs {:>6.1}×",
            comparison.work,
            comparison.exact_ns / 1e3,
            comparison.baseline_ns / 1e3,
            comparison.times_faster
        );
    }
    text
}
