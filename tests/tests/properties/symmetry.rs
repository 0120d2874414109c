//! What cannot change an answer, and what changes it in a known way.

use levertrain_core::State;
use levertrain_core::report::CombinationReport;
use levertrain_tests::generate::{AFLOAT, ANY, Case, Kind, case, ordered, settings};
use levertrain_tests::rational::{one, rational};
use levertrain_tests::sketch::HOUSING;
use proptest::prelude::*;

/// A case and an order for each of its lists: `order[new] = old`.
#[derive(Debug)]
struct Reordered {
    case: Case,
    shafts: Vec<usize>,
    couplings: Vec<usize>,
    elements: Vec<usize>,
}

fn reordered() -> impl Strategy<Value = Reordered> {
    case(ANY).prop_flat_map(|case| {
        let order = |count: usize| ordered(&(0..count).collect::<Vec<_>>());
        let sketch = &case.sketch;
        let orders = (
            order(sketch.shafts.len()),
            order(sketch.couplings.len()),
            order(sketch.elements.len()),
        );
        (Just(case), orders).prop_map(|(case, (shafts, couplings, elements))| Reordered {
            case,
            shafts,
            couplings,
            elements,
        })
    })
}

impl Reordered {
    /// The same train with other ids, everything in the new order, clutches turned round.
    fn twin(&self) -> Case {
        let old = &self.case.sketch;
        let renamed = |id: &str| {
            if id == HOUSING {
                HOUSING.to_owned()
            } else {
                format!("{id}-z")
            }
        };
        let mut new = old.clone();
        new.input = renamed(&old.input);
        new.output = renamed(&old.output);
        new.shafts = self
            .shafts
            .iter()
            .map(|&x| renamed(&old.shafts[x]))
            .collect();
        new.couplings = self
            .couplings
            .iter()
            .map(|&x| old.couplings[x].clone())
            .collect();
        for coupling in &mut new.couplings {
            coupling.id = renamed(&coupling.id);
            for shaft in coupling.gearing.shafts_mut() {
                *shaft = renamed(shaft);
            }
        }
        new.elements = self
            .elements
            .iter()
            .map(|&x| old.elements[x].clone())
            .collect();
        for element in &mut new.elements {
            element.id = renamed(&element.id);
            element.ends = element.ends.each_ref().map(|end| renamed(end));
            if !element.is_brake() {
                element.ends.reverse();
            }
        }
        Case {
            sketch: new,
            applied: self
                .elements
                .iter()
                .map(|&x| self.case.applied[x])
                .collect(),
        }
    }
}

fn report(case: &Case) -> CombinationReport {
    (&case.sketch.train().solve(case.applied())).into()
}

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn names_and_order_mean_nothing(reordered in reordered()) {
        let (old, new) = (&reordered.case, reordered.twin());
        let (old_train, new_train) = (old.sketch.train(), new.sketch.train());
        let old_answer = old_train.solve(old.applied());
        let new_answer = new_train.solve(new.applied());
        prop_assert_eq!(old_answer.state(), new_answer.state());
        prop_assert_eq!(old_answer.surplus(), new_answer.surplus());
        prop_assert_eq!(old_answer.degrees_of_freedom(), new_answer.degrees_of_freedom());
        for (new_index, &old_index) in reordered.shafts.iter().enumerate() {
            let speeds = (old_answer.shaft_speed(old_index), new_answer.shaft_speed(new_index));
            prop_assert_eq!(&speeds.0, &speeds.1);
        }
        for (new_index, &old_index) in reordered.elements.iter().enumerate() {
            let old_slip = old_answer.slip(old_index).as_ref().map(rational);
            let new_slip = new_answer.slip(new_index).as_ref().map(rational);
            let brake = old.sketch.elements[old_index].is_brake();
            // A clutch turned round slips the other way.
            let expected = if brake { old_slip } else { old_slip.map(|slip| -slip) };
            prop_assert_eq!(new_slip, expected);
            let releasable = old_answer.releasable().contains(old_index);
            prop_assert_eq!(new_answer.releasable().contains(new_index), releasable);
        }
        for (new_index, &old_index) in reordered.couplings.iter().enumerate() {
            let pinions = old_train.scenario().couplings[old_index].facts().pinions();
            for pinion in &pinions {
                let old_spin = old_answer.pinion_spin(old_index, pinion);
                prop_assert_eq!(old_spin, new_answer.pinion_spin(new_index, pinion));
            }
        }
        // Which of several smallest fights is named may depend on the order; its size may not.
        let size = |fight: Option<levertrain_core::Fight>| fight.map(|x| x.elements.len());
        prop_assert_eq!(size(old_answer.fight()), size(new_answer.fight()));
    }

    /// Speeds are linear in the input's: seen from any other shaft that turns with the input,
    /// all of them are divided by that shaft's.
    #[test]
    fn another_input_scales_all_speeds(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        prop_assume!(*answer.state() != State::TiedUp);
        for (index, shaft) in case.sketch.shafts.iter().enumerate() {
            let unit = match answer.shaft_speed(index) {
                Some(speed) if !speed.is_zero() && *shaft != case.sketch.output => rational(&speed),
                _ => continue,
            };
            let mut other = case.clone();
            other.sketch.input.clone_from(shaft);
            let other_train = other.sketch.train();
            let other_answer = other_train.solve(other.applied());
            for (index, id) in case.sketch.shafts.iter().enumerate() {
                let expected = answer.shaft_speed(index).map(|x| rational(&x) / &unit);
                let actual = other_answer.shaft_speed(index).as_ref().map(rational);
                prop_assert_eq!(actual, expected, "{} seen from {}", id, shaft);
            }
        }
    }

    #[test]
    fn input_and_output_swapped_invert_the_ratio(case in case(ANY)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        let mut swapped = case.clone();
        std::mem::swap(&mut swapped.sketch.input, &mut swapped.sketch.output);
        let swapped_train = swapped.sketch.train();
        let swapped_answer = swapped_train.solve(swapped.applied());
        let inverse = |state: &State| match state {
            State::Driving(ratio) => ratio.recip().map(State::Driving),
            State::OverApplied(ratio) => ratio.recip().map(State::OverApplied),
            _ => None,
        };
        if let Some(expected) = inverse(answer.state()) {
            prop_assert_eq!(swapped_answer.state(), &expected);
        } else {
            prop_assert_eq!(inverse(swapped_answer.state()), None, "{:?}", answer.state());
        }
    }

    /// Where nothing touches the housing the whole train can turn as one piece, so no speed that
    /// is decided can be anything else.
    #[test]
    fn a_train_afloat_turns_as_one_piece(case in case(AFLOAT)) {
        let train = case.sketch.train();
        let answer = train.solve(case.applied());
        prop_assert!(answer.degrees_of_freedom() >= 1);
        for (index, shaft) in case.sketch.shafts.iter().enumerate() {
            if let Some(speed) = answer.shaft_speed(index) {
                prop_assert_eq!(rational(&speed), one(), "{}", shaft);
            }
        }
        let key = answer.state().key();
        prop_assert!(["driving", "over-applied", "neutral"].contains(&key), "{}", key);
    }

    #[test]
    fn teeth_all_scaled_change_nothing(
        case in case(Kind { teeth: 300, ..ANY }),
        factors in prop::collection::vec(1..=3_u32, ANY.couplings),
    ) {
        let mut scaled = case.clone();
        for (coupling, factor) in scaled.sketch.couplings.iter_mut().zip(factors) {
            for teeth in coupling.gearing.teeth_mut() {
                *teeth *= factor;
            }
        }
        prop_assert_eq!(report(&case), report(&scaled));
        let (train, scaled_train) = (case.sketch.train(), scaled.sketch.train());
        let answer = train.solve(case.applied());
        let scaled_answer = scaled_train.solve(case.applied());
        for index in 0..case.sketch.couplings.len() {
            let pinions = train.scenario().couplings[index].facts().pinions();
            let scaled_pinions = scaled_train.scenario().couplings[index].facts().pinions();
            for (pinion, scaled_pinion) in pinions.iter().zip(&scaled_pinions) {
                let spin = answer.pinion_spin(index, pinion);
                prop_assert_eq!(spin, scaled_answer.pinion_spin(index, scaled_pinion));
            }
        }
    }
}
