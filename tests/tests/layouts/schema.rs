//! The schema of task files and the reader refuse the same, as far as a schema can tell.

use anyhow::{Context, Result, anyhow, ensure};
use jsonschema::Validator;
use levertrain_core::layouts::{LayoutAsk, LayoutSearch};
use levertrain_tests::files::scenario_folder;
use serde_json::{Value, json};

fn validator() -> Result<Validator> {
    let path = scenario_folder().join("searches/layouts-schema.json");
    let tasks: Value = serde_json::from_str(&std::fs::read_to_string(path)?)?;
    jsonschema::meta::validate(&tasks).map_err(|error| anyhow!("it is no schema: {error}"))?;
    jsonschema::validator_for(&tasks).map_err(|error| anyhow!("it is no schema: {error}"))
}

/// A task with one of everything.
fn good() -> Value {
    json!({"format": 1, "layouts": {
        "sets": ["planetary", "double-pinion"],
        "applied": 2,
        "elements": 4,
        "clutches": 3,
        "brakes": 3,
        "forward": [{"ratio": 2.8, "tolerance": 0.03}, {"ratio": 1.5}, {}],
        "backward": {"ratio": -2.2, "tolerance": 0.03},
        "spread": {"value": 2.8, "tolerance": 0.4},
        "step": [1.1, 2.5],
        "single_swaps": true,
        "direct": true,
        "teeth": [20, 60],
        "pinion_teeth": [12, 40],
        "pinions": [3, 4],
        "rules": ["coaxial", "equal-spacing", "neighbours-clear", "fewest-teeth"],
        "limits": {"pinion_speed": 4, "open_speed": 6, "efficiency": 0.8},
    }})
}

/// Whether it can be read, and looked for.
fn is_read(text: &str) -> bool {
    LayoutAsk::parse_task(text).is_ok_and(|ask| LayoutSearch::new(&ask).is_ok())
}

#[test]
fn the_good_one_and_that_beside_the_schema_are_good() -> Result<()> {
    let validator = validator()?;
    let path = scenario_folder().join("searches/02-two-sets.json");
    for text in [good().to_string(), std::fs::read_to_string(path)?] {
        let task = serde_json::from_str(&text)?;
        let errors: Vec<String> = validator
            .iter_errors(&task)
            .map(|error| error.to_string())
            .collect();
        ensure!(errors.is_empty(), "{text}: {errors:?}");
        ensure!(is_read(&text), "{text} cannot be asked");
    }
    Ok(())
}

/// What a row does to the good task, and who refuses it then.
enum Verdict {
    Good,
    Bad,
    /// A schema cannot tell.
    BeyondSchema,
}

#[test]
fn reader_and_schema_agree() -> Result<()> {
    use Verdict::{Bad, BeyondSchema, Good};
    let rows = [
        ("/format", json!(2), Bad),
        ("/layouts", json!([]), Bad),
        ("/layouts/sets", json!([]), Bad),
        ("/layouts/sets", json!(vec!["planetary"; 5]), Bad),
        ("/layouts/sets/0", json!("gear-pair"), Bad),
        ("/layouts/sets/0", json!("cone"), Bad),
        ("/layouts/sets/0", json!("ravigneaux"), Good),
        ("/layouts/sets/0", json!("stepped"), Good),
        ("/layouts/sets/0", json!("stepped-suns"), Good),
        (
            "/layouts/sets",
            json!(["ravigneaux", "ravigneaux", "ravigneaux", "planetary"]),
            BeyondSchema,
        ),
        ("/layouts/applied", json!(0), Bad),
        ("/layouts/applied", json!(5), Bad),
        ("/layouts/applied", json!(1.5), Bad),
        ("/layouts/elements", json!(0), Bad),
        ("/layouts/elements", json!(7), Bad),
        ("/layouts/elements", json!(3), BeyondSchema),
        ("/layouts/clutches", json!(-1), Bad),
        ("/layouts/clutches", json!(0), BeyondSchema),
        ("/layouts/brakes", json!("2"), Bad),
        ("/layouts/forward", json!([]), Bad),
        ("/layouts/forward", json!(vec![json!({}); 13]), Bad),
        ("/layouts/forward/0/ratio", json!(-2), Bad),
        ("/layouts/forward/0/ratio", json!(1001), Bad),
        ("/layouts/forward/0/ratio", json!(1.2), BeyondSchema),
        ("/layouts/forward/0/tolerance", json!(0.6), Bad),
        ("/layouts/forward/2", json!({"range": "3"}), Bad),
        ("/layouts/backward/ratio", json!(2), Bad),
        ("/layouts/backward", json!({}), Good),
        ("/layouts/spread", json!({"value": 3}), Bad),
        ("/layouts/spread/value", json!(0.5), Bad),
        ("/layouts/spread/value", json!(30), BeyondSchema),
        ("/layouts/step", json!([1.1]), Bad),
        ("/layouts/step/0", json!(0.9), Bad),
        ("/layouts/step/1", json!(1.05), BeyondSchema),
        ("/layouts/single_swaps", json!("yes"), Bad),
        ("/layouts/direct", json!(false), Good),
        ("/layouts/direct", json!("any"), Bad),
        ("/layouts/teeth", json!([20]), Bad),
        ("/layouts/teeth", json!([5, 60]), Bad),
        ("/layouts/teeth", json!([60, 20]), BeyondSchema),
        ("/layouts/pinion_teeth", json!([12, 301]), Bad),
        ("/layouts/pinions", json!([]), Bad),
        ("/layouts/pinions", json!([13]), Bad),
        ("/layouts/rules/0", json!("strong"), Bad),
        ("/layouts/rules", json!([]), Good),
        ("/layouts/limits/efficiency", json!(1.5), Bad),
        ("/layouts/limits", json!({"noise": 1}), Bad),
    ];
    let validator = validator()?;
    let mut wrong = Vec::new();
    for (place, value, verdict) in rows {
        let mut task = good();
        *task.pointer_mut(place).context(place)? = value.clone();
        let actual = (is_read(&task.to_string()), validator.is_valid(&task));
        let expected = match verdict {
            Good => (true, true),
            Bad => (false, false),
            BeyondSchema => (false, true),
        };
        if actual != expected {
            wrong.push(format!(
                "{place} as {value}: (reader, schema) accept {actual:?}, expected {expected:?}"
            ));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}
