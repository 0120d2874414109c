//! Finding teeth: a whole search, in one part and in two at once, beside a plain loop over candidates through dense
//! floating-point solves in the same run.

use std::hint::black_box;
use std::time::{Duration, Instant};

use levertrain_core::search::{Ask, Criterion, Search, Wanted};
use levertrain_core::{Body, Duty, Train};
use nalgebra::{DMatrix, DVector};

/// Bounds on the teeth of suns and rings.
const TEETH: [u32; 2] = [20, 120];
/// Candidates that the plain loop tries; it would take years for all.
const PLAIN: u32 = 20_000;

/// Prints what searches for the ratios of a train take that may be off by some parts.
///
/// # Errors
/// A search that cannot be made.
pub fn report(name: &str, train: &Train) -> Result<(), String> {
    let plain = plain_rate(train);
    println!(
        "\n| search, {name} | candidates | finds | tried | one part | two parts | plain loop, candidates/s |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- |");
    let usual = vec![Criterion::Error, Criterion::Size];
    let steps = vec![Criterion::Error, Criterion::Size, Criterion::Steps];
    for (tolerance, best) in [(0.01, &usual), (0.03, &usual), (0.01, &steps)] {
        let ask = ask(train, tolerance, best.clone());
        let refused = |problems| format!("{problems:?}");
        let mut search = Search::new(train, &ask).map_err(refused)?;
        let one = timed(|| while !search.run(1000) {});
        let mut shards = Vec::new();
        for which in 0..2 {
            shards.push(Search::shard(train, &ask, which, 2).map_err(refused)?);
        }
        let two = timed(|| {
            std::thread::scope(|scope| {
                for shard in &mut shards {
                    scope.spawn(|| while !shard.run(1000) {});
                }
            });
        });
        println!(
            "| within {} %, {} criteria | {:.3e} | {} | {:.2e} | {:.3} s | {:.3} s | {plain:.2e} |",
            tolerance * 100.0,
            best.len(),
            search.candidates() as f64,
            search.finds().len(),
            search.counts().tried as f64,
            one.as_secs_f64(),
            two.as_secs_f64(),
        );
    }
    Ok(())
}

fn ask(train: &Train, tolerance: f64, best: Vec<Criterion>) -> Ask {
    let ranges = train.scenario().ranges.iter().enumerate();
    let wanted = ranges.filter_map(|(at, range)| {
        let settled = train.settle(train.range(at), Duty::Drive).combination;
        Some(Wanted {
            range: range.id.clone(),
            ratio: Some(settled.state().ratio()?.to_f64()),
            tolerance: Some(tolerance),
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

/// Candidates a second of a loop that solves each range of each candidate by LU of all speed equations: those of
/// the sets, one for each applied element, and the input's.
fn plain_rate(train: &Train) -> f64 {
    let shafts = train.scenario().shafts.len();
    let ranges = 0..train.scenario().ranges.len();
    let locked: Vec<_> = ranges
        .map(|range| {
            train
                .settle(train.range(range), Duty::Drive)
                .combination
                .applied()
        })
        .collect();
    let rows: Vec<Vec<i64>> = train
        .scenario()
        .couplings
        .iter()
        .flat_map(|set| set.facts().mesh_rows())
        .collect();
    let start = Instant::now();
    for candidate in 0..PLAIN {
        for applied in &locked {
            let mut matrix = DMatrix::<f64>::zeros(shafts, shafts);
            let mut right = DVector::<f64>::zeros(shafts);
            for (at, row) in rows.iter().enumerate() {
                for (member, coefficient) in train.members(at).iter().zip(row) {
                    if let Body::Shaft(shaft) = member {
                        // Other teeth for each candidate.
                        matrix[(at, *shaft)] += *coefficient as f64 + f64::from(candidate % 7);
                    }
                }
            }
            let elements = applied.iter().take(shafts - rows.len() - 1);
            for (at, element) in elements.enumerate() {
                for (body, sign) in train.ends(element).iter().zip([1.0, -1.0]) {
                    if let Body::Shaft(shaft) = body {
                        matrix[(rows.len() + at, *shaft)] += sign;
                    }
                }
            }
            matrix[(shafts - 1, train.input())] = 1.0;
            right[shafts - 1] = 1.0;
            black_box(matrix.lu().solve(&right));
        }
    }
    f64::from(PLAIN) / start.elapsed().as_secs_f64()
}
