//! Exact solver against baseline, timed in turns within one run, so that a busy machine slows
//! both alike and their quotient means something.

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use levertrain_core::Train;
use serde::Serialize;

use crate::work;

/// How long one batch of repetitions should take at least: far above the clock's resolution,
/// and far below a scheduler's time slice, so that on a busy machine most batches are not
/// interrupted and the median is of those.
const BATCH: Duration = Duration::from_micros(100);

/// One line of the table.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Comparison {
    /// The train whose combinations were all classified, with every shaft's speed.
    pub train: String,
    /// How many combinations that are.
    pub combinations: u32,
    /// What the walk is compared with.
    pub baseline: &'static str,
    /// Median nanoseconds of the walk over all combinations.
    pub exact_ns: f64,
    /// Median nanoseconds of the baseline over all combinations.
    pub baseline_ns: f64,
    /// How many times faster the walk is: the median of the quotients of neighbouring
    /// batches, which a machine that slows down and recovers disturbs least.
    pub times_faster: f64,
}

impl Comparison {
    /// Times the walk over the combinations of `train`, called `name`, and a baseline in
    /// turns, `rounds` batches of each.
    pub fn measure(
        name: &str,
        train: &Train,
        rounds: usize,
        baseline: &'static str,
        mut other: impl FnMut(),
    ) -> Self {
        let mut walk = || work::walk(train);
        let (walk_count, other_count) = (repetitions(&mut walk), repetitions(&mut other));
        let rounds: Vec<(f64, f64)> = (0..rounds)
            .map(|_| (batch(walk_count, &mut walk), batch(other_count, &mut other)))
            .collect();
        Self {
            train: name.to_owned(),
            combinations: 1 << train.scenario().elements.len(),
            baseline,
            exact_ns: median(rounds.iter().map(|(walk, _)| *walk)),
            baseline_ns: median(rounds.iter().map(|(_, other)| *other)),
            times_faster: median(rounds.iter().map(|(walk, other)| other / walk)),
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
        "{:<26} {:>12} {:>13}   {:<10} {:>13} {:>7}\n",
        "median", "combinations", "walk", "baseline", "", "ratio"
    );
    for comparison in comparisons {
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{:<26} {:>12} {:>10.2} µs   {:<10} {:>10.2} µs {:>6.1}×",
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
