//! Laws of torque, power and losses, on trains drawn at random.

use levertrain_core::{
    Body, Combination, Fraction, LossModel, Lossy, LossyTorques, PowerFlow, State, Torques, Train,
};
use levertrain_tests::generate::{ANY, Case, Kind, case, settings};
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
    values.fold(Fraction::ZERO, |sum, value| sum.plus(value))
}

/// All torques on one shaft, from outside, from the sets and from the elements.
fn on_shaft(train: &Train, torques: &Torques, shaft: usize) -> Option<Fraction> {
    let mut total = Fraction::ZERO;
    let mut add = |body: Body, torque: Option<&Fraction>, sign: i64| {
        if body == Body::Shaft(shaft) {
            total = total.plus(&torque?.times(&Fraction::from(sign)));
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
    let members = torques.members.iter().flatten();
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
        let delivered = output.map(|(torque, speed)| torque.times(&speed));
        prop_assert_eq!(delivered, Fraction::new(-1, 1));
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
            // An applied element between shafts that float carries nothing, which the lossy
            // solver does not say yet.
            let idle = combination.applied().iter().any(|element| {
                let mut ends = train.ends(element).into_iter();
                ends.any(|body| combination.body_speed(body).is_none())
            });
            // With S = R in two pinion rows the carrier may float while the set carries torque:
            // how fast the pinions roll, and so their loss, is unknown.
            let unknown_rolling = (0..train.scenario().couplings.len()).any(|coupling| {
                let bodies = train.members(coupling).iter();
                let floats = bodies.into_iter().any(|&body| combination.body_speed(body).is_none());
                let torques = members(&train, &exact, coupling);
                floats && torques.is_none_or(|all| all.iter().any(|torque| !torque.is_zero()))
            });
            let excused = idle || unknown_rolling || !exact.is_determinate();
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
        let meshes: Vec<f64> = found.mesh_losses.iter().flatten().copied().collect();
        let lost: f64 = meshes.iter().chain(&found.drag_losses).sum();
        let rest = 1.0 - found.efficiency - lost;
        prop_assert!(rest.abs() <= CLOSE * scale, "{} over of {:?}", rest, found);
        prop_assert!(found.efficiency <= 1.0 + CLOSE * scale, "{:?}", found);
        let least = meshes.iter().chain(&found.drag_losses).copied().fold(0.0, f64::min);
        prop_assert!(least >= -CLOSE * scale, "a loss below zero: {:?}", found);
        for torques in &found.members {
            let sum: f64 = torques.iter().sum();
            prop_assert!(sum.abs() <= CLOSE * scale, "{:?}", found);
        }
    }
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
