//! The graph of shifts of the hardest scenarios, and the best chains of ranges through it.

use std::hint::black_box;
use std::time::{Duration, Instant};

use levertrain_core::Train;
use levertrain_core::swaps::{Bounds, Chains, Graph, Search, Shift};

use crate::worst;

/// How many combinations are looked at between two looks at the clock, as the page does.
const PIECE: usize = 16;

/// Shifts and best chains of a train.
pub fn shifts(train: &Train) {
    let graph = Graph::of_train(black_box(train));
    black_box(Shift::all(&graph));
    black_box(Chains::best(&graph, &Bounds::default()));
}

/// Prints what the graphs of the hardest scenarios take, and of a train in which much drives.
///
/// # Errors
/// A scenario that does not read.
pub fn report_worst(much: &Train) -> Result<(), String> {
    println!(
        "\n| worst allowed | drive | single swaps | all found | longest piece of {PIECE} | graph | shifts | chains, usual steps | chains, all steps |"
    );
    println!("| --- |{}", " --- |".repeat(8));
    for worst in worst::files() {
        let train = Train::parse(&worst.text)
            .map_err(|problems| format!("{}: {problems:?}", worst.name))?;
        row(worst.name, &train);
    }
    row(&much.scenario().name, much);
    Ok(())
}

fn row(name: &str, train: &Train) {
    let mut search = Search::new(train);
    let (mut all, mut longest) = (Duration::ZERO, Duration::ZERO);
    loop {
        let (time, more) = timed(|| search.advance(PIECE));
        all += time;
        longest = longest.max(time);
        if !more {
            break;
        }
    }
    let (making, graph) = timed(|| search.graph());
    let nodes = graph.nodes().len();
    let singles: usize = (0..nodes).map(|node| graph.singles(node).len()).sum();
    let (shifting, _) = timed(|| Shift::all(&graph));
    let chains = |bounds: &Bounds| {
        let (time, found) = timed(|| Chains::best(&graph, bounds));
        match found.is_complete {
            true => {
                let ranges = found.chains.first().map_or(0, |chain| chain.nodes.len());
                format!("{} of {ranges} ranges", millis(time))
            }
            false => format!("{}, too many", millis(time)),
        }
    };
    let [usual, wide] =
        [Bounds::default(), Bounds::of_hundredths(101, 100_000, 32)].map(|bounds| chains(&bounds));
    let times = [all, longest, making, shifting].map(millis).join(" | ");
    println!(
        "| {name} | {nodes} | {} | {times} | {usual} | {wide} |",
        singles / 2
    );
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let made = black_box(work());
    (start.elapsed(), made)
}

fn millis(time: Duration) -> String {
    format!("{:.2} ms", time.as_secs_f64() * 1e3)
}
