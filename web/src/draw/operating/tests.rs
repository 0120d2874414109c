//! Checks of the picture as a scene.

use levertrain_core::Train;

use super::*;
use crate::draw::scene::Mark;

const TRAIN: &str = include_str!("../../../../scenarios/04-six-speed-three-sets.json");

fn points(combination: &Combination<'_>, conditions: &Conditions) -> usize {
    match Operating::of(combination, conditions) {
        Some(Operating::Solved { points, stall, .. }) => {
            points.len() + usize::from(stall.is_some())
        }
        _ => 0,
    }
}

const UNITS: (SpeedUnit, TorqueUnit) = (SpeedUnit::RevPerMin, TorqueUnit::NewtonMetre);
const OTHERS: (SpeedUnit, TorqueUnit) = (SpeedUnit::RadPerSecond, TorqueUnit::PoundForceFoot);

/// Pedals, slopes and lock-up in every range, narrow and wide.
fn check_all(check: impl Fn(&Scene, usize)) {
    let Ok(train) = Train::parse(TRAIN) else {
        panic!("the scenario is broken");
    };
    for range in 0..7 {
        for (pedal, grade) in [(0.0, -0.1), (0.2, 0.0), (0.5, 0.03), (1.0, 0.25)] {
            for (lockup, width, units) in [
                (false, 340.0, UNITS),
                (true, 340.0, UNITS),
                (false, 560.0, OTHERS),
            ] {
                let conditions = Conditions {
                    pedal,
                    grade,
                    lockup,
                    ..Conditions::default()
                };
                let combination = train.solve(train.range(range));
                let scene = scene(&combination, &conditions, units, (width, 190.0));
                check(&scene, points(&combination, &conditions));
            }
        }
    }
}

#[test]
fn names_do_not_overlap_and_stay_inside() {
    check_all(|scene, _| {
        let labels: Vec<&Label> = scene.labels().collect();
        for (index, label) in labels.iter().enumerate() {
            let bounds = label.bounds();
            assert!(bounds.left >= 0.0 && bounds.top >= 0.0, "{label:?}");
            assert!(bounds.left + bounds.width <= scene.width, "{label:?}");
            assert!(bounds.top + bounds.height <= scene.height, "{label:?}");
            for other in &labels[..index] {
                assert!(!bounds.overlaps(&other.bounds()), "{label:?} {other:?}");
            }
        }
    });
}

#[test]
fn every_point_has_its_mark_and_every_curve_its_name() {
    check_all(|scene, points| {
        let marks = scene.marks.iter();
        let discs =
            marks.filter(|mark| matches!(mark, Mark::Disc { radius, .. } if *radius == MARK));
        assert_eq!(discs.count(), points);
        assert!(scene.labels().any(|label| label.text == "engine"));
    });
}

/// 6000 rev/min are 628 rad/s and 230 N·m are 170 lbf·ft.
#[test]
fn the_axes_are_lettered_in_the_units_chosen() {
    let Ok(train) = Train::parse(TRAIN) else {
        panic!("the scenario is broken");
    };
    let combination = train.solve(train.range(3));
    let letters = |units| {
        let scene = scene(&combination, &Conditions::default(), units, (376.0, 190.0));
        let texts = scene.labels().map(|label| label.text.clone());
        texts.collect::<Vec<_>>()
    };
    for (units, expected) in [
        (UNITS, ["engine speed, rev/min", "N·m", "6000", "250"]),
        (OTHERS, ["engine speed, rad/s", "lbf·ft", "600", "150"]),
    ] {
        let letters = letters(units);
        for text in expected {
            assert!(
                letters.iter().any(|letter| letter == text),
                "{text}: {letters:?}"
            );
        }
    }
}

#[test]
fn labels_are_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[names_do_not_overlap_and_stay_inside]);
}
