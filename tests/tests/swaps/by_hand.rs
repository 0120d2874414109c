//! Shifts of our scenarios counted by hand, from the elements that the ranges apply.

use levertrain_core::Train;
use levertrain_core::swaps::{Bounds, Chains, Graph, Kind, Shift};

use crate::model::trains;

fn train(stem: &str) -> Train {
    let mut all = trains().into_iter();
    let found = all.find(|(name, _)| name.starts_with(stem));
    found.unwrap_or_else(|| panic!("there is no {stem}")).1
}

/// The kind of each shift between the first ranges, as one letter: `1` single, `2` double, `m` more, `a` alone, `.` none.
fn kinds(train: &Train, ranges: usize) -> Vec<String> {
    let shifts = Shift::all(&Graph::of_train(train));
    let letter = |from: usize, to: usize| {
        let mut own = shifts
            .iter()
            .filter(|shift| (shift.from, shift.to) == (from, to));
        match own.next().map(|shift| shift.swap.kind()) {
            Some(Kind::Same) => '=',
            Some(Kind::Alone) => 'a',
            Some(Kind::Single) => '1',
            Some(Kind::Double) => '2',
            Some(Kind::More) => 'm',
            None => '.',
        }
    };
    (0..ranges)
        .map(|from| (0..ranges).map(|to| letter(from, to)).collect())
        .collect()
}

/// 1st V X J, 2nd V W J, 3rd V J K, 4th V H J, 5th H J K, 6th V H K, 7th X H K, 8th V X H, Reverse W J K [D].
#[test]
fn an_eight_speed_skips_ranges_by_single_swaps() {
    let rows = [
        ".11122212",
        "1.1122m21",
        "11.111221",
        "111.11212",
        "2211.1121",
        "22111.112",
        "2m2211.12",
        "1221211.m",
        "2112122m.",
    ];
    assert_eq!(kinds(&train("05"), 9), rows);
}

/// With a one-way clutch the second range is had by applying W alone, and V beside it changes no ratio [D].
#[test]
fn a_one_way_clutch_leaves_nothing_to_release() {
    let train = train("07");
    let graph = Graph::of_train(&train);
    let shifts = Shift::all(&graph);
    let of = |from: usize, to: usize| {
        let mut own = shifts
            .iter()
            .filter(|shift| (shift.from, shift.to) == (from, to));
        own.next()
            .unwrap_or_else(|| panic!("no shift {from} to {to}"))
    };
    let first_to_second = of(0, 2);
    assert_eq!(first_to_second.swap.kind(), Kind::Alone);
    assert!(first_to_second.swap.released.is_empty());
    assert!(first_to_second.is_next);
    assert_eq!(of(0, 1).swap.kind(), Kind::Alone);
    assert_eq!(
        of(0, 1).step.as_ref().map(ToString::to_string).as_deref(),
        Some("1")
    );
    assert_eq!(of(1, 2).swap.kind(), Kind::Single);
    assert!(!of(0, 3).is_next, "it skips 2nd");
    assert_eq!(of(0, 4).step, None, "the output turns round");
}

/// W J, W K, V J, H J, V K, H K: from 2nd to 3rd and from 4th to 5th two go and two come [D].
#[test]
fn a_six_speed_has_double_swaps_between_neighbours() {
    let kinds = kinds(&train("04"), 6);
    let neighbours: String = (1..6)
        .filter_map(|to| kinds[to - 1].chars().nth(to))
        .collect();
    assert_eq!(neighbours, "12121");
}

/// The named forward ranges of these are one row of single swaps, so that the best has no fewer.
#[test]
fn named_ranges_bound_what_is_best() {
    for (stem, ranges) in [("05", 8), ("09", 6)] {
        let graph = Graph::of_train(&train(stem));
        let found = Chains::best(&graph, &Bounds::default());
        assert!(found.is_complete);
        let best = found.chains.first().map_or(0, |chain| chain.nodes.len());
        assert!(best >= ranges, "{stem}: {best} of {ranges}");
    }
}
