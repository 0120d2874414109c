//! Efficiencies of a single set and of a train that locks itself.
//!
//! Not here: the two-sun trains of textbooks with their holding torques, as a scenario cannot say
//! stepped planets.

use levertrain_core::{ElementSet, LossModel, Lossy};
use levertrain_tests::sketch::Sketch;

/// Efficiency with basic efficiency `basic` shared by `meshes` meshes; nothing where it locks.
fn efficiency(sketch: &Sketch, basic: f64, meshes: i32, coasting: bool) -> Option<f64> {
    let train = sketch.train();
    let combination = train.solve(ElementSet::from_bits(1));
    let model = LossModel {
        mesh_efficiency: basic.powf(1.0 / f64::from(meshes)),
        drag: 0.0,
        coasting,
    };
    match Lossy::of(&combination, &model) {
        Some(Lossy::Drives(torques)) => Some(torques.efficiency),
        Some(Lossy::SelfLocking) => None,
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn agrees(what: &str, actual: Option<f64>, expected: f64, digits: f64) {
    let close = actual.is_some_and(|actual| (actual - expected).abs() <= digits);
    eprintln!("  {what:<40} actual {actual:?}, expected {expected}, tolerance {digits}");
    assert!(close, "{what}: {actual:?}, expected {expected}");
}

/// Derived: Tr = k·e^w·Ts with w the sign of the rolling power at the sun, the table of the six
/// cases for k = 80/20 = 4 and e = 0.98, to the six digits it is printed with.
#[test]
fn six_cases_of_a_single_set() {
    for (input, output, held, expected) in [
        ("s", "c", "r", 0.984_000),
        ("c", "s", "r", 0.983_936),
        ("r", "c", "s", 0.996_000),
        ("c", "r", "s", 0.995_935),
        ("s", "r", "c", 0.98),
        ("r", "s", "c", 0.98),
    ] {
        let sketch = Sketch::new(input, output)
            .planetary("set", ("s", 20), ("r", 80), "c", 30)
            .brake("B", held);
        let what = format!("{input} to {output}, {held} held");
        agrees(&what, efficiency(&sketch, 0.98, 2, false), expected, 5e-7);
    }
}

/// Derived: a set that turns as one piece has no rolling power.
#[test]
fn a_locked_set_loses_nothing() {
    let sketch = Sketch::new("s", "c")
        .planetary("set", ("s", 20), ("r", 80), "c", 30)
        .clutch("C", "s", "r");
    agrees("locked", efficiency(&sketch, 0.98, 2, false), 1.0, 1e-12);
}

/// Derived: a set with two pinion rows has the positive basic ratio i0 = S/R < 1, like the two-sun
/// trains with stepped planets. From the carrier to the ring, the sun held, its efficiency is
/// (1 - i0)/(1 - i0 e) (w = +1 agrees with itself); driven back it is (1 - i0/e)/(1 - i0), and
/// where i0/e is 1 or more the carrier would need power too: it locks itself.
#[test]
fn positive_basic_ratios_near_one() {
    let e = 0.98;
    for (sun, locks) in [(99_u32, true), (60, false)] {
        let sketch = Sketch::new("c", "r")
            .double_pinion("set", ("s", sun), ("r", 100), "c", (20, 20))
            .brake("B", "s");
        let i0 = f64::from(sun) / 100.0;
        let forward = (1.0 - i0) / (1.0 - i0 * e);
        let what = format!("{sun}/100, the carrier drives");
        agrees(&what, efficiency(&sketch, e, 3, false), forward, 1e-12);
        let back = efficiency(&sketch, e, 3, true);
        if locks {
            assert_eq!(back, None, "{sun}/100 driven back");
        } else {
            let what = format!("{sun}/100, driven back");
            agrees(&what, back, (1.0 - i0 / e) / (1.0 - i0), 1e-12);
        }
    }
}
