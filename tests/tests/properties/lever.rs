//! At any moment the bodies on a lever lie on one line over their places.

use levertrain_core::{Body, Combination, Fraction, Lever, TrainLever};
use levertrain_tests::generate::{ANY, case, settings};
use levertrain_tests::rational::{Rational, one, rational, zero};
use proptest::prelude::*;

/// Checks that the places span 0 to 1 and that decided speeds are linear over them.
fn check_line(
    answer: &Combination<'_>,
    bodies: &[Body],
    places: &[Fraction],
) -> Result<(), TestCaseError> {
    prop_assert_eq!(bodies.len(), places.len());
    let places: Vec<Rational> = places.iter().map(rational).collect();
    prop_assert_eq!(places.iter().min(), Some(&zero()));
    prop_assert_eq!(places.iter().max(), Some(&one()));
    let decided: Vec<(Rational, Rational)> = bodies
        .iter()
        .zip(places)
        .filter_map(|(&body, place)| Some((place, rational(&answer.body_speed(body)?))))
        .collect();
    for (first, second) in decided.iter().zip(decided.iter().skip(1)) {
        for third in &decided {
            let area = (&second.1 - &first.1) * (&third.0 - &first.0)
                - (&third.1 - &first.1) * (&second.0 - &first.0);
            prop_assert_eq!(area, zero(), "{:?}", decided);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn speeds_lie_on_the_lever_of_each_coupling(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        for (index, coupling) in train.scenario().couplings.iter().enumerate() {
            let Some(lever) = Lever::of(coupling) else {
                return Err(TestCaseError::fail(format!("no lever of {coupling:?}")));
            };
            check_line(&answer, train.members(index), &lever.places)?;
        }
    }

    #[test]
    fn speeds_lie_on_joined_levers(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        let levers = TrainLever::merged(&train);
        let mut couplings = Vec::new();
        for lever in &levers {
            couplings.extend_from_slice(&lever.couplings);
            let (bodies, places): (Vec<Body>, Vec<Fraction>) = lever
                .nodes
                .iter()
                .map(|node| (node.body, node.place.clone()))
                .unzip();
            check_line(&answer, &bodies, &places)?;
            prop_assert!(lever.nodes.is_sorted_by(|a, b| a.place <= b.place));

            // Every member stands at the node of its body, once.
            let mut members: Vec<(usize, usize)> = Vec::new();
            for node in &lever.nodes {
                for &(coupling, member) in &node.members {
                    prop_assert_eq!(train.members(coupling)[member], node.body);
                    members.push((coupling, member));
                }
            }
            members.sort_unstable();
            let of_coupling = |&coupling: &usize| {
                let members = 0..train.members(coupling).len();
                members.map(move |member| (coupling, member))
            };
            let expected: Vec<_> = lever.couplings.iter().flat_map(of_coupling).collect();
            prop_assert_eq!(members, expected);
        }
        couplings.sort_unstable();
        prop_assert_eq!(couplings, (0..case.sketch.couplings.len()).collect::<Vec<_>>());
    }
}
