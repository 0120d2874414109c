//! Finding teeth: a whole search, in one thread and in two, and how fast candidates are tried one by one, beside plain loops over them in
//! the same run.

use std::time::{Duration, Instant};

use levertrain_core::search::{Ask, Criterion, Search, Wanted};
use levertrain_core::{Duty, Problem, Train};

use crate::plain;

/// Bounds on the teeth of suns and rings.
const TEETH: [u32; 2] = [20, 120];
/// Sets of which all teeth are tried one by one.
const TRIED_SETS: usize = 3;

/// Prints what searches for the ratios of a train take that may be off by some parts.
///
/// # Errors
/// A search that cannot be made.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    rates(name, train)?;
    println!(
        "\n| search, {name} | candidates | finds | tried | one thread | two threads | of linear | two shards |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    let usual = vec![Criterion::Error, Criterion::Size];
    let steps = vec![Criterion::Error, Criterion::Size, Criterion::Steps];
    for (tolerance, best) in [(0.01, &usual), (0.03, &usual), (0.01, &steps)] {
        let ask = ask(train, tolerance, best.clone());
        let mut search = Search::new(train, &ask).map_err(refused)?;
        let one = timed(|| while !search.run(1000) {});
        let mut parts = Search::new(train, &ask).map_err(refused)?.parts(2);
        let two = timed(|| while !Search::run_at_once(&mut parts, 5000) {});
        let mut shards = Vec::new();
        for which in 0..2 {
            shards.push(Search::shard(train, &ask, which, 2).map_err(refused)?);
        }
        let apart = timed(|| {
            std::thread::scope(|scope| {
                for shard in &mut shards {
                    scope.spawn(|| while !shard.run(1000) {});
                }
            });
        });
        println!(
            "| within {} %, {} criteria | {:.3e} | {} | {:.2e} | {:.3} s | {:.3} s | {:.2} | {:.3} s |",
            tolerance * 100.0,
            best.len(),
            search.candidates() as f64,
            search.finds().len(),
            search.counts().tried as f64,
            one.as_secs_f64(),
            two.as_secs_f64(),
            one.as_secs_f64() / two.as_secs_f64() / 2.0,
            apart.as_secs_f64(),
        );
    }
    Ok(())
}

/// Candidates a second and thread: all tried one by one, none cut off, beside the same equations solved anew for each
/// candidate, by nalgebra one after the other and by NumPy all at once.
fn rates(name: &str, train: &Train) -> Result<(), String> {
    let mut ask = ask(train, 0.001, vec![Criterion::Error, Criterion::Size]);
    // All but so many sets keep their teeth: it would take years otherwise.
    let couplings = &train.scenario().couplings;
    ask.keep = couplings[TRIED_SETS.min(couplings.len())..]
        .iter()
        .map(|set| set.facts().id().to_owned())
        .collect();
    let search = Search::new(train, &ask).map_err(refused)?;
    let mut plainly = search.one_by_one(usize::MAX);
    let took = timed(|| while !plainly.run(1) {});
    let rate = plainly.counts().tried as f64 / took.as_secs_f64();
    let dense = plain::Plain::of(train);
    let nalgebra = dense.nalgebra();
    let numpy = dense
        .numpy()
        .map_or("no Python named".to_owned(), |rate| format!("{rate:.2e}"));
    println!(
        "\n| candidates a second, {name}, {} ratios | one by one | nalgebra | NumPy |\n| --- | --- | --- | --- |",
        ask.wanted.len()
    );
    println!(
        "| of {:.2e} | {rate:.2e} | {nalgebra:.2e} | {numpy} |",
        plainly.counts().tried as f64
    );
    Ok(())
}

fn refused(problems: Vec<Problem>) -> String {
    format!("{problems:?}")
}

fn ask(train: &Train, tolerance: f64, best: Vec<Criterion>) -> Ask {
    let ranges = train.scenario().ranges.iter().enumerate();
    let wanted = ranges.filter_map(|(at, range)| {
        let settled = train.settle(train.range(at), Duty::Drive).combination;
        Some(Wanted {
            range: range.id.clone(),
            ratio: Some(settled.state().ratio()?.to_f64()),
            tolerance: Some(tolerance),
            ..Wanted::default()
        })
    });
    Ask {
        wanted: wanted.collect(),
        teeth: TEETH,
        best,
        ..Ask::default()
    }
}

fn timed(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}
