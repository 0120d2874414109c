//! Every claim of a walk, derived again from speeds, torques and equations: for all ranges
//! and all combinations of all scenarios, and for trains drawn at random.

use std::collections::BTreeSet;

use anyhow::Result;
use levertrain_core::lesson::{Claim, Part, SetStage, Stage, Walk, WalkReport, What};
use levertrain_core::{Body, Combination, Duty, Fraction, PowerFlow, State, Torques, Train};
use levertrain_tests::files;
use levertrain_tests::generate::{ANY, Case, Kind, case, settings};
use levertrain_tests::laws::Laws;
use proptest::prelude::*;

pub(crate) type Checked = std::result::Result<(), TestCaseError>;

/// Most elements of a scenario all of whose combinations are walked through.
const FEW: usize = 7;

/// The couplings some member of which carries torque, or might.
fn working(combination: &Combination<'_>, torques: Option<&Torques>) -> BTreeSet<usize> {
    let train = combination.train();
    let carries = |&at: &usize| {
        let mut members = 0..train.members(at).len();
        members.any(|member| {
            let torque = torques.and_then(|torques| torques.member(at, member));
            torque.is_none_or(|torque| !torque.is_zero())
        })
    };
    (0..train.scenario().couplings.len())
        .filter(carries)
        .collect()
}

fn check_walk<'a>(combination: &Combination<'a>) -> std::result::Result<Walk<'a>, TestCaseError> {
    let train = combination.train();
    let walk = Walk::of(combination);
    prop_assert!(!walk.steps.is_empty());
    let mut known = BTreeSet::from([train.input()]);
    for step in &walk.steps {
        let after: BTreeSet<usize> = step.known.iter().copied().collect();
        prop_assert!(known.is_subset(&after), "nothing is forgotten");
        known = after;
        let bodies = step
            .members
            .iter()
            .map(|&(set, member)| train.members(set)[member]);
        for body in bodies {
            if let Body::Shaft(shaft) = body {
                prop_assert!(step.shafts.contains(&shaft));
            }
        }
    }
    let applied = walk.steps.iter().filter_map(|step| match step.claim {
        Claim::Applied(element, _) => Some(element),
        _ => None,
    });
    let all: Vec<usize> = combination.applied().iter().collect();
    prop_assert_eq!(applied.collect::<Vec<_>>(), all);
    let stages: Vec<&Stage> = walk
        .steps
        .iter()
        .filter_map(|step| match &step.claim {
            Claim::Stage(stage) => Some(stage),
            _ => None,
        })
        .collect();
    let drives = matches!(
        combination.state(),
        State::Driving(_) | State::OverApplied(_)
    );
    check_surroundings(train, &walk, drives)?;
    let last = walk.steps.iter().rev().map(|step| &step.claim);
    match combination.state() {
        State::Driving(ratio) | State::OverApplied(ratio) => {
            let decided = (0..train.scenario().shafts.len())
                .filter(|&shaft| combination.shaft_speed(shaft).is_some());
            prop_assert_eq!(
                known,
                decided.collect(),
                "at the end all is known that can be"
            );
            check_drive(combination, &walk, &stages, ratio)?;
        }
        State::Neutral => {
            prop_assert!(stages.is_empty());
            let mut last = last;
            prop_assert!(last.any(|claim| matches!(claim, Claim::Neutral(_))));
            check_kept(combination, &walk)?;
        }
        State::OutputHeld => {
            prop_assert!(matches!(last.clone().next(), Some(Claim::OutputHeld(_))));
        }
        State::TiedUp => prop_assert!(matches!(last.clone().next(), Some(Claim::TiedUp(_)))),
    }
    Ok(walk)
}

/// What the input always turns is told first, and that other sources and outputs are left out where there are some.
fn check_surroundings(train: &Train, walk: &Walk<'_>, drives: bool) -> Checked {
    let input = Body::Shaft(train.input());
    let members = (0..train.scenario().couplings.len()).flat_map(|set| {
        let bodies = train.members(set).iter().enumerate();
        bodies.filter_map(move |(member, body)| (*body == input).then_some((set, member)))
    });
    let members: Vec<_> = members.collect();
    let told: Vec<usize> = (0..walk.steps.len())
        .filter(|&at| walk.steps[at].claim == Claim::Input)
        .collect();
    let expected: &[usize] = if drives && !members.is_empty() {
        &[0]
    } else {
        &[]
    };
    prop_assert_eq!(&told[..], expected);
    if let [first] = told[..] {
        prop_assert_eq!(&walk.steps[first].members, &members);
    }
    let alone = walk.steps.iter().filter(|step| step.claim == Claim::Alone);
    let expected = usize::from(drives && train.scenario().is_branched());
    prop_assert_eq!(alone.count(), expected);
    Ok(())
}

fn check_drive(
    combination: &Combination<'_>,
    walk: &Walk<'_>,
    stages: &[&Stage],
    ratio: &Fraction,
) -> Checked {
    let torques = Torques::of(combination);
    let flow = torques
        .as_ref()
        .map(|torques| PowerFlow::of(combination, torques));
    let working = working(combination, torques.as_ref());
    let sets: Vec<&SetStage> = stages.iter().flat_map(|stage| &stage.sets).collect();
    let idle = walk.steps.iter().filter_map(|step| match &step.claim {
        Claim::Idle(sets) => Some(sets.clone()),
        _ => None,
    });
    let mut told: Vec<usize> = sets.iter().map(|set| set.coupling).collect();
    let worked: BTreeSet<usize> = told.iter().copied().collect();
    prop_assert!(working.is_subset(&worked), "every working set is told");
    told.extend(idle.flatten());
    let once: BTreeSet<usize> = told.iter().copied().collect();
    prop_assert_eq!(once.len(), told.len(), "none twice");
    prop_assert_eq!(once.len(), combination.train().scenario().couplings.len());
    for as_one in stages.iter().filter_map(|stage| stage.as_one.as_ref()) {
        let bodies = as_one
            .couplings
            .iter()
            .flat_map(|&at| combination.train().members(at));
        let speeds: BTreeSet<_> = bodies.map(|&body| combination.body_speed(body)).collect();
        prop_assert!(as_one.couplings.len() > 1 && speeds.len() == 1);
    }
    for set in &sets {
        prop_assert_eq!(
            matches!(set.what, What::Idle),
            !working.contains(&set.coupling)
        );
        check_set(combination, torques.as_ref(), flow.as_ref(), set)?;
    }
    let Some(Claim::Output(output)) = walk.steps.last().map(|step| &step.claim) else {
        return Err(TestCaseError::fail("the output comes last"));
    };
    prop_assert_eq!(&output.ratio, ratio);
    if !output.factors.is_empty() {
        let product = output
            .factors
            .iter()
            .fold(Fraction::ONE, |all, one| &all * one);
        prop_assert_eq!(&product, ratio);
        // One after the other: no set takes less or more than all of the power.
        for set in sets
            .iter()
            .filter(|set| !matches!(set.what, What::AsOne(_) | What::Strut | What::Idle))
        {
            prop_assert!(set.ratio.as_ref().is_some_and(|ratio| ratio.carries_all));
        }
    }
    let round = walk.steps.iter().find_map(|step| match &step.claim {
        Claim::GoesRound(times, members) => Some((times.clone(), members)),
        _ => None,
    });
    let most = flow.as_ref().and_then(PowerFlow::recirculating);
    prop_assert_eq!(round.as_ref().map(|(times, _)| times), most.as_ref());
    if let Some((times, members)) = round {
        prop_assert!(times > Fraction::ONE);
        for &(set, member) in members {
            let power = flow.as_ref().and_then(|flow| flow.member(set, member));
            prop_assert_eq!(power.map(Fraction::abs), Some(times.clone()));
        }
    }
    for &round in &output.turns_round {
        let set = sets.iter().find(|set| set.coupling == round);
        prop_assert!(set.is_some_and(|set| turns_round(combination, set)));
    }
    Ok(())
}

fn turns_round(combination: &Combination<'_>, set: &SetStage) -> bool {
    let bodies = combination.train().members(set.coupling);
    let ways = |part: Part| {
        let members = set
            .parts
            .iter()
            .zip(bodies)
            .filter(move |(own, _)| **own == part);
        members.filter_map(|(_, &body)| Some(combination.body_speed(body)?.signum()))
    };
    ways(Part::Drives).any(|from| ways(Part::Delivers).any(|to| from == -to))
}

fn check_set(
    combination: &Combination<'_>,
    torques: Option<&Torques>,
    flow: Option<&PowerFlow>,
    set: &SetStage,
) -> Checked {
    let bodies = combination.train().members(set.coupling);
    let speed = |member: usize| combination.body_speed(bodies[member]);
    let torque = |member: usize| torques.and_then(|torques| torques.member(set.coupling, member));
    let power = |member: usize| flow.and_then(|flow| flow.member(set.coupling, member));
    prop_assert_eq!(set.parts.len(), bodies.len());
    for member in 0..bodies.len() {
        let part = match (torque(member), speed(member)) {
            (Some(torque), _) if torque.is_zero() => Part::Idle,
            (Some(torque), Some(speed)) => match torque.signum() * speed.signum() {
                1 => Part::Drives,
                0 => Part::Held,
                _ => Part::Delivers,
            },
            _ => Part::Unknown,
        };
        prop_assert_eq!(set.parts[member], part);
    }
    let speeds: Vec<_> = (0..bodies.len()).map(speed).collect();
    let alike = speeds
        .iter()
        .all(|speed| speed.is_some() && *speed == speeds[0]);
    let turns = speeds[0].as_ref().is_some_and(|speed| !speed.is_zero());
    let loaded = set.parts.iter().any(|part| *part != Part::Idle);
    prop_assert_eq!(matches!(set.what, What::AsOne(_)), alike && turns && loaded);
    if let Some(ratio) = &set.ratio {
        let ends = [set.parts[ratio.from], set.parts[ratio.to]];
        prop_assert_eq!(ends, [Part::Drives, Part::Delivers]);
        let (from, to) = (speed(ratio.from), speed(ratio.to));
        let (from, to) = from
            .zip(to)
            .ok_or_else(|| TestCaseError::fail("no speed"))?;
        prop_assert_eq!(&(&ratio.ratio * &to), &from);
        let torques = torque(ratio.from).zip(torque(ratio.to));
        let (into, out) = torques.ok_or_else(|| TestCaseError::fail("no torque"))?;
        prop_assert_eq!(&ratio.ratio * into, -out, "torque grows as speed falls");
        prop_assert_eq!(ratio.carries_all, power(ratio.from) == Some(&Fraction::ONE));
    }
    for (shares, part) in [
        (&set.shares_in, Part::Drives),
        (&set.shares_out, Part::Delivers),
    ] {
        let members: Vec<usize> = (0..bodies.len())
            .filter(|&at| set.parts[at] == part)
            .collect();
        prop_assert_eq!(shares.is_empty(), members.len() < 2);
        if shares.is_empty() {
            continue;
        }
        let named: Vec<usize> = shares.iter().map(|(member, _)| *member).collect();
        prop_assert_eq!(named, members);
        let sum = shares
            .iter()
            .fold(Fraction::ZERO, |sum, (_, share)| &sum + share);
        prop_assert_eq!(sum, Fraction::ONE);
        let (first, share) = &shares[0];
        for (other, its) in &shares[1..] {
            let powers = power(*first).zip(power(*other));
            let (one, two) = powers.ok_or_else(|| TestCaseError::fail("no power"))?;
            prop_assert_eq!(one * its, two * share);
        }
    }
    if let Some(member) = set.reaction {
        let carry: Vec<Fraction> = (0..bodies.len())
            .filter_map(|at| Some(power(at)?.abs()))
            .filter(|power| !power.is_zero())
            .collect();
        prop_assert!(carry.len() > 2 && !set.parts.contains(&Part::Held));
        let own = power(member).map(Fraction::abs);
        prop_assert!(own.is_some_and(|own| carry.iter().all(|other| own <= *other)));
        prop_assert!(speed(member).is_some_and(|speed| !speed.is_zero()));
    }
    Ok(())
}

fn check_kept(combination: &Combination<'_>, walk: &Walk<'_>) -> Checked {
    let train = combination.train();
    for step in &walk.steps {
        let Claim::Kept(kept) = &step.claim else {
            continue;
        };
        let range = train.range(kept.range);
        let settled = train.settle(range, Duty::Drive);
        prop_assert!(settled.combination.state().ratio().is_some());
        prop_assert!(!kept.elements.is_empty());
        for element in 0..train.scenario().elements.len() {
            let here = combination.applied().contains(element);
            prop_assert_eq!(
                kept.elements.contains(element),
                here && range.contains(element)
            );
            prop_assert_eq!(
                kept.rest.contains(element),
                !here && range.contains(element)
            );
        }
    }
    Ok(())
}

/// Each stage is decided by what is told before it, and no smaller part of what is left is: derived from
/// the sketch, by elimination of equations.
fn check_order(case: &Case, train: &Train, walk: &Walk<'_>) -> Checked {
    let laws = Laws::of(&case.sketch);
    let mut told: Vec<usize> = Vec::new();
    let stages = walk.steps.iter().filter_map(|step| match &step.claim {
        Claim::Stage(stage) => Some(stage),
        _ => None,
    });
    let stages: Vec<&Stage> = stages.collect();
    let all: Vec<usize> = (0..case.sketch.couplings.len()).collect();
    let decided = |couplings: &[usize], with: &[usize]| {
        let held = laws.hold(
            |coupling| {
                let at = case.sketch.couplings.iter().position(|own| own == coupling);
                at.is_some_and(|at| with.contains(&at))
            },
            |element| case.is_applied(element),
        );
        // With the input at rest as well nothing of them could turn.
        let held = held.with(laws.speed(&case.sketch.input));
        let bodies = couplings.iter().flat_map(|&at| train.members(at));
        bodies.into_iter().all(|&body| match body {
            Body::Housing => true,
            Body::Shaft(shaft) => held.implies(laws.speed(&train.scenario().shafts[shaft].id)),
        })
    };
    for stage in stages {
        let own: Vec<usize> = stage.sets.iter().map(|set| set.coupling).collect();
        let mut with = told.clone();
        with.extend(&own);
        // Members that float in the end are decided by nothing.
        if decided(&own, &all) {
            prop_assert!(decided(&own, &with), "{own:?} after {told:?}");
        }
        if own.len() > 1 {
            for &one in &own {
                let mut alone = told.clone();
                alone.push(one);
                prop_assert!(!decided(&[one], &alone), "{one} could be told alone");
            }
        }
        told = with;
    }
    Ok(())
}

fn check_sentences(combination: &Combination<'_>) -> Checked {
    let report = WalkReport::of(combination);
    for step in &report.steps {
        prop_assert!(!step.sentences.is_empty());
        for sentence in &step.sentences {
            prop_assert!(
                sentence.ends_with('.') && !sentence.contains(['{', '}']),
                "{sentence}"
            );
        }
    }
    Ok(())
}

#[test]
fn walks_through_the_scenarios_are_true() -> Result<()> {
    let mut seen = 0;
    for file in files::scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let named = |error: TestCaseError| anyhow::anyhow!("{}: {error}", file.stem);
        for range in 0..train.scenario().ranges.len() {
            let settled = train.settle(train.range(range), Duty::Drive);
            check_walk(&settled.combination).map_err(named)?;
            check_sentences(&settled.combination).map_err(named)?;
            seen += 1;
        }
        let count = train.scenario().elements.len();
        if count <= FEW {
            let mut failed = Ok(());
            train.for_each_combination(|combination| {
                if failed.is_ok() {
                    failed = check_walk(combination).map(|_| ());
                }
            });
            failed.map_err(named)?;
        }
    }
    anyhow::ensure!(seen > 40, "{seen}");
    Ok(())
}

proptest! {
    #![proptest_config(settings(600))]

    #[test]
    fn walks_through_any_train_are_true(case in case(ANY)) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let walk = check_walk(&combination)?;
        check_order(&case, &train, &walk)?;
        check_sentences(&combination)?;
    }

    /// Few teeth make torques vanish and speeds agree by chance.
    #[test]
    fn walks_through_trains_with_few_teeth_are_true(
        case in case(Kind { couplings: 4, elements: 5, teeth: 14, ..ANY })
    ) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let walk = check_walk(&combination)?;
        check_order(&case, &train, &walk)?;
    }
}
