//! Random trains, and random tooth counts of theirs: none beats the finds.

use levertrain_core::Train;
use levertrain_core::search::{Ask, Criterion};
use levertrain_tests::generate::{Kind, settings, sketch};
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRunner};

use crate::brute::{counts, every_cut};
use crate::everything::{ask, counted, finds};

const SMALL: Kind = Kind {
    couplings: 3,
    elements: 5,
    housing: true,
    teeth: 60,
};

/// How many candidates are asked about, all trains together.
const CANDIDATES: usize = 10_000;
/// And of one train at most.
const OF_ONE: usize = 400;

#[test]
fn no_random_candidate_beats_a_find() {
    let config = Config {
        max_global_rejects: 1_000_000,
        ..settings(1)
    };
    let mut runner = TestRunner::new(config);
    let picks = prop::collection::vec(prop::collection::vec(any::<Index>(), 3), OF_ONE);
    let (mut tried, mut trains) = (0, 0);
    while tried < CANDIDATES {
        let Ok(tree) = (sketch(SMALL), &picks).new_tree(&mut runner) else {
            panic!("no train was drawn")
        };
        let (mut drawn, picks) = tree.current();
        // Every combination of two elements, or one, is a range.
        let ids: Vec<String> = drawn
            .elements
            .iter()
            .map(|element| element.id.clone())
            .collect();
        for (at, one) in ids.iter().enumerate() {
            drawn.ranges.push((format!("r{at}"), vec![one.clone()]));
        }
        let of_one = tries(&drawn.train(), &picks);
        tried += of_one;
        trains += usize::from(of_one > 0);
    }
    assert!(trains >= 20, "{trains} trains only");
}

/// How many of the picked candidates were as asked for; none of them beats what is found.
fn tries(train: &Train, picks: &[Vec<Index>]) -> usize {
    let asked = Ask {
        best: vec![Criterion::Error, Criterion::Size, Criterion::Steps],
        ..ask(train, 0.3, [18, 46], [12, 14])
    };
    if asked.wanted.is_empty() {
        return 0;
    }
    let Ok(search) = levertrain_core::search::Search::new(train, &asked) else {
        return 0;
    };
    let sets = search.sets().to_vec();
    let found = counted(&finds(train, &asked), &asked);
    let couplings = &train.scenario().couplings;
    let cuts: Vec<_> = sets
        .iter()
        .map(|&set| every_cut(&couplings[set], &asked))
        .collect();
    let mut tried = 0;
    for pick in picks {
        let mut scenario = train.scenario().clone();
        for ((&set, cuts), index) in sets.iter().zip(&cuts).zip(pick) {
            scenario.couplings[set] = cuts[index.index(cuts.len())].clone();
        }
        // The size that counts is that of the sets that are looked for.
        let mut only = scenario.clone();
        only.couplings = sets
            .iter()
            .map(|&set| scenario.couplings[set].clone())
            .collect();
        let Some(mut own) = counts(&scenario, &asked) else {
            continue;
        };
        own[1] = own[1].min(crate::brute::size(&only));
        tried += 1;
        let beats = |counts: &Vec<f64>| {
            own != *counts && own.iter().zip(counts).all(|(own, found)| own <= found)
        };
        assert!(
            !found.iter().any(beats),
            "{own:?} beats a find of {:?}",
            asked.wanted
        );
        let beaten = |counts: &Vec<f64>| {
            let mut pairs = counts.iter().zip(&own);
            pairs.all(|(found, own)| *found <= own + own.abs() * 1e-12)
        };
        assert!(
            found.iter().any(beaten),
            "{own:?} is no worse than all finds"
        );
    }
    tried
}
