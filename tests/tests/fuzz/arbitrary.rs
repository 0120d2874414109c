//! Texts that have nothing to do with gear trains.

use levertrain_tests::generate::settings;
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::verdict::judge;

fn refused(text: &str) -> Result<(), TestCaseError> {
    let train = judge(text).map_err(TestCaseError::fail)?;
    prop_assert!(train.is_none(), "accepted {}", text);
    Ok(())
}

/// Any JSON value, with words of the format among its keys.
fn json_value() -> impl Strategy<Value = Value> {
    let word = prop::sample::select(vec![
        "format",
        "name",
        "about",
        "housing_label",
        "input",
        "output",
        "shafts",
        "couplings",
        "elements",
        "ranges",
        "id",
        "label",
        "kind",
        "sun",
        "ring",
        "carrier",
        "teeth",
        "housing",
        "",
    ]);
    let word = word.prop_map(str::to_owned);
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(|x| json!(x)),
        ".{0,40}".prop_map(Value::from),
        word.clone().prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 64, 8, move |inner| {
        prop_oneof![
            vec(inner.clone(), 0..8).prop_map(Value::from),
            vec((word.clone(), inner), 0..8)
                .prop_map(|fields| Value::Object(fields.into_iter().collect())),
        ]
    })
}

proptest! {
    #![proptest_config(settings(300))]

    #[test]
    fn bytes(bytes in vec(any::<u8>(), 0..2000)) {
        refused(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn texts(text in "\\PC{0,400}") {
        refused(&text)?;
    }

    #[test]
    fn json_punctuation(text in "[\\[\\]{}:,\"0-9a-z\\\\ .eE+-]{0,300}") {
        refused(&text)?;
    }

    #[test]
    fn json(value in json_value()) {
        refused(&value.to_string())?;
    }

    /// The right outline with anything in its fields.
    #[test]
    fn json_in_the_right_places(
        field in prop::sample::select(vec![
            "/format", "/name", "/about", "/housing_label", "/input", "/output", "/shafts", "/shafts/0",
            "/shafts/0/id", "/couplings", "/couplings/0", "/couplings/0/kind",
            "/couplings/0/sun", "/couplings/0/sun/teeth", "/couplings/0/pinion/count",
            "/elements", "/elements/0", "/elements/0/kind", "/elements/0/shaft",
            "/elements/0/friction", "/elements/0/friction/clamp_force", "/ranges",
            "/ranges/0", "/ranges/0/applied", "/ranges/0/applied/0",
        ]),
        value in json_value(),
    ) {
        let mut scenario = crate::sample::good();
        let place = scenario.pointer_mut(field);
        prop_assert!(place.is_some(), "{}", field);
        if let Some(place) = place {
            *place = value;
        }
        // Some of these are right by chance; what matters is that none does harm.
        judge(&scenario.to_string()).map_err(TestCaseError::fail)?;
    }
}
