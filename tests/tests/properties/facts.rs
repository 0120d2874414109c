//! Every claim of the facts that sentences are written from, against speeds, torques and equations:
//! for all combinations of all scenarios, and for trains drawn at random.

use std::cmp::Ordering;

use anyhow::Result;
use levertrain_core::scenario::Element;
use levertrain_core::words::{
    Alike, AsOne, Does, Fact, Hold, Motion, Pace, Place, SetWork, TieUp, Words,
};
use levertrain_core::{Body, Combination, Duty, ElementSet, Fraction, State, Torques, Train};
use levertrain_tests::files;
use levertrain_tests::generate::{ANY, Case, Kind, case, settings};
use levertrain_tests::laws::Laws;
use levertrain_tests::sketch;
use proptest::prelude::*;

type Checked = std::result::Result<(), TestCaseError>;

/// Whether applied elements make one piece of two bodies.
fn connected(train: &Train, applied: ElementSet, one: Body, other: Body) -> bool {
    let mut reached = vec![one];
    for _ in 0..=applied.len() {
        for [first, second] in applied.iter().map(|element| train.ends(element)) {
            if reached.contains(&first) != reached.contains(&second) {
                reached.extend([first, second]);
            }
        }
    }
    reached.contains(&other)
}

/// They do, and would not without any one of `elements`.
fn check_needed(
    combination: &Combination<'_>,
    [one, other]: [Body; 2],
    elements: ElementSet,
) -> Checked {
    let (train, applied) = (combination.train(), combination.applied());
    prop_assert!(!elements.is_empty() && elements.minus(applied).is_empty());
    prop_assert!(connected(train, applied, one, other));
    for element in elements.iter() {
        prop_assert!(!connected(train, applied.without(element), one, other));
    }
    Ok(())
}

fn check_applied(combination: &Combination<'_>, all: &[(usize, Does)]) -> Checked {
    let train = combination.train();
    let named: Vec<usize> = all.iter().map(|&(element, _)| element).collect();
    let applied: Vec<usize> = combination.applied().iter().collect();
    prop_assert_eq!(named, applied);
    for &(element, does) in all {
        let ends = train.ends(element);
        let input = Body::Shaft(train.input());
        let agrees = match (&train.scenario().elements[element], does) {
            (Element::Brake(_), Does::Holds(body)) => ends == [body, Body::Housing],
            (Element::OneWay(_), Does::Locks(first, second)) => ends == [first, second],
            (Element::Clutch(_), Does::Drives(body)) => {
                ends == [input, body] || ends == [body, input]
            }
            (Element::Clutch(_), Does::Joins(first, second)) => {
                ends == [first, second] && !ends.contains(&input)
            }
            _ => false,
        };
        prop_assert!(agrees, "{:?}", does);
    }
    Ok(())
}

fn check_as_one(combination: &Combination<'_>, as_one: &AsOne) -> Checked {
    let train = combination.train();
    let bodies = as_one.couplings.iter().flat_map(|&at| train.members(at));
    let mut speeds: Vec<_> = bodies.map(|&body| combination.body_speed(body)).collect();
    speeds.dedup();
    prop_assert_eq!(speeds.len(), 1, "they turn alike");
    prop_assert!(speeds[0].as_ref().is_some_and(|speed| speed.signum() != 0));
    let shafts = 0..train.scenario().shafts.len();
    let whole = shafts.map(|shaft| combination.shaft_speed(shaft));
    prop_assert_eq!(
        as_one.whole,
        whole.into_iter().all(|speed| speed == speeds[0])
    );
    let Some(Alike { members, elements }) = as_one.alike else {
        return Ok(());
    };
    prop_assert!(members.iter().all(|(at, _)| as_one.couplings.contains(at)));
    let bodies = members.map(|(at, member)| train.members(at)[member]);
    prop_assert!(bodies[0] != bodies[1]);
    check_needed(combination, bodies, elements)
}

/// The two members that are made to turn alike leave the sets no other motion, and without the
/// elements that make them they have one.
fn check_alike(case: &Case, train: &Train, as_one: &AsOne) -> Checked {
    let Some(Alike { elements, .. }) = as_one.alike else {
        return Ok(());
    };
    let laws = Laws::of(&case.sketch);
    let is_among = |coupling: &sketch::Coupling| {
        let mut ids = as_one
            .couplings
            .iter()
            .map(|&at| &case.sketch.couplings[at].id);
        ids.any(|id| *id == coupling.id)
    };
    let name = |body: &Body| match *body {
        Body::Housing => sketch::HOUSING.to_owned(),
        Body::Shaft(shaft) => train.scenario().shafts[shaft].id.clone(),
    };
    let bodies = as_one.couplings.iter().flat_map(|&at| train.members(at));
    let bodies: Vec<String> = bodies.map(name).collect();
    let alike = |open: ElementSet| {
        let held = laws.hold(is_among, |element| {
            let index = train.element(&element.id);
            case.is_applied(element) && index.is_some_and(|index| !open.contains(index))
        });
        bodies.windows(2).all(|pair| {
            let ends = [pair[0].clone(), pair[1].clone()];
            let id = String::new();
            held.implies(laws.slip(&sketch::Element { id, ends }))
        })
    };
    prop_assert!(alike(ElementSet::NONE));
    prop_assert!(!alike(elements));
    Ok(())
}

fn check_work(combination: &Combination<'_>, torques: &Torques, work: &SetWork) -> Checked {
    let bodies = combination.train().members(work.coupling);
    let speed = |member: usize| combination.body_speed(bodies[member]);
    for (member, &body) in bodies.iter().enumerate() {
        let torque = torques.member(work.coupling, member);
        prop_assert!(torque.is_some());
        let torque = torque.map_or(0, Fraction::signum);
        let turning = speed(member).map_or(0, |speed| speed.signum());
        prop_assert_eq!(work.driving.contains(&member), torque * turning > 0);
        prop_assert_eq!(work.driven.contains(&member), torque * turning < 0);
        let reaction = work.reaction.filter(|reaction| reaction.member == member);
        prop_assert_eq!(reaction.is_some(), torque != 0 && turning == 0);
        match reaction.map(|reaction| reaction.hold) {
            None => {}
            Some(Hold::Fixed) => prop_assert_eq!(body, Body::Housing),
            Some(Hold::Elements(elements)) => {
                check_needed(combination, [body, Body::Housing], elements)?;
            }
            Some(Hold::Sets) => prop_assert!(body != Body::Housing),
        }
    }
    let known = |member: usize| {
        speed(member).ok_or_else(|| TestCaseError::fail("a member with power has no speed"))
    };
    let driving = work.driving.iter().map(|&member| known(member));
    let driving = driving.collect::<std::result::Result<Vec<_>, _>>()?;
    let driven = work.driven.iter().map(|&member| known(member));
    let driven = driven.collect::<std::result::Result<Vec<_>, _>>()?;
    check_motion(combination, work, &driving, &driven)
}

fn check_motion(
    combination: &Combination<'_>,
    work: &SetWork,
    driving: &[Fraction],
    driven: &[Fraction],
) -> Checked {
    let bodies = combination.train().members(work.coupling);
    match work.motion {
        Motion::Turns(pace, same_way) => {
            prop_assert_eq!([driving.len(), driven.len()], [1, 1]);
            prop_assert_eq!(pace, pace_of(&driven[0], &driving[0]));
            prop_assert_eq!(same_way, driving[0].signum() == driven[0].signum());
        }
        Motion::Adds(place) => {
            prop_assert!(driving.len() > 1 && driven.len() == 1);
            let one = &driven[0];
            let along: Vec<bool> = driving.iter().map(|v| v.signum() == one.signum()).collect();
            let all = |pace: Pace| driving.iter().all(|v| pace_of(one, v) == pace);
            let every = along.iter().all(|&along| along);
            let between = driving.iter().any(|v| v < one) && driving.iter().any(|v| v > one);
            match place {
                Place::Between => prop_assert!(between),
                Place::Overruns => prop_assert!(every && all(Pace::Faster)),
                Place::Slower => prop_assert!(every && all(Pace::Slower)),
                Place::Against => prop_assert!(along.iter().all(|&along| !along)),
                Place::Beyond(member) => {
                    prop_assert!(work.driving.contains(&member));
                    let speed = combination
                        .body_speed(bodies[member])
                        .unwrap_or(Fraction::ZERO);
                    prop_assert_eq!(speed.signum(), one.signum());
                    prop_assert_eq!(pace_of(one, &speed), Pace::Faster);
                }
            }
        }
        Motion::Divides => prop_assert!(!driving.is_empty() && driven.len() > 1),
    }
    Ok(())
}

fn pace_of(speed: &Fraction, other: &Fraction) -> Pace {
    match speed.abs().cmp(&other.abs()) {
        Ordering::Less => Pace::Slower,
        Ordering::Equal => Pace::Alike,
        Ordering::Greater => Pace::Faster,
    }
}

fn check_tie_up(combination: &Combination<'_>, tie_up: &TieUp) -> Checked {
    let train = combination.train();
    let released = |element| train.solve(combination.applied().without(element));
    for element in tie_up.fight.elements.iter() {
        let frees = *released(element).state() != State::TiedUp;
        prop_assert_eq!(tie_up.freeing.contains(element), frees);
    }
    if let Some(would) = &tie_up.would {
        prop_assert!(tie_up.freeing.contains(would.element));
        prop_assert!(would.slip.signum() != 0);
        let slip = released(would.element).slip(would.element);
        prop_assert_eq!(slip.as_ref(), Some(&would.slip));
    }
    Ok(())
}

/// Checks all facts of a combination; returns the sets that turn as one.
fn check_facts(combination: &Combination<'_>) -> std::result::Result<Vec<AsOne>, TestCaseError> {
    let train = combination.train();
    let torques = Torques::of(combination);
    let ratio = combination.state().ratio();
    let mut told: Vec<usize> = Vec::new();
    let mut as_ones = Vec::new();
    let mut joined = false;
    for fact in Fact::all(combination) {
        match &fact {
            Fact::Applied(all) => check_applied(combination, all)?,
            Fact::Joined => {
                let [input, output] = [train.input(), train.output()].map(Body::Shaft);
                prop_assert!(connected(train, combination.applied(), input, output));
                joined = true;
            }
            Fact::AsOne(as_one) => {
                check_as_one(combination, as_one)?;
                told.extend(&as_one.couplings);
                as_ones.push(as_one.clone());
            }
            Fact::Works(work) => {
                prop_assert!(torques.is_some());
                if let Some(torques) = &torques {
                    check_work(combination, torques, work)?;
                }
                told.push(work.coupling);
            }
            Fact::Strut(at) => {
                for (member, &body) in train.members(*at).iter().enumerate() {
                    let torque = torques.as_ref().and_then(|all| all.member(*at, member));
                    let rests = combination.body_speed(body) == Some(Fraction::ZERO);
                    prop_assert!(rests || torque == Some(&Fraction::ZERO));
                }
                told.push(*at);
            }
            Fact::Delivers(pace, same_way) => {
                let speed = combination
                    .shaft_speed(train.output())
                    .unwrap_or(Fraction::ZERO);
                prop_assert_eq!(*pace, pace_of(&speed, &Fraction::ONE));
                prop_assert_eq!(*same_way, speed.signum() > 0);
            }
            Fact::TiedUp(tie_up) => check_tie_up(combination, tie_up)?,
            Fact::Free(shafts) => {
                for &shaft in shafts {
                    prop_assert_eq!(combination.shaft_speed(shaft), None);
                }
            }
            // These have tests of their own.
            Fact::Spare(_) | Fact::Neutral(_) | Fact::OutputHeld(_) => {}
        }
    }
    if let (Some(_), Some(torques), false) = (ratio, &torques, joined) {
        // Each set that is known to carry torque is told of once, and no other.
        for at in 0..train.scenario().couplings.len() {
            let members = 0..train.members(at).len();
            let carried: Vec<_> = members.map(|member| torques.member(at, member)).collect();
            let known = carried.iter().all(Option::is_some);
            let idle = carried
                .iter()
                .all(|torque| torque.is_some_and(Fraction::is_zero));
            let times = told.iter().filter(|&&other| other == at).count();
            prop_assert!(times <= 1 && !(idle && times > 0));
            prop_assert!(
                times == 1 || idle || !known,
                "coupling {} is not told of",
                at
            );
        }
    }
    Ok(as_ones)
}

#[test]
fn the_facts_of_every_combination_of_every_scenario_are_true() -> Result<()> {
    for file in files::scenarios()? {
        let train = Train::parse(&file.text).map_err(|faults| anyhow::anyhow!("{faults:?}"))?;
        let one_ways = train.one_ways();
        for bits in 0..1_u32 << train.scenario().elements.len() {
            let applied = ElementSet::from_bits(bits).minus(one_ways);
            let settled = train.settle(applied, Duty::Drive).combination;
            let name = format!("{}, {applied:?}", file.stem);
            check_facts(&settled).map_err(|error| anyhow::anyhow!("{name}: {error}"))?;
            for sentence in Words::of(&settled).sentences {
                let first = sentence.chars().next().unwrap_or_default();
                let whole = first.is_uppercase() && sentence.ends_with('.');
                anyhow::ensure!(whole, "{name}: {sentence}");
                let wrong = sentence.contains(['{', '}', '$']) || sentence.contains("  ");
                anyhow::ensure!(!wrong, "{name}: {sentence}");
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(3000))]

    #[test]
    fn the_facts_of_any_train_are_true(case in case(ANY)) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        for as_one in check_facts(&combination)? {
            check_alike(&case, &train, &as_one)?;
        }
    }

    /// Few teeth make members turn alike by chance.
    #[test]
    fn the_facts_of_trains_with_few_teeth_are_true(
        case in case(Kind { couplings: 3, elements: 5, teeth: 14, ..ANY })
    ) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        for as_one in check_facts(&combination)? {
            check_alike(&case, &train, &as_one)?;
        }
    }
}

/// The cases above are not all of one kind.
#[test]
fn every_kind_of_fact_is_met() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{TestRng, TestRunner};
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(settings(1), rng);
    let mut met = std::collections::BTreeMap::new();
    for _ in 0..6000 {
        let Ok(tree) = case(ANY).new_tree(&mut runner) else {
            panic!("no case")
        };
        let case = tree.current();
        let train = case.sketch.train();
        for fact in Fact::all(&train.solve(case.applied())) {
            let kind = match &fact {
                Fact::AsOne(AsOne { alike, whole, .. }) => format!("{} {whole}", alike.is_some()),
                Fact::Works(SetWork {
                    motion, reaction, ..
                }) => {
                    let hold = reaction.map(|reaction| std::mem::discriminant(&reaction.hold));
                    let motion = match motion {
                        Motion::Adds(Place::Beyond(_)) => "beyond".to_owned(),
                        motion => format!("{motion:?}"),
                    };
                    *met.entry(format!("{hold:?}")).or_insert(0) += 1;
                    motion
                }
                Fact::TiedUp(tie_up) => format!("would {}", tie_up.would.is_some()),
                fact => format!("{:?}", std::mem::discriminant(fact)),
            };
            *met.entry(kind).or_insert(0) += 1;
        }
    }
    assert!(met.len() >= 28, "{} kinds: {met:#?}", met.len());
}
