//! What is named as fighting does fight, and nothing less does.

use levertrain_core::State;
use levertrain_tests::generate::{ANY, Case, Kind, case, settings};
use levertrain_tests::laws::Laws;
use proptest::prelude::*;

/// Whether these elements and couplings, by index, keep the input from turning.
fn ties_up(case: &Case, elements: &[usize], couplings: &[usize]) -> bool {
    let sketch = &case.sketch;
    let held = Laws::of(sketch).hold(
        |coupling| {
            couplings
                .iter()
                .any(|&x| sketch.couplings[x].id == coupling.id)
        },
        |element| {
            elements
                .iter()
                .any(|&x| sketch.elements[x].id == element.id)
        },
    );
    held.implies(Laws::of(sketch).speed(&sketch.input))
}

fn without(items: &[usize], item: usize) -> Vec<usize> {
    items
        .iter()
        .copied()
        .filter(|&other| other != item)
        .collect()
}

proptest! {
    #![proptest_config(settings(400))]

    #[test]
    fn a_fight_is_real_and_smallest(case in case(Kind { couplings: 4, ..ANY })) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        let Some(fight) = answer.fight() else {
            prop_assert_ne!(answer.state(), &State::TiedUp);
            return Ok(());
        };
        prop_assert_eq!(answer.state(), &State::TiedUp);
        let elements: Vec<usize> = fight.elements.iter().collect();
        let couplings = fight.couplings.clone();
        prop_assert!(elements.iter().all(|&element| case.applied[element]));
        prop_assert!(ties_up(&case, &elements, &couplings), "it must be enough: {:?}", fight);
        for &element in &elements {
            let fewer = without(&elements, element);
            prop_assert!(!ties_up(&case, &fewer, &couplings), "{:?} less {}", fight, element);
        }
        for &coupling in &couplings {
            let fewer = without(&couplings, coupling);
            prop_assert!(!ties_up(&case, &elements, &fewer), "{:?} less {}", fight, coupling);
        }
    }

    #[test]
    fn no_fewer_applied_elements_tie_up(case in case(Kind { couplings: 4, elements: 9, ..ANY })) {
        let train = case.sketch.train();
        let Some(fight) = train.solve(case.applied()).fight() else {
            return Ok(());
        };
        let all: Vec<usize> = (0..case.sketch.couplings.len()).collect();
        let applied: Vec<usize> = case.applied().iter().collect();
        for bits in 0..1_u32 << applied.len() {
            if (bits.count_ones() as usize) < fight.elements.len() {
                let picked = applied.iter().enumerate();
                let picked = picked.filter(|(place, _)| bits >> place & 1 == 1);
                let picked: Vec<usize> = picked.map(|(_, &element)| element).collect();
                prop_assert!(!ties_up(&case, &picked, &all), "{:?} beats {:?}", picked, fight);
            }
        }
    }
}
