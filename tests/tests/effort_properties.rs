//! Laws of torque, power and losses, on trains drawn at random.

use levertrain_core::{
    Body, Combination, Duty, ElementSet, Fraction, LossModel, Lossy, LossyTorques, PowerFlow,
    State, Torques, Train,
};
use levertrain_tests::generate::{ANY, Case, Kind, case, settings};
use levertrain_tests::sketch::Sketch;
use proptest::prelude::*;

/// Sums of a few products of torques and speeds, in units of input torque and power, keep some
/// fourteen digits; ill-conditioned trains with large torques lose digits in proportion.
const CLOSE: f64 = 1e-12;

/// Trains that drive often: few couplings, everyday teeth.
const DRIVING: Kind = Kind {
    couplings: 3,
    elements: 5,
    teeth: 120,
    ..ANY
};

/// A drawn train, and what its applied elements make of it where it drives.
fn driving() -> impl Strategy<Value = Case> {
    case(DRIVING).prop_filter("drives", |case| {
        let train = case.sketch.train();
        matches!(train.solve(case.applied()).state(), State::Driving(_))
    })
}

fn member_count(train: &Train, coupling: usize) -> usize {
    train.members(coupling).len()
}

/// Exact torques of members of a coupling; `None` where one is not determined.
fn members(train: &Train, torques: &Torques, coupling: usize) -> Option<Vec<Fraction>> {
    (0..member_count(train, coupling))
        .map(|member| torques.member(coupling, member).cloned())
        .collect()
}

fn sum<'a>(values: impl IntoIterator<Item = &'a Fraction>) -> Fraction {
    let values = values.into_iter();
    values.fold(Fraction::ZERO, |sum, value| &sum + value)
}

/// All torques on one shaft, from outside, from the sets and from the elements.
fn on_shaft(train: &Train, torques: &Torques, shaft: usize) -> Option<Fraction> {
    let mut total = Fraction::ZERO;
    let mut add = |body: Body, torque: Option<&Fraction>, sign: i64| {
        if body == Body::Shaft(shaft) {
            total = &total + &(torque? * &Fraction::from(sign));
        }
        Some(())
    };
    add(Body::Shaft(train.input()), Some(&Fraction::ONE), 1)?;
    add(Body::Shaft(train.output()), torques.output(), 1)?;
    for coupling in 0..train.scenario().couplings.len() {
        for (member, &body) in train.members(coupling).iter().enumerate() {
            add(body, torques.member(coupling, member), -1)?;
        }
    }
    for element in 0..train.scenario().elements.len() {
        let [first, second] = train.ends(element);
        add(first, torques.element(element), -1)?;
        add(second, torques.element(element), 1)?;
    }
    Some(total)
}

fn largest(torques: &LossyTorques) -> f64 {
    let members = torques.members.all().iter();
    let all = members.chain(&torques.elements).chain([&torques.output]);
    all.fold(1.0, |most: f64, torque| most.max(torque.abs()))
}

/// Lossy torques where it drives.
fn lossy(combination: &Combination<'_>, model: LossModel) -> Option<LossyTorques> {
    match Lossy::of(combination, &model)? {
        Lossy::Drives(torques) => Some(torques),
        _ => None,
    }
}

proptest! {
    #![proptest_config(settings(400))]

    #[test]
    fn torques_balance(case in driving()) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let torques = Torques::of(&combination);
        prop_assert!(torques.is_some());
        let Some(torques) = torques else { return Ok(()) };
        for coupling in 0..train.scenario().couplings.len() {
            if let Some(members) = members(&train, &torques, coupling) {
                prop_assert_eq!(sum(&members), Fraction::ZERO, "coupling {}", coupling);
            }
        }
        for shaft in 0..train.scenario().shafts.len() {
            if let Some(total) = on_shaft(&train, &torques, shaft) {
                prop_assert_eq!(total, Fraction::ZERO, "shaft {}", shaft);
            }
        }
    }

    /// Every set passes on what it takes in, and the output delivers what the input gives.
    #[test]
    fn powers_balance(case in driving()) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let Some(torques) = Torques::of(&combination) else {
            return Err(TestCaseError::fail("no torques"));
        };
        let powers = PowerFlow::of(&combination, &torques);
        for coupling in 0..train.scenario().couplings.len() {
            let count = member_count(&train, coupling);
            let known: Option<Vec<&Fraction>> =
                (0..count).map(|member| powers.member(coupling, member)).collect();
            if let Some(known) = known {
                prop_assert_eq!(sum(known), Fraction::ZERO, "coupling {}", coupling);
            }
        }
        let output = torques.output().zip(combination.shaft_speed(train.output()));
        let delivered = output.map(|(torque, speed)| torque * &speed);
        prop_assert_eq!(delivered, Fraction::new(-1, 1));
    }

    /// Combinations that share work fare as each by itself, to the last digit.
    #[test]
    fn losses_do_not_depend_on_what_was_solved_before(case in case(DRIVING), coasting: bool) {
        let train = case.sketch.train();
        let model = LossModel { drag: 0.01, coasting, ..LossModel::default() };
        let duty = if coasting { Duty::Coast } else { Duty::Drive };
        let count = 1_u32 << train.scenario().elements.len();
        let sets = (0..count).map(|step| ElementSet::from_bits(step * 5 % count));
        let sets: Vec<ElementSet> = sets.map(|set| set.minus(train.one_ways())).collect();
        let mut together = Vec::new();
        train.for_each_with_losses(sets.iter().copied(), &model, |combination, lossy| {
            together.push((combination.state().clone(), lossy.cloned()));
        });
        let alone = sets.iter().map(|&set| {
            let combination = train.settle(set, duty).combination;
            let lossy = Lossy::of(&combination, &model);
            (combination.state().clone(), lossy)
        });
        prop_assert_eq!(together, alone.collect::<Vec<_>>());
    }

    /// A mesh efficiency of one is no loss.
    #[test]
    fn the_ideal_limit_is_exact(case in driving()) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let Some(exact) = Torques::of(&combination) else {
            return Err(TestCaseError::fail("no torques"));
        };
        let ideal = LossModel { mesh_efficiency: 1.0, ..LossModel::default() };
        let found = Lossy::of(&combination, &ideal);
        let Some(Lossy::Drives(found)) = found else {
            // Where a member floats while it carries torque, as between two sets with the same
            // tooth ratio in a row, nobody knows how fast its set rolls, and so what it loses.
            let unknown_rolling = (0..train.scenario().couplings.len()).any(|coupling| {
                let mut bodies = train.members(coupling).iter().enumerate();
                bodies.any(|(member, &body)| {
                    let torque = exact.member(coupling, member);
                    combination.body_speed(body).is_none() && torque.is_none_or(|t| !t.is_zero())
                })
            });
            let excused = unknown_rolling || !exact.is_determinate();
            prop_assert!(excused, "{:?}", found);
            return Ok(());
        };
        let close = |actual: f64, exact: Option<&Fraction>| {
            exact.is_none_or(|exact| {
                let exact = exact.to_f64();
                (actual - exact).abs() <= 1e-9 * exact.abs().max(1.0)
            })
        };
        prop_assert!(close(found.output, exact.output()));
        for (coupling, torques) in found.members.iter().enumerate() {
            for (member, &torque) in torques.iter().enumerate() {
                let exact = exact.member(coupling, member);
                prop_assert!(close(torque, exact), "{} {:?}", torque, exact);
            }
        }
        for (element, &torque) in found.elements.iter().enumerate() {
            let exact = exact.element(element);
            prop_assert!(close(torque, exact), "{} {:?}", torque, exact);
        }
        prop_assert!((found.efficiency - 1.0).abs() < 1e-9);
    }

    /// What does not come out is lost in a mesh or in the drag of something open.
    #[test]
    fn losses_add_up(
        case in driving(),
        mesh in 0.9..1.0,
        drag in prop_oneof![Just(0.0), 0.0..0.01],
        coasting in any::<bool>(),
    ) {
        let train = case.sketch.train();
        let combination = train.solve(case.applied());
        let model = LossModel { mesh_efficiency: mesh, drag, coasting };
        let Some(found) = lossy(&combination, model) else { return Ok(()) };
        let scale = largest(&found);
        let meshes: Vec<f64> = found.mesh_losses.all().to_vec();
        let lost: f64 = meshes.iter().chain(&found.drag_losses).sum();
        let rest = 1.0 - found.efficiency - lost;
        prop_assert!(rest.abs() <= CLOSE * scale, "{} over of {:?}", rest, found);
        prop_assert!(found.efficiency <= 1.0 + CLOSE * scale, "{:?}", found);
        let least = meshes.iter().chain(&found.drag_losses).copied().fold(0.0, f64::min);
        prop_assert!(least >= -CLOSE * scale, "a loss below zero: {:?}", found);
        for torques in found.members.iter() {
            let sum: f64 = torques.iter().sum();
            prop_assert!(sum.abs() <= CLOSE * scale, "{:?}", found);
        }
    }
}

/// What carries nothing changes nothing: a clutch between shafts that nothing else touches.
#[test]
fn an_idle_clutch_between_floating_shafts_is_as_good_as_open() {
    let bare = Sketch::new("s6", "s1")
        .pair("g", false, ("s2", 57), ("s1", 52))
        .planetary("set", ("s6", 65), ("s1", 78), "s2", 7);
    let clutched = bare.clone().clutch("C", "s5", "s3");
    let solve = |sketch: &Sketch, bits| {
        let train = sketch.train();
        lossy(
            &train.solve(ElementSet::from_bits(bits)),
            LossModel::default(),
        )
    };
    let (expected, found) = (solve(&bare, 0), solve(&clutched, 1));
    let Some((expected, found)) = expected.zip(found) else {
        panic!("it does not drive");
    };
    assert_eq!(found.efficiency, expected.efficiency);
    assert_eq!(found.members, expected.members);
    assert_eq!(found.elements, [0.0]);
    assert!(found.efficiency < 1.0);
}

/// With as many teeth on sun and ring of a set with two pinion rows its carrier may float: the
/// set passes the torque on, and as any loss in it would only turn the carrier, it loses nothing.
/// What is left are the two external meshes behind it, 0.99 each.
#[test]
fn a_carrier_that_nothing_holds_is_carried_along() {
    let sketch = Sketch::new("s0", "s2")
        .double_pinion("set", ("s0", 35), ("s3", 35), "carrier", (10, 10))
        .pair("g1", false, ("s3", 64), ("s4", 49))
        .pair("g2", false, ("s2", 52), ("s4", 89));
    let found = lossy(
        &sketch.train().solve(ElementSet::NONE),
        LossModel::default(),
    );
    let Some(found) = found else {
        panic!("it does not drive");
    };
    assert!((found.efficiency - 0.99 * 0.99).abs() < 1e-12, "{found:?}");
    let set = [1.0, 0.0, -1.0];
    let close = found.members[0]
        .iter()
        .zip(set)
        .all(|(a, b)| (a - b).abs() < 1e-12);
    assert!(close, "{found:?}");

    // Held, the same carrier takes what the three meshes of its set lose.
    let held = sketch.brake("B", "carrier").train();
    let found = lossy(&held.solve(ElementSet::from_bits(1)), LossModel::default());
    let efficiency = found.map(|found| found.efficiency);
    let expected = 0.99_f64.powi(5);
    assert!(
        efficiency.is_some_and(|x| (x - expected).abs() < 1e-12),
        "{efficiency:?}"
    );
}

/// Guards the properties: of the trains drawn, most can be solved with losses, and some lock.
#[test]
fn the_trains_drawn_drive_with_losses() {
    use proptest::strategy::ValueTree as _;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::new(settings(200));
    let (mut drives, mut lossy) = (0, 0);
    for _ in 0..200 {
        let Ok(tree) = driving().new_tree(&mut runner) else {
            continue;
        };
        let case = tree.current();
        let train = case.sketch.train();
        drives += 1;
        let found = Lossy::of(&train.solve(case.applied()), &LossModel::default());
        if let Some(Lossy::Drives(torques)) = found {
            lossy += usize::from(torques.efficiency < 0.999);
        }
    }
    assert!(
        drives >= 150 && lossy >= 50,
        "{drives} drive, {lossy} of them with losses"
    );
}
