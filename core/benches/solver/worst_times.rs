//! What the hardest scenarios take, beside what one with as many elements should.

use std::hint::black_box;
use std::time::{Duration, Instant};

use levertrain_core::{Duty, ElementSet, Train};

use crate::worst;

/// Times reading, settling, a fight and the chart of each, and prints a line each.
///
/// # Errors
/// A scenario that does not read.
pub fn report() -> Result<(), String> {
    println!("\n| worst allowed | read | settle, both duties | fight of all | chart |");
    println!("| --- | --- | --- | --- | --- |");
    for worst in worst::files() {
        let read = || Train::parse(black_box(&worst.text));
        let train = read().map_err(|problems| format!("{}: {problems:?}", worst.name))?;
        let applied: ElementSet = (0..train.scenario().elements.len()).collect();
        let times = [
            shortest(|| drop(black_box(read()))),
            shortest(|| {
                for duty in [Duty::Drive, Duty::Coast] {
                    black_box(train.settle(ElementSet::NONE, duty));
                }
            }),
            shortest(|| {
                let combination = train.solve(applied);
                black_box((combination.fight(), combination.hold()));
            }),
            shortest(|| drop(black_box(train.range_chart()))),
        ];
        let times = times.map(|time| format!("{:.2} ms", time.as_secs_f64() * 1e3));
        println!("| {} | {} |", worst.name, times.join(" | "));
    }
    Ok(())
}

fn shortest(work: impl Fn()) -> Duration {
    let time = |_| {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    (0..5).map(time).min().unwrap_or_default()
}
