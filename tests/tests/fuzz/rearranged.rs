//! Valid files whose values have changed places: still JSON, with every field there, so that many
//! of them are gear trains nobody drew and the rest are wrong in ways only the reader sees.

use std::cell::Cell;

use levertrain_tests::generate::{ANY, settings, sketch};
use levertrain_tests::schema::Schema;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::TestRunner;
use serde_json::Value;

use crate::mutated::mutated;
use crate::verdict::judge;

/// The places of all values that hold no others.
fn leaves(value: &Value, place: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                leaves(value, &format!("{place}/{name}"), found);
            }
        }
        Value::Array(items) => {
            for (index, value) in items.iter().enumerate() {
                leaves(value, &format!("{place}/{index}"), found);
            }
        }
        _ => found.push(place.to_owned()),
    }
}

/// Puts a value of the same type in place of another, or another number in place of a number.
fn rearrange(scenario: &mut Value, at: Index, from: Index, number: u32) {
    let mut places = Vec::new();
    leaves(scenario, "", &mut places);
    let place = at.get(&places).clone();
    let Some(old) = scenario.pointer(&place).cloned() else {
        return;
    };
    let alike: Vec<Value> = places
        .iter()
        .filter_map(|place| scenario.pointer(place))
        .filter(|value| value.is_string())
        .cloned()
        .collect();
    let new = match old {
        Value::Number(_) => number.into(),
        _ => from.get(&alike).clone(),
    };
    if let Some(value) = scenario.pointer_mut(&place) {
        *value = new;
    }
}

fn rearranged() -> impl Strategy<Value = String> {
    let base = prop_oneof![
        Just(crate::sample::good()),
        sketch(ANY).prop_map(|sketch| sketch.to_json()),
    ];
    let changes = vec((any::<Index>(), any::<Index>(), 0..1100_u32), 1..3);
    (base, changes).prop_map(|(mut scenario, changes)| {
        for (at, from, number) in changes {
            rearrange(&mut scenario, at, from, number);
        }
        scenario.to_string()
    })
}

/// Whatever the reader accepts the schema accepts: authors who check their files with the schema
/// are never told off for what works.
#[test]
fn the_schema_accepts_what_the_reader_accepts() -> anyhow::Result<()> {
    let schema = Schema::read()?;
    let (accepted, refused) = (Cell::new(0), Cell::new(0));
    let texts = prop_oneof![mutated(), rearranged()];
    let outcome = TestRunner::new(settings(1500)).run(&texts, |text| {
        if let Ok(Some(_)) = judge(&text) {
            accepted.set(accepted.get() + 1);
            prop_assert!(schema.accepts(&text), "the schema refuses {}", text);
        } else {
            refused.set(refused.get() + 1);
        }
        Ok(())
    });
    outcome?;
    // Guards the comparison: it must have met both.
    let (accepted, refused) = (accepted.get(), refused.get());
    anyhow::ensure!(
        accepted >= 50 && refused >= 50,
        "{accepted} accepted, {refused} refused"
    );
    Ok(())
}

proptest! {
    #![proptest_config(settings(500))]

    #[test]
    fn rearranged_files_are_read_or_refused_well(text in rearranged()) {
        judge(&text).map_err(TestCaseError::fail)?;
    }
}
