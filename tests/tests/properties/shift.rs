//! Every claim of the story of a shift, derived again from speeds: between all ranges of all scenarios, and in
//! trains drawn at random.

use anyhow::{Context, Result, ensure};
use levertrain_core::lesson::{Change, Late, Shift, ShiftReport, Swap};
use levertrain_core::{Combination, Duty, ElementSet, State, Train, Verdict};
use levertrain_tests::files;
use levertrain_tests::generate::{ANY, case, settings};
use proptest::prelude::*;

use super::walk::Checked;

/// What is told of late elements is so, and of what is not told there is nothing to tell.
fn check_lates(train: &Train, shift: &Shift<'_>) -> Checked {
    let to = shift.kept.union(shift.applied);
    let after = train.settle(to, Duty::Drive);
    let mut told: Vec<&Late<'_>> = shift.lates.iter().collect();
    for (to_go, changing) in [(false, shift.applied), (true, shift.released)] {
        let mut all = None;
        let alone = changing.iter().map(|one| ElementSet::NONE.with(one));
        let subsets = std::iter::once(changing).chain(alone);
        for late in subsets.filter(|late| !late.is_empty()) {
            let holds = if to_go {
                to.union(late)
            } else {
                to.minus(late)
            };
            let between = train.settle(holds, Duty::Drive);
            let outcome = (
                between.combination.state().clone(),
                between.verdict == Verdict::Settled,
            );
            let same = all.as_ref() == Some(&outcome);
            let wanted = (
                after.combination.state().clone(),
                after.verdict == Verdict::Settled,
            );
            let neutral = outcome.0 == State::Neutral && outcome == wanted && all.is_some();
            all.get_or_insert(outcome);
            if same || neutral {
                continue;
            }
            prop_assert!(!told.is_empty(), "{late:?} late is not told");
            let first = told.remove(0);
            prop_assert_eq!(
                (first.to_go, first.elements, first.holds),
                (to_go, late, holds)
            );
            let one = &first.between;
            prop_assert_eq!(one.combination.state(), between.combination.state());
            prop_assert_eq!(&one.verdict, &between.verdict);
        }
    }
    prop_assert!(told.is_empty(), "{} told too much", told.len());
    Ok(())
}

fn check_shift(train: &Train, from: ElementSet, to: ElementSet) -> Checked {
    let shift = Shift::of(train, from, to);
    for element in 0..train.scenario().elements.len() {
        let (before, after) = (from.contains(element), to.contains(element));
        prop_assert_eq!(shift.released.contains(element), before && !after);
        prop_assert_eq!(shift.applied.contains(element), after && !before);
        prop_assert_eq!(shift.kept.contains(element), after && before);
    }
    let single = shift.released.len() == 1 && shift.applied.len() == 1;
    prop_assert_eq!(shift.swap() == Swap::Single, single);
    prop_assert_eq!(shift.swap() == Swap::Nothing, from == to);
    let settled = |applied| train.settle(applied, Duty::Drive);
    let [before, after] = [from, to].map(settled);
    for (shaft, told) in shift.shafts.iter().enumerate() {
        let one = before.combination.shaft_speed(shaft);
        let two = after.combination.shaft_speed(shaft);
        prop_assert_eq!((&told.before, &told.after), (&one, &two));
        let Some((one, two)) = one.zip(two) else {
            let free = [Change::BecomesFree, Change::BecomesDecided, Change::Free];
            prop_assert!(free.contains(&told.change));
            continue;
        };
        let rises = two.abs() > one.abs();
        let falls = two.abs() < one.abs();
        let agrees = match told.change {
            Change::Same => one == two,
            Change::TurnsRound => (&one * &two).signum() < 0,
            Change::Stops => falls && two.is_zero(),
            Change::Starts => rises && one.is_zero(),
            Change::Faster => rises && (&one * &two).signum() > 0,
            Change::Slower => falls && (&one * &two).signum() > 0,
            Change::BecomesFree | Change::BecomesDecided | Change::Free => false,
        };
        prop_assert!(agrees, "{:?} from {} to {}", told.change, one, two);
    }
    check_lates(train, &shift)?;
    for (brakes, applied) in shift.brakes.into_iter().zip([from, to]) {
        let [drive, coast] = [Duty::Drive, Duty::Coast].map(|duty| {
            let settled = train.settle(applied, duty);
            settled.combination.state().ratio().cloned()
        });
        prop_assert_eq!(brakes, drive.is_some() && drive == coast);
    }
    let one_ways = |combination: &Combination<'_>| {
        let locked = combination.applied();
        locked.minus(locked.minus(train.one_ways()))
    };
    let [before, after] = [&before, &after].map(|settled| one_ways(&settled.combination));
    prop_assert_eq!(shift.lets_go, before.minus(after));
    prop_assert_eq!(shift.locks, after.minus(before));
    if let Some(factor) = shift.input_factor() {
        let speed = |settled: &levertrain_core::Settled<'_>| {
            settled.combination.shaft_speed(train.output())
        };
        let [before, after] = [&shift.before, &shift.after].map(speed);
        prop_assert_eq!(after.map(|after| &after * &factor), before);
    }
    Ok(())
}

fn scenario(stem: &str) -> Result<Train> {
    let file = files::scenarios()?
        .into_iter()
        .find(|file| file.stem == stem);
    Train::parse(&file.with_context(|| format!("no {stem}"))?.text)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

#[test]
fn shifts_of_the_scenarios_are_true() -> Result<()> {
    let mut seen = 0;
    for file in files::scenarios()? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let ranges = 0..train.scenario().ranges.len();
        let ranges: Vec<ElementSet> = ranges.map(|range| train.range(range)).collect();
        for (&from, &to) in ranges
            .iter()
            .flat_map(|from| ranges.iter().map(move |to| (from, to)))
        {
            check_shift(&train, from, to)
                .map_err(|error| anyhow::anyhow!("{}: {error}", file.stem))?;
            let story = ShiftReport::of(&train, from, to);
            ensure!(story.shafts.len() == train.scenario().shafts.len());
            for step in &story.steps {
                let words = &step.sentence;
                ensure!(
                    words.ends_with('.') && !words.contains(['{', '}']),
                    "{words}"
                );
            }
            seen += 1;
        }
    }
    ensure!(seen > 300, "{seen}");
    Ok(())
}

/// What a trainer says of a shift beyond its speeds, and would not say: a one-way clutch that lets go and one that merely
/// is of no use, engine braking, a reversal, one late element of two, nothing told of a neutral that is wanted.
#[test]
fn what_a_trainer_says_of_a_shift_is_told() -> Result<()> {
    let none = &[][..];
    for (stem, from, to, said, unsaid) in [
        (
            "07-three-speed-one-way",
            "1",
            "2",
            &[
                "lets go by itself and overruns.",
                "Nothing need be released for it",
                "Engine braking comes with it",
            ][..],
            &["nothing to hold"][..],
        ),
        (
            "07-three-speed-one-way",
            "1",
            "1L",
            &["has nothing to hold any more.", "Engine braking comes"],
            &["overruns", "Nothing need be"],
        ),
        (
            "07-three-speed-one-way",
            "R",
            "1",
            &[
                "the output must stand still for this shift",
                "If only Brake V goes late, Brake V and Clutch H are applied together for a while: it drives at the new ratio",
                "If only Clutch J goes late, Clutch H and Clutch J are applied together for a while: it drives at a ratio of 1 in between",
            ],
            none,
        ),
        (
            "04-six-speed-three-sets",
            "2",
            "3",
            &[
                "At the same input speed this comes to rest",
                ". This starts to turn",
            ],
            &["If only", "must stand still", "Engine braking"],
        ),
        (
            "09-six-speed-front-set",
            "1",
            "N",
            &["Nothing is applied in its place."],
            &["If only", "Engine braking"],
        ),
    ] {
        let train = scenario(stem)?;
        let range = |id: &str| {
            let ranges = &train.scenario().ranges;
            let at = ranges.iter().position(|range| range.id == id);
            at.map(|at| train.range(at))
                .with_context(|| format!("{stem} has no {id}"))
        };
        let story = ShiftReport::of(&train, range(from)?, range(to)?);
        let words: Vec<String> = story.steps.into_iter().map(|step| step.sentence).collect();
        let words = words.join(" ");
        for part in said {
            ensure!(
                words.contains(part),
                "{stem} {from} {to}: {part:?} not in {words}"
            );
        }
        for part in unsaid {
            ensure!(
                !words.contains(part),
                "{stem} {from} {to}: {part:?} in {words}"
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(600))]

    #[test]
    fn shifts_of_any_train_are_true(case in case(ANY), other in any::<u32>()) {
        let train = case.sketch.train();
        let all = (1_u32 << train.scenario().elements.len()) - 1;
        check_shift(&train, case.applied(), ElementSet::from_bits(other & all))?;
    }
}
