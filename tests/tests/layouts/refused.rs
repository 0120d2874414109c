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

/// Catches tooth counts that are counted kind by kind, so that several kinds take several times the memory that one may. With no
/// rules to keep, all counts are kept: 633 594 of two suns on stepped pinions, 369 920 of a stepped set (counted by hand, in Python).
#[test]
fn tooth_counts_of_all_kinds_together_are_limited() {
    let wide = |sets: Value| {
        let ask = json!({
            "sets": sets,
            "applied": 2,
            "elements": 4,
            "forward": [{}, {}],
            "teeth": [20, 140],
            "pinion_teeth": [12, 45],
            "rules": [],
        });
        problems(&ask.to_string())
    };
    assert_eq!(wide(json!(["stepped-suns"])), []);
    assert_eq!(wide(json!(["stepped"])), []);
    let told = wide(json!(["stepped-suns", "stepped"]));
    assert!(told.len() == 1 && told[0].0 == "teeth", "{told:?}");
    assert!(
        told[0].1.contains("stepped pinions has too many"),
        "{told:?}"
    );
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
        (
            "limits",
            json!({"efficiency": 1.2}),
            "limits.efficiency",
            "0 to 1",
        ),
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

/// What contradicts itself is told before any time is spent, with what it contradicts.
#[test]
fn each_contradiction_is_told() {
    let rows = [
        // Three elements make three pairs.
        (
            json!({"elements": 3}),
            "elements",
            "make 3 combinations, and 4 ranges",
        ),
        (
            json!({"clutches": 1, "brakes": 0}),
            "clutches",
            "make 0 combinations",
        ),
        (
            json!({"clutches": 2, "brakes": 1}),
            "clutches",
            "make 3 combinations",
        ),
        // From 2.5 to 1.5 it is a factor of 1.6 to 1.73, each within 2 %.
        (
            json!({"step": [1.1, 1.5]}),
            "step",
            "ranges 1 and 2 are a factor of 1.601 to 1.735 apart",
        ),
        (json!({"step": [1.8, 3]}), "step", "ranges 1 and 2"),
        (
            json!({"forward": [{"ratio": 4}, {}, {"ratio": 1}], "step": [1.1, 1.5]}),
            "step",
            "ranges 1 and 3",
        ),
        (
            json!({"forward": [{"ratio": 4}, {}, {"ratio": 1}], "spread": {"value": 5, "tolerance": 0.02}}),
            "spread.value",
            "which make it 3.843 to 4.163",
        ),
        (
            json!({"forward": [{}, {}, {}], "step": [1.1, 1.5], "spread": {"value": 3, "tolerance": 0.02}}),
            "spread.value",
            "between the forward ranges, which make it 1.210 to 2.250",
        ),
        (
            json!({"forward": [{"ratio": 2.5}, {"ratio": 1.5}, {"ratio": 1.1}], "direct": true}),
            "direct",
            "no forward range may have the ratio 1",
        ),
        // One set has three members: with five further shafts, two carry none.
        (
            json!({"sets": ["planetary"], "applied": 4, "elements": 6, "forward": [{}], "backward": null}),
            "applied",
            "there are 6 shafts",
        ),
    ];
    for (changes, place, told) in rows {
        let mut ask: Value =
            serde_json::from_str(&changed("applied", json!(2))).unwrap_or_default();
        for (field, value) in changes.as_object().into_iter().flatten() {
            match value {
                Value::Null => drop(ask.as_object_mut().and_then(|ask| ask.remove(field))),
                value => ask[field] = value.clone(),
            }
        }
        let problems = problems(&ask.to_string());
        let [(at, text)] = &problems[..] else {
            panic!("{changes}: {problems:?}");
        };
        assert!(
            at == place && text.contains(told),
            "{changes}: {problems:?}"
        );
    }
}

/// A ratio that nothing can give is named once all was looked at.
#[test]
fn a_ratio_that_no_layout_has_is_named() {
    let ask = r#"{"sets": ["planetary"], "applied": 1, "elements": 2, "forward": [{"ratio": 90}, {"ratio": 1.2}]}"#;
    let ask = LayoutAsk::parse(ask).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let mut search = LayoutSearch::new(&ask).unwrap_or_else(|problems| panic!("{problems:#?}"));
    while !search.run(100) {}
    assert_eq!(search.unreached(), [0]);
}
