//! The solution satisfies every equation, and says exactly what the equations decide.

use anyhow::{Context, Result, ensure};
use levertrain_core::{Combination, Fraction, State, Train};
use levertrain_tests::elimination::Echelon;
use levertrain_tests::generate::{ANY, Case, LARGE, case, settings};
use levertrain_tests::laws::{Laws, Speeds, mesh_residuals, pinion_spins, speed_of};
use levertrain_tests::rational::{one, rational, zero};
use levertrain_tests::worst;
use proptest::prelude::*;

/// The speeds that are decided, by shaft id.
pub fn speeds(combination: &Combination<'_>) -> Speeds {
    let shafts = combination.train().scenario().shafts.iter().enumerate();
    shafts
        .filter_map(|(index, shaft)| {
            let speed = combination.shaft_speed(index)?;
            Some((shaft.id.clone(), rational(&speed)))
        })
        .collect()
}

/// The equations of a case, elements as applied.
fn laws_of(case: &Case) -> Echelon {
    Laws::of(&case.sketch).hold(|_| true, |element| case.is_applied(element))
}

/// Every mesh and every applied element, with the speeds put in.
fn check_residuals(case: &Case) -> Result<(), TestCaseError> {
    let train = case.sketch.train();
    let combination = train.solve(case.applied());
    let speeds = speeds(&combination);
    for coupling in &case.sketch.couplings {
        for residual in mesh_residuals(&coupling.gearing, &speeds)
            .into_iter()
            .flatten()
        {
            prop_assert_eq!(residual, zero(), "mesh of {}", &coupling.id);
        }
    }
    for (index, element) in case.sketch.elements.iter().enumerate() {
        let [first, second] = &element.ends;
        let ends = speed_of(&speeds, first).zip(speed_of(&speeds, second));
        let slip = combination.slip(index).as_ref().map(rational);
        if case.applied[index] {
            prop_assert_eq!(&slip, &Some(zero()), "slip of applied {}", &element.id);
            if let Some((a, b)) = ends {
                prop_assert_eq!(a, b, "ends of {}", &element.id);
            }
        } else if let Some((a, b)) = ends {
            prop_assert_eq!(slip, Some(a - b), "slip of {}", &element.id);
        }
    }
    Ok(())
}

/// Each pinion's speed found from the sun's side and from the ring's.
fn check_pinions(case: &Case) -> Result<(), TestCaseError> {
    let train = case.sketch.train();
    let combination = train.solve(case.applied());
    let speeds = speeds(&combination);
    for (index, coupling) in case.sketch.couplings.iter().enumerate() {
        let pinions = train.scenario().couplings[index].facts().pinions();
        let expected = pinion_spins(&coupling.gearing, &speeds);
        prop_assert_eq!(pinions.len(), expected.len());
        for (pinion, sides) in pinions.iter().zip(expected) {
            let actual = combination.pinion_spin(index, pinion);
            for side in sides.into_iter().flatten() {
                let actual = actual.as_ref().map(rational);
                prop_assert_eq!(
                    actual,
                    Some(side),
                    "{} of {}",
                    pinion.name.word(),
                    &coupling.id
                );
            }
        }
    }
    Ok(())
}

/// State, freedom, and whether each number is decided and is the right one, all by rank.
fn check_by_rank(case: &Case) -> Result<(), TestCaseError> {
    let train = case.sketch.train();
    let combination = train.solve(case.applied());
    let laws = Laws::of(&case.sketch);
    let held = laws_of(case);
    let released = laws.hold(|_| true, |_| false);

    let freedom = case.sketch.shafts.len() - held.rank();
    prop_assert_eq!(combination.degrees_of_freedom(), freedom);
    let surplus = case.applied().len() - (held.rank() - released.rank());
    prop_assert_eq!(combination.surplus(), surplus);

    let check = |what: &str, expression, value: Option<Fraction>| {
        let value = value.as_ref().map(rational);
        let right = laws.is_value(&held, expression, value.as_ref());
        prop_assert!(right, "{} is said to be {:?}", what, value);
        Ok(())
    };
    for (index, shaft) in case.sketch.shafts.iter().enumerate() {
        check(shaft, laws.speed(shaft), combination.shaft_speed(index))?;
    }
    for (index, element) in case.sketch.elements.iter().enumerate() {
        check(&element.id, laws.slip(element), combination.slip(index))?;
    }

    let tied_up = held.implies(laws.speed(&case.sketch.input));
    let output = combination.shaft_speed(train.output());
    let output = output.as_ref().map(rational);
    let expected = match &output {
        _ if tied_up => "tied-up",
        None => "neutral",
        Some(speed) if *speed == zero() => "output-held",
        Some(_) if surplus > 0 => "over-applied",
        Some(_) => "driving",
    };
    prop_assert_eq!(combination.state().key(), expected);
    if let State::Driving(ratio) | State::OverApplied(ratio) = combination.state() {
        let product = output.map(|output| output * rational(ratio));
        prop_assert_eq!(product, Some(one()));
    }
    Ok(())
}

/// Which of the applied elements could be released alone, by rank.
fn check_releasable(case: &Case) -> Result<(), TestCaseError> {
    let train = case.sketch.train();
    let combination = train.solve(case.applied());
    let laws = Laws::of(&case.sketch);
    let held = laws_of(case);
    for (index, element) in case.sketch.elements.iter().enumerate() {
        let without = laws.hold(
            |_| true,
            |other| other.id != element.id && case.is_applied(other),
        );
        let expected = case.applied[index] && without.rank() == held.rank();
        let actual = combination.releasable().contains(index);
        prop_assert_eq!(actual, expected, "releasing {}", &element.id);
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(300))]

    #[test]
    fn speeds_satisfy_every_equation(case in case(ANY)) {
        check_residuals(&case)?;
    }

    #[test]
    fn pinions_roll_on_both_sides(case in case(ANY)) {
        check_pinions(&case)?;
    }

    #[test]
    fn answers_are_what_the_equations_decide(case in case(ANY)) {
        check_by_rank(&case)?;
    }

    #[test]
    fn releasable_elements_change_nothing(case in case(ANY)) {
        check_releasable(&case)?;
    }
}

proptest! {
    #![proptest_config(settings(60))]

    #[test]
    fn large_trains_obey_the_same_laws(case in case(LARGE)) {
        check_residuals(&case)?;
        check_pinions(&case)?;
        check_by_rank(&case)?;
    }
}

/// Catches states of lent combinations that nobody drops: of ratios too long for 64 bits each would keep its memory for good.
#[test]
fn a_lent_combination_leaves_nothing_behind() -> Result<()> {
    let files = worst::files();
    let file = files.iter().find(|file| file.name == "all ranges drive");
    let train = Train::parse(&file.context("no such file")?.text);
    let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let mut ratios = Vec::new();
    let mut was_shared = false;
    train.for_each_combination(|combination| {
        if let Some(ratio) = combination.state().ratio() {
            let kept = ratio.clone();
            was_shared |= kept.is_shared();
            ratios.push(kept);
        }
    });
    ensure!(was_shared, "no ratio is long");
    ensure!(
        ratios.iter().all(|ratio| !ratio.is_shared()),
        "a state is still there"
    );
    Ok(())
}
