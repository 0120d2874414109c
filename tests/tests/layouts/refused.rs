//! What is asked wrongly is refused before any time is spent, and says what is wrong where.

use levertrain_core::layouts::{LayoutAsk, LayoutSearch};
use serde_json::{Value, json};

/// A right one, with something else in it.
fn changed(path: &str, value: Value) -> String {
    let mut ask = json!({
        "sets": ["planetary", "planetary"],
        "applied": 2,
        "elements": 4,
        "forward": [{"ratio": 2.5}, {"ratio": 1.5}, {}],
        "backward": {"ratio": -2},
    });
    ask[path] = value;
    ask.to_string()
}

fn problems(text: &str) -> Vec<(String, String)> {
    let ask = LayoutAsk::parse(text);
    let search = ask.and_then(|ask| LayoutSearch::new(&ask).map(|_| ()));
    let problems = search.err().into_iter().flatten();
    let told =
        problems.map(|problem| (problem.place, format!("{}: {}", problem.what, problem.fix)));
    told.collect()
}

#[test]
fn a_right_ask_is_taken() {
    assert_eq!(problems(&changed("applied", json!(2))), []);
}

#[test]
fn each_wrong_field_is_named() {
    let rows = [
        ("sets", json!([]), "sets", "1 to 4"),
        (
            "sets",
            json!(["planetary", "gear-pair"]),
            "sets[1]",
            "two axes",
        ),
        ("sets", json!(["cone"]), "couplings", "cone"),
        (
            "sets",
            json!(["ravigneaux", "ravigneaux", "ravigneaux", "planetary"]),
            "sets",
            "7 mesh equations",
        ),
        ("applied", json!(0), "applied", "1 to 4"),
        ("elements", json!(1), "elements", "2 to 6"),
        ("elements", json!(7), "elements", "2 to 6"),
        ("forward", json!([]), "forward", "1 to 12"),
        (
            "forward",
            json!([{"ratio": 1.5}, {"ratio": 1.5}]),
            "forward[1].ratio",
            "largest to the smallest",
        ),
        (
            "forward",
            json!([{"ratio": -1.5}]),
            "forward[0].ratio",
            "0.001 to 1000",
        ),
        (
            "forward",
            json!([{"tolerance": 2}]),
            "forward[0].tolerance",
            "0 to 0.5",
        ),
        (
            "backward",
            json!({"ratio": 2}),
            "backward.ratio",
            "-1000 to -0.001",
        ),
        (
            "spread",
            json!({"value": 0.5, "tolerance": 0.1}),
            "spread.value",
            "1 to 1000",
        ),
        ("step", json!([1.5, 1.2]), "step[1]", "1.5 to 1000"),
        ("teeth", json!([80, 40]), "teeth", "80"),
        ("teeth", json!([20, 24]), "teeth", ""),
        ("pinions", json!([]), "pinions", ""),
        ("swaps", json!(true), "swaps", ""),
    ];
    for (field, value, place, told) in rows {
        let problems = problems(&changed(field, value.clone()));
        let is_there = problems
            .iter()
            .any(|(at, text)| at == place && text.contains(told));
        assert!(is_there, "{field} {value}: {problems:?}");
    }
}
