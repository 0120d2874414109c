//! The schema of task files and the reader refuse the same, as far as a schema can tell.

use anyhow::{Context, Result, anyhow, ensure};
use jsonschema::Validator;
use levertrain_core::search::{Search, SearchTask};
use levertrain_tests::files::{scenario_folder, schema};
use serde_json::{Value, json};

/// The schema of tasks, with that of scenarios inside it.
fn validator() -> Result<Validator> {
    let path = scenario_folder().join("searches/schema.json");
    let mut tasks: Value = serde_json::from_str(&std::fs::read_to_string(path)?)?;
    tasks["$defs"]["scenario"] = serde_json::from_str(&schema()?.text)?;
    jsonschema::meta::validate(&tasks).map_err(|error| anyhow!("it is no schema: {error}"))?;
    jsonschema::validator_for(&tasks).map_err(|error| anyhow!("it is no schema: {error}"))
}

/// A task with one of everything.
fn good() -> Result<Value> {
    let path = scenario_folder().join("04-six-speed-three-sets.json");
    let train: Value = serde_json::from_str(&std::fs::read_to_string(path)?)?;
    Ok(json!({"format": 1, "train": train, "ask": {
        "wanted": [
            {"range": "1", "ratio": 2.8, "tolerance": 0.04},
            {"range": "2"},
            {"range": "6", "ratio": 0.5},
            {"range": "R", "ratio": -3},
        ],
        "spread": {"value": 5.6, "tolerance": 0.1},
        "steps": {"value": 1.1, "tolerance": 0.4},
        "teeth": [20, 80],
        "pinion_teeth": [12, 80],
        "pinions": [3, 4],
        "keep": ["p1"],
        "same_ring": [["p2", "p3"]],
        "rules": ["coaxial", "equal-spacing", "neighbours-clear", "fewest-teeth"],
        "limits": {"pinion_speed": 4, "open_speed": 6, "efficiency": 0.8},
        "best": ["error", "steps", "size", "efficiency", "pinion-speed"],
    }}))
}

/// Whether it can be read, and asked of its train.
fn is_read(text: &str) -> bool {
    SearchTask::parse(text).is_ok_and(|SearchTask { train, ask }| Search::new(&train, &ask).is_ok())
}

#[test]
fn the_good_one_and_those_beside_the_schema_are_good() -> Result<()> {
    let validator = validator()?;
    let mut tasks = vec![("all of it".to_owned(), good()?.to_string())];
    for entry in std::fs::read_dir(scenario_folder().join("searches"))? {
        let path = entry?.path();
        let text = std::fs::read_to_string(&path)?;
        // Schemas stand there, and tasks of the other search.
        if text.contains("\"train\":") && text.contains("\"ask\":") && !text.contains("$schema") {
            tasks.push((path.display().to_string(), text));
        }
    }
    ensure!(tasks.len() > 1, "no task stands beside the schema");
    for (name, text) in tasks {
        let errors: Vec<String> = validator
            .iter_errors(&serde_json::from_str(&text)?)
            .map(|error| error.to_string())
            .collect();
        ensure!(errors.is_empty(), "{name}: {errors:?}");
        ensure!(is_read(&text), "{name} cannot be asked");
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
        ("/format", json!(1.0), BeyondSchema),
        ("/format", json!(2), Bad),
        ("/train", json!({}), Bad),
        ("/train/name", json!(7), Bad),
        ("/ask", json!([]), Bad),
        ("/ask/wanted", json!([]), Bad),
        ("/ask/wanted/0", json!({"ratio": 3}), Bad),
        ("/ask/wanted/0/range", json!("9"), BeyondSchema),
        ("/ask/wanted/1/range", json!("1"), BeyondSchema),
        ("/ask/wanted/0/ratio", json!(0), Bad),
        ("/ask/wanted/0/ratio", json!(1001), Bad),
        ("/ask/wanted/0/ratio", json!("3"), Bad),
        ("/ask/wanted/0/ratio", json!(90), BeyondSchema),
        ("/ask/wanted/0/tolerance", json!(0.6), Bad),
        ("/ask/wanted/0/tolerance", json!(-0.1), Bad),
        ("/ask/spread/value", json!(0.5), Bad),
        ("/ask/spread", json!({"value": 3}), Bad),
        ("/ask/steps/value", json!(3), Bad),
        ("/ask/steps/tolerance", json!(1), Bad),
        ("/ask/teeth", json!([20]), Bad),
        ("/ask/teeth", json!([5, 80]), Bad),
        ("/ask/teeth", json!([20, 301]), Bad),
        ("/ask/teeth", json!([20.5, 80]), Bad),
        ("/ask/teeth", json!([80, 20]), BeyondSchema),
        ("/ask/pinion_teeth", json!([1, 20]), Bad),
        ("/ask/pinions", json!([]), Bad),
        ("/ask/pinions", json!([13]), Bad),
        ("/ask/pinions", json!([0]), Bad),
        ("/ask/keep/0", json!(1), Bad),
        ("/ask/keep/0", json!("p9"), BeyondSchema),
        ("/ask/same_ring", json!(["p2"]), Bad),
        ("/ask/rules", json!("coaxial"), Bad),
        (
            "/ask",
            json!({"wanted": [{"range": "1"}], "same_distance": ["p1"]}),
            Bad,
        ),
        (
            "/ask",
            json!({"wanted": [{"range": "1"}], "same_distance": [["p1"]]}),
            BeyondSchema,
        ),
        ("/ask/rules/0", json!("strong"), Bad),
        ("/ask/rules", json!([]), Good),
        ("/ask/limits/efficiency", json!(1.5), Bad),
        ("/ask/limits/pinion_speed", json!(-1), Bad),
        ("/ask/limits", json!({"noise": 1}), Bad),
        ("/ask/best", json!([]), Bad),
        ("/ask/best/0", json!("beauty"), Bad),
    ];
    let validator = validator()?;
    let mut wrong = Vec::new();
    for (place, value, verdict) in rows {
        let mut task = good()?;
        *task.pointer_mut(place).context(place)? = value.clone();
        let actual = (is_read(&task.to_string()), validator.is_valid(&task));
        let expected = match verdict {
            Verdict::Good => (true, true),
            Verdict::Bad => (false, false),
            Verdict::BeyondSchema => (false, true),
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
