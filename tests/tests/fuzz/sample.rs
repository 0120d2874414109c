//! A valid scenario to spoil, and how what is spoilt must be refused.

use levertrain_core::{Problem, Train};
use levertrain_tests::sketch::Sketch;
use serde_json::{Value, json};

use crate::verdict::check_problems;

/// A scenario with one of everything.
pub fn good() -> Value {
    let sketch = Sketch::new("in", "out")
        .planetary("p1", ("in", 30), ("r1", 78), "out", 24)
        .double_pinion("p2", ("in", 30), ("r2", 74), "out", (20, 20))
        .pair("g1", false, ("out", 31), ("end", 67))
        .brake("A", "r1")
        .clutch("C", "in", "r2")
        .range("1", &["A"])
        .range("2", &["C"]);
    let mut scenario = sketch.to_json();
    scenario["about"] = "A text.".into();
    scenario["housing_label"] = "Case".into();
    scenario["elements"][0]["friction"] = json!({"surfaces": 8, "outer_radius": 64,
        "inner_radius": 52, "coefficient": 0.1, "clamp_force": 3500});
    scenario["engine"] = json!({"label": "Engine", "full": [[800, 140], [2600, 230], [6000, 158]],
        "motoring": [[800, -18], [6000, -60]]});
    scenario["converter"] = json!({"label": "Converter",
        "table": [[0, 2, 144], [0.6, 1.3, 152], [0.9, 1, 200]]});
    scenario["load"] = json!({"label": "Load", "constant": 15, "linear": 0.001,
        "quadratic": 0.000003, "weight": 1260});
    scenario
}

/// The scenario's text with `old` replaced where it first stands.
#[track_caller]
pub fn with(old: &str, new: &str) -> String {
    let text = good().to_string();
    assert!(text.contains(old), "{old} is not in {text}");
    text.replacen(old, new, 1)
}

/// The problems of a text that must be refused, looked at.
#[track_caller]
pub fn refused(name: &str, text: &str) -> Vec<Problem> {
    let Err(problems) = Train::parse(text) else {
        panic!("{name}: accepted");
    };
    if let Err(error) = check_problems(&problems) {
        panic!("{name}: {error}");
    }
    // As the reader of a catalogue writes what it was not given.
    let lacks = |problem: &Problem| problem.to_string().contains("{$");
    assert!(!problems.iter().any(lacks), "{name}: {problems:?}");
    problems
}

/// Checks that one of the problems is at `place` and names `what`.
#[track_caller]
pub fn check(name: &str, text: &str, place: &str, what: &str) {
    let problems = refused(name, text);
    let named = |problem: &Problem| problem.place.starts_with(place) && problem.what.contains(what);
    assert!(
        problems.iter().any(named),
        "{name}: expected {place:?}, {what:?}, found {problems:#?}"
    );
}
