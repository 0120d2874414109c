//! Efficiencies of a single set and of a train that locks itself.

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

/// Derived, the train from memory: 99, 100/101 and 100 teeth, a classic demonstration with
/// i0 = 99 * 101/(100 * 100), one ten-thousandth below 1. From the carrier it gears up so little
/// that at 0.98 in all 0.4976 % of the power comes out; driven back it locks itself.
#[test]
fn two_suns_one_part_in_ten_thousand() {
    let sketch = || {
        Sketch::new("arm", "d")
            .stepped_suns("set", [("a", 99), ("d", 100)], "arm", [100, 101])
            .brake("B", "a")
    };
    let forward = efficiency(&sketch(), 0.98, 2, false);
    agrees("the arm drives", forward, 0.004_976, 5e-7);
    assert_eq!(efficiency(&sketch(), 0.98, 2, true), None, "driven back");
}

/// Suns 30 and 36, ring 72, as one coupling.
fn ravigneaux(input: &str, output: &str) -> Sketch {
    Sketch::new(input, output).ravigneaux("set", [("a", 30), ("b", 36)], ("r", 72), "c", (19, 18))
}

/// Derived: with one sun loaded the meshes are in series, so a Ravigneaux set loses what the set
/// with two pinion rows or the set with one would lose that it contains.
#[test]
fn one_loaded_sun_is_a_set_of_its_own() {
    let e = 0.98;
    let small = |input: &str, output: &str| {
        Sketch::new(input, output).double_pinion("set", ("a", 30), ("r", 72), "c", (19, 18))
    };
    let large = |input: &str, output: &str| {
        Sketch::new(input, output).planetary("set", ("b", 36), ("r", 72), "c", 18)
    };
    type Set<'a> = &'a dyn Fn(&str, &str) -> Sketch;
    let cases: [(&str, &str, &str, Set<'_>); 5] = [
        ("a", "r", "c", &small),
        ("a", "c", "r", &small),
        ("b", "r", "c", &large),
        ("c", "r", "b", &large),
        ("r", "c", "b", &large),
    ];
    for (input, output, held, alone) in cases {
        for coasting in [false, true] {
            let solve = |sketch: Sketch| efficiency(&sketch.brake("B", held), e, 1, coasting);
            let expected = solve(alone(input, output));
            let what = format!("{input} to {output}, {held} held, coasting {coasting}");
            let Some(expected) = expected else {
                assert_eq!(solve(ravigneaux(input, output)), None, "{what}");
                continue;
            };
            agrees(&what, solve(ravigneaux(input, output)), expected, 1e-12);
        }
    }
}

/// Derived by hand: the small sun drives, the large one is held, the ring delivers at 15/22 of the
/// input's speed and the carrier floats at 5/11. Seen from it the small sun puts 6/11 of the power
/// in, which reaches the long pinion times e^2. Of that the large sun takes 36 L 5/11, L being the
/// multiplier of its row, and its mesh passes a share e of what it is given; the rest goes to the
/// ring through one mesh. The carrier has no torque: 1 + 36 L = e (2.4 e^2 - 72 L / e), so
/// 108 L = 2.4 e^3 - 1, and the ring's torque is 1 + 36 L. With e = 1 that is the ratio 22/15.
///
/// Were the mesh of long pinion and ring counted once a sun, the power that turns from one sun to
/// the other would lose in it though it never gets there.
#[test]
fn two_loaded_suns_share_the_mesh_with_the_ring() {
    for e in [1.0, 0.99, 0.95] {
        let l = (2.4 * e * e * e - 1.0) / 108.0;
        let expected = (1.0 + 36.0 * l) * 15.0 / 22.0;
        let found = efficiency(&ravigneaux("a", "r").brake("B", "b"), e, 1, false);
        agrees(&format!("one mesh {e}"), found, expected, 1e-12);
    }
}
