//! What sentences claim is true of the train, for trains drawn at random.

use levertrain_core::words::{Missing, Spare, Words};
use levertrain_core::{Body, Combination, Duty, ElementSet, State, Train};
use levertrain_tests::generate::{ANY, Kind, case, settings};
use proptest::prelude::*;

use crate::settle::{Overrunning, Role, overrunning};

const SMALL: Kind = Kind {
    couplings: 2,
    elements: 7,
    teeth: 30,
    ..ANY
};

/// The elements that are neither applied nor one-way clutches.
fn open(train: &Train, applied: ElementSet) -> ElementSet {
    let all: ElementSet = (0..train.scenario().elements.len()).collect();
    all.minus(train.one_ways()).minus(applied)
}

/// The fewest of the open elements that make a train drive, by trying all sets of them: how many,
/// and each that does alone.
fn fewest(train: &Train, applied: ElementSet) -> (Option<usize>, ElementSet) {
    let open = open(train, applied);
    let mut fewest = None;
    let mut alone = ElementSet::NONE;
    for bits in 1..1_u32 << train.scenario().elements.len() {
        let more = ElementSet::from_bits(bits);
        if !more.minus(open).is_empty() {
            continue;
        }
        let settled = train.settle(applied.union(more), Duty::Drive);
        if settled.combination.state().ratio().is_none() {
            continue;
        }
        fewest = Some(fewest.map_or(more.len(), |least: usize| least.min(more.len())));
        if more.len() == 1 {
            alone = alone.union(more);
        }
    }
    (fewest, alone)
}

fn check_missing(combination: &Combination<'_>) -> Result<(), TestCaseError> {
    if *combination.state() != State::Neutral {
        return Ok(());
    }
    let train = combination.train();
    let applied = combination.applied().minus(train.one_ways());
    let expected = match fewest(train, applied) {
        (None, _) => Missing::Nothing,
        (Some(1), alone) => Missing::OneOf(alone),
        (Some(count), _) => Missing::Several(count),
    };
    prop_assert_eq!(Missing::of(combination), expected);
    let said = Words::of(combination).sentences.join(" ");
    prop_assert_eq!(
        said.contains("make it drive") && !said.contains("None") && !said.contains("There is no"),
        expected != Missing::Nothing,
        "{}",
        said
    );
    check_unconnected(combination, &said)
}

/// An input or output that is said to be connected to nothing moves no gear.
fn check_unconnected(combination: &Combination<'_>, said: &str) -> Result<(), TestCaseError> {
    let train = combination.train();
    for (end, shaft) in [("input", train.input()), ("output", train.output())] {
        if !said.contains(&format!("the {end} is connected to nothing")) {
            continue;
        }
        let mut joined = vec![Body::Shaft(shaft)];
        for _ in 0..combination.applied().len() {
            for element in combination.applied().iter() {
                let ends = train.ends(element);
                if joined.contains(&ends[0]) != joined.contains(&ends[1]) {
                    joined.extend(ends);
                }
            }
        }
        for coupling in 0..train.scenario().couplings.len() {
            let members = train.members(coupling);
            prop_assert!(
                !members.iter().any(|body| joined.contains(body)),
                "{}",
                said
            );
        }
    }
    Ok(())
}

/// Freedom and speeds for drive and for coast, the one-way clutches settled by trying.
fn motions(case: &Overrunning, train: &Train, applied: ElementSet) -> Vec<String> {
    let duties = [Duty::Drive, Duty::Coast].into_iter();
    duties
        .map(|duty| {
            let (closed, verdict) = case.settled_by_trying(train, applied, duty);
            let combination = train.solve(closed);
            let shafts = 0..train.scenario().shafts.len();
            let speeds: Vec<_> = shafts.map(|shaft| combination.shaft_speed(shaft)).collect();
            let freedom = combination.degrees_of_freedom();
            format!(
                "{:?} {freedom} {speeds:?}",
                std::mem::discriminant(&verdict)
            )
        })
        .collect()
}

fn check_spare(case: &Overrunning) -> Result<(), TestCaseError> {
    let train = case.train();
    let applied: ElementSet = case
        .picked(|role| matches!(role, Role::Applied))
        .into_iter()
        .collect();
    let settled = train.settle(applied, Duty::Drive);
    let spare = Spare::of(&settled.combination);
    let now = motions(case, &train, applied);
    let after = |element| motions(case, &train, applied.without(element));
    for element in applied.iter() {
        let after = after(element);
        let alike = [now[0] == after[0], now[1] == after[1]];
        prop_assert_eq!(
            spare.idle.contains(element),
            alike == [true, true],
            "idle {}",
            element
        );
        let mut only_for = spare.only_for.iter();
        let only_for = only_for.find(|only| only.element == element);
        prop_assert_eq!(
            only_for.is_some(),
            alike == [true, false],
            "coasting {}",
            element
        );
        if let Some(only) = only_for {
            let fewer = applied.without(element);
            let ends = train.brakes_engine(applied) && !train.brakes_engine(fewer);
            prop_assert_eq!(only.braking, ends);
            let (locked, _) = case.settled_by_trying(&train, fewer, Duty::Drive);
            let now = settled.combination.applied();
            prop_assert_eq!(only.instead, locked.minus(now));
        }
    }
    for (element, lets_go) in &spare.keeps_locked {
        let (locked, _) = case.settled_by_trying(&train, applied.without(*element), Duty::Drive);
        prop_assert!(!lets_go.is_empty());
        for one_way in lets_go.iter() {
            prop_assert!(settled.combination.applied().contains(one_way));
            prop_assert!(!locked.contains(one_way));
        }
    }
    check_missing(&settled.combination)
}

proptest! {
    #![proptest_config(settings(400))]

    #[test]
    fn what_is_missing_is_what_trying_all_finds(case in case(ANY)) {
        let train = case.sketch.train();
        check_missing(&train.solve(case.applied()))?;
    }
}

proptest! {
    #![proptest_config(settings(3000))]

    #[test]
    fn a_release_said_to_change_nothing_changes_nothing(case in overrunning(SMALL)) {
        check_spare(&case)?;
    }
}

/// The cases above are not all of one kind.
#[test]
fn every_kind_of_spare_element_is_met() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{TestRng, TestRunner};
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(settings(1), rng);
    let mut met = [0; 4];
    for _ in 0..4000 {
        let Ok(tree) = overrunning(SMALL).new_tree(&mut runner) else {
            panic!("no case")
        };
        let case = tree.current();
        let applied = case.picked(|role| matches!(role, Role::Applied));
        let train = case.train();
        let settled = train.settle(applied.into_iter().collect(), Duty::Drive);
        let spare = Spare::of(&settled.combination);
        let braking = |braking| spare.only_for.iter().any(|only| only.braking == braking);
        let kinds = [!spare.idle.is_empty(), braking(true), braking(false)];
        for (count, kind) in met.iter_mut().zip(kinds) {
            *count += usize::from(kind);
        }
        met[3] += usize::from(!spare.keeps_locked.is_empty());
    }
    assert!(met.iter().all(|&count| count > 0), "{met:?}");
}
