//! What holds whatever the train: powers add up to nothing, and a train that nothing holds can turn as one.

use levertrain_core::sources::{Ports, Speeds};
use levertrain_core::{Fraction, Train};
use levertrain_tests::generate::{AFLOAT, ANY, Case, LARGE, case, settings};
use proptest::prelude::*;
use serde_json::json;

use super::{dot, power_sum};

/// The train with two further sources and an output more, on shafts that it has.
fn branched(case: &Case) -> Result<(Train, Ports), TestCaseError> {
    let sketch = &case.sketch;
    let mut scenario = sketch.to_json();
    let shafts = &sketch.shafts;
    let outputs: Vec<&String> = shafts
        .iter()
        .filter(|&id| *id != sketch.input && *id != sketch.output)
        .take(1)
        .collect();
    scenario["sources"] = json!({
        "further": [{"shaft": shafts[shafts.len() / 2]}, {"shaft": shafts[shafts.len() - 1]}],
        "outputs": outputs,
    });
    let train = Train::parse(&scenario.to_string());
    let train = train.map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
    let (ports, problems) = Ports::of(&train);
    prop_assert!(problems.is_empty(), "{problems:?}");
    Ok((train, ports))
}

proptest! {
    #![proptest_config(settings(400))]

    #[test]
    fn powers_add_up_to_nothing(case in prop_oneof![3 => case(ANY), 1 => case(LARGE)]) {
        let (train, ports) = branched(&case)?;
        let sum = power_sum(&train, case.applied(), &ports);
        let sum = sum.map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert!(sum.is_zero(), "{sum}");
    }

    #[test]
    fn what_nothing_holds_can_turn_as_one(case in case(AFLOAT)) {
        let (train, _) = branched(&case)?;
        let shafts: Vec<usize> = (0..train.scenario().shafts.len()).collect();
        let speeds = Speeds::of(&train, case.applied(), &shafts);
        let ones = vec![Fraction::ONE; speeds.given().len()];
        for shaft in shafts {
            let own = speeds.shaft(shaft).map(|own| dot(own, &ones));
            prop_assert_eq!(own, Some(Fraction::ONE));
        }
    }
}
