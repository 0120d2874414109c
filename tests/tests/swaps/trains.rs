//! Nodes, swaps and shifts of our scenarios and of random trains, by set differences.

use std::collections::BTreeSet;

use levertrain_core::swaps::{Graph, Kind, Search, Shift, Swap};
use levertrain_core::{ElementSet, Train};
use levertrain_tests::generate::{ANY, settings, sketch};
use levertrain_tests::rational::{rational, zero};
use proptest::prelude::*;

use crate::model::{change, is_single, names, nodes, trains};

/// Checks the graph of a train, and returns how many of its swaps are single.
fn check(train: &Train) -> Result<usize, TestCaseError> {
    let graph = Graph::of_train(train);
    let expected: BTreeSet<_> = nodes(train)
        .into_iter()
        .map(|(set, ratio)| (set, ratio.to_string()))
        .collect();
    let found = graph
        .nodes()
        .iter()
        .map(|node| (node.applied, node.ratio.to_string()));
    let found: Vec<_> = found.collect();
    prop_assert_eq!(found.len(), expected.len());
    prop_assert_eq!(found.into_iter().collect::<BTreeSet<_>>(), expected);
    in_order(&graph)?;
    let sets: Vec<BTreeSet<String>> = graph
        .nodes()
        .iter()
        .map(|node| names(train, node.applied))
        .collect();
    let mut singles = 0;
    for (from, node) in graph.nodes().iter().enumerate() {
        prop_assert_eq!(graph.node_of(node.applied), Some(from));
        let by_names: Vec<usize> = (0..sets.len())
            .filter(|&to| is_single(change(&sets[from], &sets[to])))
            .collect();
        let found = graph.singles(from);
        prop_assert_eq!(&found, &by_names);
        for to in found {
            let swap = graph.swap(from, to);
            let counts = (swap.released.len(), swap.applied.len());
            prop_assert_eq!(
                swap.kind(),
                if counts == (1, 1) {
                    Kind::Single
                } else {
                    Kind::Alone
                }
            );
            prop_assert_eq!(graph.swap(to, from), swap.back());
            if train.one_ways().is_empty() && swap.kind() == Kind::Alone {
                prop_assert_eq!(&node.ratio, &graph.nodes()[to].ratio);
            }
            singles += 1;
        }
    }
    Ok(singles)
}

fn in_order(graph: &Graph) -> Result<(), TestCaseError> {
    for pair in graph.nodes().windows(2) {
        let [one, other] = [&pair[0], &pair[1]].map(|node| rational(&node.ratio));
        let zero = zero();
        let fits = match (one > zero, other > zero) {
            (true, true) => one >= other,
            (true, false) => true,
            (false, true) => false,
            (false, false) => one <= other,
        };
        prop_assert!(fits, "{} before {}", one, other);
    }
    let forward = graph
        .nodes()
        .iter()
        .filter(|node| node.is_forward())
        .count();
    prop_assert_eq!(graph.forward(), forward);
    Ok(())
}

#[test]
fn our_scenarios_have_these_nodes_and_swaps() -> anyhow::Result<()> {
    let mut singles = 0;
    for (stem, train) in trains() {
        singles += check(&train).map_err(|error| anyhow::anyhow!("{stem}: {error}"))?;
    }
    anyhow::ensure!(singles > 100, "{singles}");
    Ok(())
}

/// What each range applies is read from the file, and nothing else.
#[test]
fn shifts_between_named_ranges_are_set_differences() {
    let mut kinds = BTreeSet::new();
    for (stem, train) in trains() {
        let ranges = &train.scenario().ranges;
        let shifts = Shift::all(&Graph::of_train(&train));
        let drives = |range: &usize| {
            train
                .settle(train.range(*range), levertrain_core::Duty::Drive)
                .combination
                .state()
                .ratio()
                .is_some()
        };
        let driving: Vec<usize> = (0..ranges.len()).filter(drives).collect();
        assert_eq!(shifts.len(), driving.len() * (driving.len() - 1), "{stem}");
        for shift in shifts {
            let of = |range: usize| {
                ranges[range]
                    .applied
                    .iter()
                    .cloned()
                    .collect::<BTreeSet<String>>()
            };
            let (from, to) = (of(shift.from), of(shift.to));
            let gone: BTreeSet<String> = from.difference(&to).cloned().collect();
            let come: BTreeSet<String> = to.difference(&from).cloned().collect();
            assert_eq!(names(&train, shift.swap.released), gone, "{stem}");
            assert_eq!(names(&train, shift.swap.applied), come, "{stem}");
            let expected = match (gone.len(), come.len()) {
                (0, 0) => Kind::Same,
                (1, 0) | (0, 1) => Kind::Alone,
                (1, 1) => Kind::Single,
                (gone, come) if gone <= 2 && come <= 2 => Kind::Double,
                _ => Kind::More,
            };
            assert_eq!(shift.swap.kind(), expected, "{stem}");
            kinds.insert(expected);
        }
    }
    let all: BTreeSet<Kind> = Kind::ALL.into_iter().collect();
    let unseen: Vec<&Kind> = all.difference(&kinds).collect();
    assert_eq!(unseen, [&Kind::Same], "no two of our ranges apply the same");
}

proptest! {
    #![proptest_config(settings(400))]

    #[test]
    fn random_trains_have_these_nodes_and_swaps(sketch in sketch(ANY)) {
        check(&sketch.train())?;
    }

    #[test]
    fn a_search_in_pieces_finds_the_same(sketch in sketch(ANY), piece in 1..9_usize) {
        let train = sketch.train();
        let mut search = Search::new(&train);
        let mut steps = 0;
        while search.advance(piece) {
            steps += 1;
            let (done, all) = search.progress();
            prop_assert!(done < all && done == steps * piece);
        }
        let (done, all) = search.progress();
        prop_assert_eq!(done, all);
        let (found, at_once) = (search.graph(), Graph::of_train(&train));
        prop_assert_eq!(found.nodes(), at_once.nodes());
    }

    #[test]
    fn a_swap_leads_there_and_back(from in 0..1_u32 << 16, to in 0..1_u32 << 16) {
        let [from, to] = [from, to].map(ElementSet::from_bits);
        let swap = Swap::between(from, to);
        prop_assert_eq!(from.minus(swap.released).union(swap.applied), to);
        prop_assert_eq!(Swap::between(to, from), swap.back());
        prop_assert!(swap.released.minus(from).is_empty());
    }
}
