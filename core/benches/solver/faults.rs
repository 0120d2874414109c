//! The search for faults: the whole table and a question to it, beside making each broken train anew.

use std::hint::black_box;
use std::time::{Duration, Instant};

use levertrain_core::Train;
use levertrain_core::faults::{Explanations, Fault, Faulty, Observed, Search, Trial};

use crate::worst;

/// How long the hardest scenarios are given.
const LONGEST: Duration = Duration::from_secs(20);
/// How many cells are worked out between two looks at the clock.
const CELLS: usize = 64;

/// All single and double faults of a train, and which of them explain that the first range is lost.
pub fn search(train: &Train) {
    let search = Search::completed(black_box(train));
    black_box(Explanations::of(&search, &[Some(Observed::Lost)]));
}

/// The same table, each broken train made and solved by itself.
pub fn one_by_one(train: &Train) {
    let faults = Fault::all(train);
    let trials = Trial::all(train);
    let row = |faults: &[Fault]| {
        let faulty = Faulty::new(train, faults);
        for trial in &trials {
            black_box(faulty.outcome(trial));
        }
    };
    for (at, &first) in faults.iter().enumerate() {
        row(&[first]);
        for &second in &faults[at + 1..] {
            if first.goes_with(second) {
                row(&[first, second]);
            }
        }
    }
}

/// How many cells the table has.
pub fn cells(train: &Train) -> usize {
    Search::new(train).progress().1
}

/// Prints how long the table of the hardest scenarios takes, or how far it has come.
///
/// # Errors
/// A scenario that does not read.
pub fn report_worst() -> Result<(), String> {
    println!(
        "\n| worst allowed | cells of the table of faults | time | of it known | a question |"
    );
    println!("| --- | --- | --- | --- | --- |");
    for worst in worst::files() {
        let train = Train::parse(&worst.text)
            .map_err(|problems| format!("{}: {problems:?}", worst.name))?;
        let start = Instant::now();
        let mut search = Search::new(&train);
        while start.elapsed() < LONGEST && search.advance(CELLS) {}
        let time = start.elapsed();
        let (done, cells) = search.progress();
        let known = done as f64 * 100.0 / cells as f64;
        let start = Instant::now();
        black_box(Explanations::of(&search, &[Some(Observed::Lost)]));
        let question = start.elapsed().as_secs_f64() * 1e3;
        println!(
            "| {} | {cells} | {:.2} s | {known:.1} % | {question:.1} ms |",
            worst.name,
            time.as_secs_f64()
        );
    }
    Ok(())
}
