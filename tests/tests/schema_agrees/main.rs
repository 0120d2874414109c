//! The schema and the reader refuse the same files, as far as a schema can tell.

mod rows;

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_core::sources::Ports;
use levertrain_core::transient::Dynamics;
use levertrain_tests::schema::Schema;
use levertrain_tests::sketch::Sketch;
use serde_json::{Value, json};

/// A scenario with one of everything.
fn good() -> Value {
    let sketch = Sketch::new("in", "out")
        .planetary("p1", ("in", 30), ("r1", 78), "out", 24)
        .double_pinion("p2", ("in", 30), ("r2", 74), "housing", (20, 20))
        .pair("g1", false, ("out", 31), ("end", 67))
        .stepped("p3", ("in", 30), ("r2", 84), "housing", (20, 34))
        .stepped_suns("p5", [("in", 30), ("r2", 24)], "out", [20, 26])
        .ravigneaux("p4", [("in", 24), ("r1", 33)], ("r2", 69), "out", (20, 18))
        .brake("A", "r1")
        .clutch("C", "in", "r2")
        .range("1", &["A"])
        .range("2", &["C"]);
    let mut scenario = sketch.to_json();
    scenario["elements"][0]["friction"] = friction();
    scenario["elements"][1]["friction"] = friction();
    if let Some(elements) = scenario["elements"].as_array_mut() {
        elements.push(
            json!({"kind": "one-way", "id": "F", "label": "F", "shaft": "end",
            "against": "housing", "locks": "backward"}),
        );
    }
    for element in 0..3 {
        scenario["elements"][element]["gap"] = json!(0);
    }
    for (set, turned) in [(4, true), (5, false)] {
        scenario["couplings"][set]["turned"] = json!(turned);
    }
    scenario["engine"] = json!({"label": "Engine", "full": [[800, 140.5], [6000, 160]],
        "motoring": [[800, -18], [3000, -30], [6000, -60]]});
    scenario["converter"] = json!({"label": "Converter",
        "table": [[0, 2, 140], [0.5, 1.5, 150], [0.9, 1, 190]]});
    scenario["load"] = json!({"label": "Car", "constant": 15, "linear": 0,
        "quadratic": 2.8e-6, "weight": 1260});
    scenario["dynamics"] = json!({"engine_inertia": 0.15, "load_inertia": 9,
        "shafts": [{"shaft": "in", "inertia": 0.02}],
        "elements": [{"element": "A", "fill_time": 0.1, "full_torque": 400}]});
    scenario["sources"] = json!({
        "input": {"label": "Engine", "kind": "engine", "speed": 5000, "torque": 120, "power": 60,
            "efficiency": 1},
        "further": [{"shaft": "end", "label": "Motor", "kind": "motor", "speed": 9000.5,
            "torque": 60, "power": 25, "efficiency": 0.92}],
        "outputs": ["end"], "battery": 20});
    scenario
}

fn friction() -> Value {
    json!({"surfaces": 8, "outer_radius": 64, "inner_radius": 52.5, "coefficient": 0.1,
        "clamp_force": 3500})
}

/// What is done to the good scenario at a place.
enum Change {
    Set(Value),
    Remove,
    /// Adds a field nobody knows.
    Extra,
    /// Repeats the last item of a list until it has this many, ids kept different.
    Grow(usize),
    Clear,
}

fn apply(scenario: &mut Value, place: &str, change: &Change) -> Option<()> {
    match change {
        Change::Set(value) => *scenario.pointer_mut(place)? = value.clone(),
        Change::Remove => {
            let (parent, field) = place.rsplit_once('/')?;
            let parent = scenario.pointer_mut(parent)?.as_object_mut()?;
            parent.remove(field)?;
        }
        Change::Extra => {
            let object = scenario.pointer_mut(place)?.as_object_mut()?;
            object.insert("note".to_owned(), json!("x"));
        }
        Change::Grow(count) => {
            let list = scenario.pointer_mut(place)?.as_array_mut()?;
            while list.len() < *count {
                let mut item = list.last()?.clone();
                if let Some(id) = item.get_mut("id") {
                    *id = json!(format!("x{}", list.len()));
                }
                list.push(item);
            }
        }
        Change::Clear => scenario.pointer_mut(place)?.as_array_mut()?.clear(),
    }
    Some(())
}

/// How a row must come out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Verdict {
    /// Both accept.
    Good,
    /// Both refuse.
    Bad,
    /// The reader refuses; a schema cannot tell, because it takes knowing another place.
    BeyondSchema,
}

#[test]
fn reader_and_schema_agree() -> Result<()> {
    let schema = Schema::read()?;
    let mut wrong = Vec::new();
    for (place, change, verdict) in rows::rows() {
        let mut scenario = good();
        scenario["about"] = json!("A text.");
        scenario["housing_label"] = json!("Case");
        ensure!(
            apply(&mut scenario, place, &change).is_some(),
            "there is no {place}"
        );
        let text = scenario.to_string();
        // What the reader keeps as it stands is understood where it is used.
        let reads =
            |train: Train| Dynamics::of(&train).1.is_empty() && Ports::of(&train).1.is_empty();
        let actual = (Train::parse(&text).is_ok_and(reads), schema.accepts(&text));
        let expected = match verdict {
            Verdict::Good => (true, true),
            Verdict::Bad => (false, false),
            Verdict::BeyondSchema => (false, true),
        };
        if actual != expected {
            let now = scenario.pointer(place).unwrap_or(&Value::Null).to_string();
            let now: String = now.chars().take(80).collect();
            wrong.push(format!(
                "{place} as {now}: (reader, schema) accept {actual:?}, expected {expected:?}"
            ));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

#[test]
fn the_good_one_is_good() -> Result<()> {
    let problems = Schema::read()?.problems(&good());
    ensure!(problems.is_empty(), "{problems:#?}");
    let text = good().to_string();
    ensure!(Train::parse(&text).is_ok(), "{text}");
    Ok(())
}
