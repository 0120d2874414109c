//! Backwards: all that explains what was observed, and nothing else, and the range that tells most of it
//! apart.

use std::collections::BTreeSet;

use levertrain_core::Train;
use levertrain_core::faults::{
    Explanations, Fault, Faulty, Observed, Other, Outcome, Rank, Search, Trial,
};
use levertrain_tests::files::scenarios;
use levertrain_tests::generate::settings;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

use crate::model::trains;

/// What one sees who tries a range; nothing where it is not decided.
fn seen(outcome: &Outcome) -> Option<Observed> {
    Some(match outcome {
        Outcome::Right => Observed::Right,
        Outcome::NoEngineBraking => Observed::NoEngineBraking,
        Outcome::EngineBraking => Observed::EngineBraking,
        Outcome::Lost => Observed::Lost,
        Outcome::Slips => Observed::Slips,
        Outcome::Drives(ratio) => Observed::Drives(Other::At(ratio.clone())),
        Outcome::OutputHeld | Outcome::TiedUp => Observed::TiesUp,
        Outcome::Undecided => return None,
    })
}

/// Whether what is seen is what was noted, which may be less.
fn fits(noted: &Observed, outcome: &Outcome) -> bool {
    match (noted, seen(outcome)) {
        (_, None) => true,
        (Observed::Drives(noted), Some(Observed::Drives(Other::At(ratio)))) => match noted {
            Other::Any => true,
            Other::Unknown => false,
            Other::Forward => ratio.to_f64() > 0.0,
            Other::Backward => ratio.to_f64() < 0.0,
            Other::At(noted) => *noted == ratio,
        },
        (noted, Some(seen)) => *noted == seen,
    }
}

/// All single and double faults with what they make of every trial, worked out one by one.
fn table(train: &Train) -> Vec<(Vec<Fault>, Vec<Outcome>)> {
    let faults = Fault::all(train);
    let trials = Trial::all(train);
    let row = |faults: Vec<Fault>| {
        let faulty = Faulty::new(train, &faults);
        let outcomes = trials.iter().map(|trial| faulty.outcome(trial)).collect();
        (faults, outcomes)
    };
    let mut rows: Vec<_> = faults.iter().map(|&fault| row(vec![fault])).collect();
    for (at, &first) in faults.iter().enumerate() {
        let others = faults[at + 1..]
            .iter()
            .filter(|other| first.goes_with(**other));
        rows.extend(others.map(|&second| row(vec![first, second])));
    }
    rows
}

/// Compares the explanations of what was observed with trying everything.
fn check(
    search: &Search,
    rows: &[(Vec<Fault>, Vec<Outcome>)],
    observed: &[Option<Observed>],
) -> Result<(), TestCaseError> {
    let explains = |outcomes: &[Outcome]| {
        let mut pairs = observed.iter().zip(outcomes);
        pairs.all(|(noted, outcome)| noted.as_ref().is_none_or(|noted| fits(noted, outcome)))
    };
    let expected: Vec<&(Vec<Fault>, Vec<Outcome>)> = rows
        .iter()
        .filter(|(_, outcomes)| explains(outcomes))
        .collect();
    let Explanations { groups, next } = Explanations::of(search, observed);

    // All that explain are there, each once.
    let found: Vec<&Vec<Fault>> = groups.iter().flat_map(|group| &group.sets).collect();
    let unique: BTreeSet<&Vec<Fault>> = found.iter().copied().collect();
    prop_assert_eq!(found.len(), unique.len());
    let wanted: BTreeSet<&Vec<Fault>> = expected.iter().map(|(faults, _)| faults).collect();
    prop_assert_eq!(unique, wanted.clone());

    // Fewest faults first, and those apart of which one alone would do.
    let rank = |faults: &Vec<Fault>| match faults[..] {
        [_] => Rank::Single,
        _ if faults.iter().any(|&fault| wanted.contains(&vec![fault])) => Rank::Beside,
        _ => Rank::Both,
    };
    prop_assert!(groups.is_sorted_by_key(|group| group.rank));
    let outcomes = |faults: &Vec<Fault>| -> Vec<Option<Observed>> {
        let row = rows.iter().find(|(known, _)| known == faults);
        row.map_or(Vec::new(), |(_, outcomes)| {
            outcomes.iter().map(seen).collect()
        })
    };
    for group in &groups {
        for faults in &group.sets {
            prop_assert_eq!(rank(faults), group.rank, "{:?}", faults);
            prop_assert_eq!(outcomes(faults), outcomes(&group.sets[0]));
        }
    }
    for (at, one) in groups.iter().enumerate() {
        let later = groups[at + 1..]
            .iter()
            .filter(|other| other.rank == one.rank);
        for other in later {
            prop_assert_ne!(outcomes(&one.sets[0]), outcomes(&other.sets[0]));
        }
    }

    // The next range leaves fewest, in the mean over all that may be true.
    let mut best = None;
    for last in [Rank::Single, Rank::Both, Rank::Beside] {
        let pool: Vec<&Vec<Outcome>> = expected
            .iter()
            .filter(|(faults, _)| rank(faults) <= last)
            .map(|(_, outcomes)| outcomes)
            .collect();
        let mut lefts = Vec::new();
        for trial in (0..observed.len()).filter(|&trial| observed[trial].is_none()) {
            let left = pool.iter().map(|truth| match seen(&truth[trial]) {
                None => pool.len(),
                Some(noted) => pool
                    .iter()
                    .filter(|other| fits(&noted, &other[trial]))
                    .count(),
            });
            lefts.push((left.sum::<usize>(), trial));
        }
        best = lefts
            .into_iter()
            .min()
            .filter(|(left, _)| *left < pool.len() * pool.len());
        if best.is_some() {
            break;
        }
    }
    prop_assert_eq!(next.map(|next| (next.left_times_of, next.trial)), best);
    Ok(())
}

/// An observation that may be made or not of a train whose truth is `outcome`; sometimes less is noted
/// than seen.
fn noted(outcome: &Outcome, how: u8) -> Option<Observed> {
    match (seen(outcome)?, how) {
        (_, 0 | 1) => None,
        (Observed::Drives(_), 2) => Some(Observed::Drives(Other::Any)),
        (Observed::Drives(Other::At(ratio)), 3) => Some(Observed::Drives(match ratio.signum() {
            1 => Other::Forward,
            _ => Other::Backward,
        })),
        (seen, _) => Some(seen),
    }
}

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn what_is_hidden_is_found(
        train in trains(),
        hidden in any::<Index>(),
        how in vec(0_u8..6, 4),
        pieces in 1_usize..40,
    ) {
        let mut search = Search::new(&train);
        while search.advance(pieces) {}
        let rows = table(&train);
        prop_assume!(!rows.is_empty());
        let (faults, outcomes) = hidden.get(&rows);
        let observed: Vec<_> = outcomes
            .iter()
            .zip(how)
            .map(|(outcome, how)| noted(outcome, how))
            .collect();
        check(&search, &rows, &observed)?;
        let groups = Explanations::of(&search, &observed).groups;
        prop_assert!(groups.iter().any(|group| group.sets.contains(faults)));
    }

    #[test]
    fn whatever_is_noted(train in trains(), noted in vec(prop::option::of(0_usize..8), 4)) {
        let search = Search::completed(&train);
        let all = [
            Observed::Right,
            Observed::Lost,
            Observed::Slips,
            Observed::TiesUp,
            Observed::NoEngineBraking,
            Observed::Drives(Other::Any),
            Observed::Drives(Other::Forward),
            Observed::Drives(Other::Backward),
        ];
        let count = search.trials().len();
        let observed: Vec<_> = noted.iter().take(count).map(|at| at.map(|at| all[at].clone())).collect();
        check(&search, &table(&train), &observed)?;
    }
}

/// Every single fault of every scenario by all its outcomes, and by every second of them.
#[test]
fn in_every_scenario() -> Result<(), Box<dyn std::error::Error>> {
    for file in scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| format!("{problems:?}"))?;
        let search = Search::completed(&train);
        let rows = table(&train);
        for (_, outcomes) in rows.iter().filter(|(faults, _)| faults.len() == 1) {
            for step in [1, 2] {
                let outcomes = outcomes.iter().enumerate();
                let observed: Vec<_> = outcomes
                    .map(|(at, outcome)| seen(outcome).filter(|_| at % step == 0))
                    .collect();
                check(&search, &rows, &observed)
                    .map_err(|error| format!("{}: {error}", file.stem))?;
            }
        }
    }
    Ok(())
}

/// What is told while the table is being worked out is true, if not yet all.
#[test]
fn what_is_known_so_far_is_true() -> Result<(), Box<dyn std::error::Error>> {
    let file = &scenarios()?[6];
    let train = Train::parse(&file.text).map_err(|problems| format!("{problems:?}"))?;
    let all = Search::completed(&train);
    let observed = vec![Some(Observed::Lost)];
    let whole = all.explaining(&observed);
    let mut search = Search::new(&train);
    let mut counts = BTreeSet::new();
    loop {
        let more = search.advance(7);
        let found = search.explaining(&observed);
        assert!(found.iter().all(|candidate| whole.contains(candidate)));
        counts.insert(found.len());
        if !more {
            assert_eq!(found, whole);
            break;
        }
    }
    assert!(counts.len() > 2, "they come one after the other");
    Ok(())
}

#[test]
fn words_are_read() -> Result<(), Box<dyn std::error::Error>> {
    let file = &scenarios()?[6];
    let train = Train::parse(&file.text).map_err(|problems| format!("{problems:?}"))?;
    let search = Search::completed(&train);
    assert_eq!(search.read(""), None);
    assert_eq!(search.read("right"), Some(Observed::Right));
    let drives = |other| Some(Observed::Drives(other));
    assert_eq!(search.read("backward"), drives(Other::Backward));
    // In 3rd all turns as one piece, and in reverse ring 2 has 75 teeth, the sun 33.
    let Some(ratio) = levertrain_core::Fraction::new(-75, 33) else {
        panic!("33 is not zero")
    };
    assert_eq!(search.read("-25/11"), drives(Other::At(ratio)));
    assert_eq!(search.read("1"), drives(Other::At(1.into())));
    for nothing in ["1/0", "2,5", "well", "50/22"] {
        assert_eq!(search.read(nothing), drives(Other::Unknown), "{nothing}");
        let observed = [search.read(nothing)];
        assert!(search.explaining(&observed).is_empty(), "{nothing}");
    }
    Ok(())
}
