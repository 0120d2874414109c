//! What every single and double fault makes of every range is what the broken train does.

use levertrain_core::faults::{Fault, Faulty, Outcome, Search, Trial};
use levertrain_core::scenario::{Scenario, Shaft, limits};
use levertrain_core::{Duty, Torques, Train};
use levertrain_tests::files::scenarios;
use levertrain_tests::generate::settings;
use proptest::prelude::*;

use crate::model::{Applied, Seen, applied, broken, by_elimination, meant, settled, trains};

/// What becomes of a range, from what it does while nothing is broken, and what it does and whether it brakes
/// the engine with what slips held together and open.
fn expected(healthy: &(Seen, bool), held: &(Seen, bool), open: &(Seen, bool)) -> Outcome {
    if [healthy, held, open]
        .iter()
        .any(|seen| seen.0 == Seen::Undecided)
    {
        return Outcome::Undecided;
    }
    if held.0 != open.0 {
        return Outcome::Slips;
    }
    match (&healthy.0, &held.0) {
        (before, now) if before == now => match (healthy.1, held.1 && open.1) {
            (true, false) => Outcome::NoEngineBraking,
            (false, true) => Outcome::EngineBraking,
            _ => Outcome::Right,
        },
        (_, Seen::Drives(ratio)) => Outcome::Drives(ratio.clone()),
        (_, Seen::Neutral) => Outcome::Lost,
        (_, Seen::Held) => Outcome::OutputHeld,
        (_, _) => Outcome::TiedUp,
    }
}

/// What a train does and whether it brakes the engine.
fn seen(train: &Train, applied: &Applied) -> (Seen, bool) {
    let driving = settled(train, applied, Duty::Drive);
    let set = applied.iter().copied().collect();
    let drives = matches!(driving, Seen::Drives(_));
    let brakes = drives && train.brakes_engine(set);
    (driving, brakes)
}

/// As the core has the elements of the broken file.
fn renumbered(applied: &Applied, kept: &[usize]) -> Applied {
    let places = applied
        .iter()
        .map(|x| kept.iter().position(|known| known == x));
    places.flatten().collect()
}

/// Compares all single and double faults of a train; how many outcomes were seen of each kind.
fn check(train: &Train) -> Result<Vec<&'static str>, TestCaseError> {
    let search = Search::completed(train);
    let meant = meant(train);
    prop_assert_eq!(search.trials().len(), meant.len());
    let healthy: Vec<(Seen, bool)> = meant.iter().map(|applied| seen(train, applied)).collect();
    let one_ways = !train.one_ways().is_empty();
    let all = pairs(&Fault::all(train));
    prop_assert_eq!(all.len(), search.candidates().len());
    let mut kinds = Vec::new();
    for (candidate, faults) in all.iter().enumerate() {
        prop_assert_eq!(&search.faults_of(candidate).collect::<Vec<_>>(), faults);
        let by_file = broken(train, faults);
        let faulty = Faulty::new(train, faults);
        let trials = Trial::all(train);
        for (trial, meant) in meant.iter().enumerate() {
            let outcome = search.outcome(candidate, trial).cloned();
            let said = format!("{faults:?} in trial {trial}");
            prop_assert_eq!(
                outcome.as_ref(),
                Some(&faulty.outcome(&trials[trial])),
                "{}",
                &said
            );
            let [held, open] = [true, false].map(|slipping| applied(meant, faults, slipping));
            if let Some((broken, kept)) = &by_file {
                let [held, open] =
                    [&held, &open].map(|applied| seen(broken, &renumbered(applied, kept)));
                let expected = expected(&healthy[trial], &held, &open);
                prop_assert_eq!(outcome.as_ref(), Some(&expected), "{}", &said);
                kinds.push(expected.key());
            }
            if !one_ways {
                // Without one-way clutches whatever drives brakes the engine, and is right or otherwise.
                let [held, open] = [&held, &open].map(|applied| {
                    let seen = by_elimination(train, faults, applied);
                    let drives = matches!(seen, Seen::Drives(_));
                    (seen, drives)
                });
                let expected = expected(&healthy[trial], &held, &open);
                prop_assert_eq!(outcome.as_ref(), Some(&expected), "{}, eliminated", &said);
                slips_where_it_carries(&faulty, faults, &trials[trial], &expected)?;
            }
        }
    }
    Ok(kinds)
}

/// One element that slips shows where it carries torque, and nowhere else.
fn slips_where_it_carries(
    faulty: &Faulty,
    faults: &[Fault],
    trial: &Trial,
    outcome: &Outcome,
) -> Result<(), TestCaseError> {
    let slipping: Vec<usize> = faults
        .iter()
        .filter_map(|fault| match fault {
            Fault::Slips(element) => Some(*element),
            _ => None,
        })
        .collect();
    let [element] = slipping[..] else {
        return Ok(());
    };
    let combination = faulty.train().solve(faulty.applied(trial.applied));
    let Some(torques) = Torques::of(&combination) else {
        return Ok(());
    };
    // Of several that do the same none is known to carry anything, and the others hold.
    let torque = torques.element(element);
    let carries = torque.is_some_and(|torque| torque.signum() != 0);
    prop_assert_eq!(
        carries,
        *outcome == Outcome::Slips,
        "{:?}: {:?}",
        faults,
        torque
    );
    Ok(())
}

/// All single faults, then all pairs of two parts.
fn pairs(faults: &[Fault]) -> Vec<Vec<Fault>> {
    let part = |fault: &Fault| match *fault {
        Fault::WillNotApply(element)
        | Fault::WillNotRelease(element)
        | Fault::Slips(element)
        | Fault::DoesNotHold(element)
        | Fault::StaysLocked(element) => (element, None),
        Fault::BrokenSpline(coupling, member) => (coupling, Some(member)),
    };
    let mut all: Vec<Vec<Fault>> = faults.iter().map(|&fault| vec![fault]).collect();
    for (at, &first) in faults.iter().enumerate() {
        let others = faults[at + 1..].iter();
        let others = others.filter(|second| part(&first) != part(second));
        all.extend(others.map(|&second| vec![first, second]));
    }
    all
}

#[test]
fn in_every_scenario() -> Result<(), Box<dyn std::error::Error>> {
    let mut kinds = std::collections::BTreeSet::new();
    for file in scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| format!("{problems:?}"))?;
        kinds.extend(check(&train).map_err(|error| format!("{}: {error}", file.stem))?);
    }
    // Only a table that has all of them was checked in all of them.
    let all = [
        "drives",
        "engine-braking",
        "lost",
        "no-engine-braking",
        "output-held",
        "right",
        "slips",
        "ties-up",
    ];
    assert!(all.iter().all(|kind| kinds.contains(kind)), "{kinds:?}");
    Ok(())
}

/// A file may have no more shafts than this one has, but a broken spline makes one more.
#[test]
fn in_a_train_with_as_many_shafts_as_can_be() -> Result<(), Box<dyn std::error::Error>> {
    let text = &scenarios()?[4].text;
    let mut scenario = Scenario::parse(text).map_err(|problems| format!("{problems:?}"))?;
    let [small, large] = [0, limits::SHAFTS].map(|count| {
        for index in scenario.shafts.len()..count {
            let id = format!("more-{index}");
            let label = id.clone();
            scenario.shafts.push(Shaft { id, label });
        }
        Train::new(scenario.clone())
    });
    let [small, large] =
        [small, large].map(|train| train.map_err(|problems| format!("{problems:?}")));
    let (small, large) = (small?, large?);
    let trials = Trial::all(&small);
    for faults in pairs(&Fault::all(&small)) {
        let [small, large] = [&small, &large].map(|train| Faulty::new(train, &faults));
        for trial in &trials {
            assert_eq!(small.outcome(trial), large.outcome(trial), "{faults:?}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(300))]

    #[test]
    fn in_any_train(train in trains()) {
        check(&train)?;
    }
}
