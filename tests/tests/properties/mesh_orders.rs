//! How often teeth meet is how fast the pinions between turn.

use levertrain_core::State;
use levertrain_tests::gearing::Gearing;
use levertrain_tests::generate::{ANY, Case, case, settings};
use levertrain_tests::laws::pinion_spins;
use levertrain_tests::rational::{Rational, rational, zero};
use num_bigint::BigInt;
use proptest::prelude::*;

use crate::solution::speeds;

/// Each mesh meets as often as the teeth of a pinion in it pass, found from either side; and per
/// output turn as much more often as the output is slower.
fn check_meshes(case: &Case) -> Result<(), TestCaseError> {
    let train = case.sketch.train();
    let combination = train.solve(case.applied());
    prop_assume!(*combination.state() != State::TiedUp);
    let speeds = speeds(&combination);
    for (index, coupling) in case.sketch.couplings.iter().enumerate() {
        let orders = combination.mesh_orders(index);
        let spins = pinion_spins(&coupling.gearing, &speeds);
        let expected = pinions_of_meshes(&coupling.gearing);
        prop_assert_eq!(orders.len(), expected.len().max(1));
        for (order, (pinion, teeth)) in orders.iter().zip(expected) {
            for side in spins[pinion].iter().flatten() {
                let passing = magnitude(side * BigInt::from(teeth));
                let actual = order.per_input.as_ref().map(rational);
                prop_assert_eq!(actual, Some(passing), "{:?} of {}", order, &coupling.id);
            }
        }
        for order in &orders {
            let pair = order.per_input.as_ref().zip(order.per_output.as_ref());
            if let Some((per_input, per_output)) = pair {
                let ratio = combination.state().ratio().map(rational).map(magnitude);
                let expected = ratio.map(|ratio| ratio * rational(per_input));
                prop_assert_eq!(Some(rational(per_output)), expected);
            }
        }
    }
    Ok(())
}

fn magnitude(value: Rational) -> Rational {
    if value < zero() { -value } else { value }
}

/// For each mesh of a coupling a pinion in it: its place among the pinions, and its teeth.
fn pinions_of_meshes(gearing: &Gearing) -> Vec<(usize, u32)> {
    match *gearing {
        Gearing::Planetary { pinion, .. } => vec![(0, pinion), (0, pinion)],
        Gearing::DoublePinion { inner, outer, .. } => vec![(0, inner), (1, outer), (1, outer)],
        Gearing::Stepped {
            sun_pinion,
            ring_pinion,
            ..
        } => vec![(0, sun_pinion), (0, ring_pinion)],
        Gearing::SteppedSuns {
            pinions: [p, q], ..
        } => vec![(0, p), (0, q)],
        Gearing::Ravigneaux { short, long, .. } => {
            vec![(0, short), (1, long), (1, long), (1, long)]
        }
        Gearing::Pair { .. } => Vec::new(),
    }
}

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn teeth_pass_on_pinions_as_on_members(case in case(ANY)) {
        check_meshes(&case)?;
    }
}
