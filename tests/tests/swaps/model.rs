//! The definitions once more, without the core's graph: sets of names, and every path there is.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use levertrain_core::swaps::{Bounds, Graph, MOST_CHAINS};
use levertrain_core::{Duty, ElementSet, Fraction, Train, Verdict};
use levertrain_tests::files::scenarios;
use levertrain_tests::rational::{Rational, one, rational, zero};

/// All our scenarios, with their names.
pub fn trains() -> Vec<(String, Train)> {
    let files = scenarios().unwrap_or_else(|error| panic!("{error}"));
    let read = |text: &str| Train::parse(text).unwrap_or_else(|problems| panic!("{problems:?}"));
    let trains = files
        .iter()
        .map(|file| (file.stem.clone(), read(&file.text)));
    trains.collect()
}

/// The ids of a set of elements.
pub fn names(train: &Train, set: ElementSet) -> BTreeSet<String> {
    let elements = &train.scenario().elements;
    set.iter()
        .map(|element| elements[element].id().to_owned())
        .collect()
}

/// All nodes: what is applied, and the ratio, set by set.
pub fn nodes(train: &Train) -> Vec<(ElementSet, Fraction)> {
    let elements = &train.scenario().elements;
    let ranges: Vec<ElementSet> = (0..train.scenario().ranges.len())
        .map(|range| train.range(range))
        .collect();
    let mut nodes = Vec::new();
    for set in (0..1_u32 << elements.len()).map(ElementSet::from_bits) {
        if set.iter().any(|element| elements[element].is_one_way()) {
            continue;
        }
        let settled = train.settle(set, Duty::Drive);
        let needed = train.solve(set).releasable().is_empty();
        let ratio = settled.combination.state().ratio();
        if let (Verdict::Settled, Some(ratio)) = (&settled.verdict, ratio)
            && (needed || ranges.contains(&set))
        {
            nodes.push((set, ratio.clone()));
        }
    }
    nodes
}

/// How many go and how many come between two sets of names.
pub fn change(from: &BTreeSet<String>, to: &BTreeSet<String>) -> (usize, usize) {
    (from.difference(to).count(), to.difference(from).count())
}

/// Whether that is at most one each way.
pub fn is_single(change: (usize, usize)) -> bool {
    matches!(change, (1, 1) | (1, 0) | (0, 1))
}

/// The best rows of nodes within bounds, by going all ways there are.
pub fn best_rows(train: &Train, graph: &Graph, bounds: &Bounds) -> Vec<Vec<usize>> {
    let sets: Vec<BTreeSet<String>> = graph
        .nodes()
        .iter()
        .map(|node| names(train, node.applied))
        .collect();
    let ratios: Vec<Rational> = graph
        .nodes()
        .iter()
        .map(|node| rational(&node.ratio))
        .collect();
    let [least, most] = [&bounds.least, &bounds.most].map(rational);
    let zero = zero();
    let follows = |from: usize, to: usize| {
        if ratios[from] <= zero || ratios[to] <= zero || !is_single(change(&sets[from], &sets[to]))
        {
            return false;
        }
        let step = &ratios[from] / &ratios[to];
        least <= step && step <= most
    };
    let next: Vec<Vec<usize>> = (0..sets.len())
        .map(|from| (0..sets.len()).filter(|&to| follows(from, to)).collect())
        .collect();
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for start in 0..sets.len() {
        walk(&next, bounds.ranges, &mut vec![start], &mut rows);
    }
    let longest = rows.iter().map(Vec::len).max().unwrap_or_default();
    rows.retain(|row| row.len() == longest);
    let ratio_of = |row: &[usize], at: usize| &ratios[row[at]];
    let variation = |row: &[usize]| {
        let steps: Vec<Rational> = (1..row.len())
            .map(|at| ratio_of(row, at - 1) / ratio_of(row, at))
            .collect();
        let changes = steps.windows(2).map(|pair| {
            let change = &pair[0] / &pair[1];
            let other = change.recip();
            change.max(other)
        });
        changes.fold(one(), |product, change| product * change)
    };
    let spread = |row: &[usize]| ratio_of(row, 0) / ratio_of(row, row.len() - 1);
    rows.sort_by_cached_key(|row| (variation(row), Reverse(spread(row)), row.clone()));
    let mut best: Vec<Vec<usize>> = Vec::new();
    for row in rows {
        let alike =
            |other: &Vec<usize>| (0..row.len()).all(|at| ratios[other[at]] == ratios[row[at]]);
        if !best.iter().any(alike) {
            best.push(row);
        }
    }
    best.truncate(MOST_CHAINS);
    best
}

/// All rows of at least two nodes that begin with one.
fn walk(next: &[Vec<usize>], most: usize, row: &mut Vec<usize>, rows: &mut Vec<Vec<usize>>) {
    if row.len() > 1 {
        rows.push(row.clone());
    }
    if row.len() == most {
        return;
    }
    let Some(&last) = row.last() else { return };
    for &to in &next[last] {
        row.push(to);
        walk(next, most, row, rows);
        row.pop();
    }
}
