//! At any moment the members of a coupling lie on one line over their places on the lever.

use levertrain_core::Lever;
use levertrain_tests::generate::{ANY, case, settings};
use levertrain_tests::rational::{Rational, one, rational, zero};
use proptest::prelude::*;

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn speeds_lie_on_the_lever(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        for (index, coupling) in train.scenario().couplings.iter().enumerate() {
            let Some(lever) = Lever::of(coupling) else {
                return Err(TestCaseError::fail(format!("no lever of {coupling:?}")));
            };
            let places: Vec<Rational> = lever.places.iter().map(rational).collect();
            prop_assert_eq!(places.iter().min(), Some(&zero()));
            prop_assert_eq!(places.iter().max(), Some(&one()));
            let bodies = train.members(index);
            prop_assert_eq!(bodies.len(), 3);
            let speeds: Option<Vec<Rational>> = bodies
                .iter()
                .map(|&body| answer.body_speed(body).as_ref().map(rational))
                .collect();
            if let Some(w) = speeds {
                let area = (&w[1] - &w[0]) * (&places[2] - &places[0])
                    - (&w[2] - &w[0]) * (&places[1] - &places[0]);
                prop_assert_eq!(area, zero(), "{:?} over {:?}", w, places);
            }
        }
    }
}
