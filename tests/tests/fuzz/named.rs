//! Bad inputs by name: each is refused, and how is looked at closely.

use levertrain_tests::sketch::Sketch;
use serde_json::Value;

use crate::verdict::{check_faults, judge};
use levertrain_core::{Fault, Train};

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
    scenario
}

/// The scenario's text with `old` replaced where it first stands.
#[track_caller]
fn with(old: &str, new: &str) -> String {
    let text = good().to_string();
    assert!(text.contains(old), "{old} is not in {text}");
    text.replacen(old, new, 1)
}

/// The faults of a text that must be refused, looked at.
#[track_caller]
fn refused(name: &str, text: &str) -> Vec<Fault> {
    let Err(faults) = Train::parse(text) else {
        panic!("{name}: accepted");
    };
    if let Err(error) = check_faults(&faults) {
        panic!("{name}: {error}");
    }
    faults
}

/// Checks that one of the faults is at `place` and names `problem`.
#[track_caller]
fn check(name: &str, text: &str, place: &str, problem: &str) {
    let faults = refused(name, text);
    let named = |fault: &Fault| fault.place.starts_with(place) && fault.problem.contains(problem);
    assert!(
        faults.iter().any(named),
        "{name}: expected {place:?}, {problem:?}, found {faults:#?}"
    );
}

#[test]
fn the_good_one_is_good() {
    let text = good().to_string();
    assert!(matches!(judge(&text), Ok(Some(_))), "{text}");
}

#[test]
fn every_truncation_is_refused() {
    let text = serde_json::to_string_pretty(&good()).unwrap_or_default();
    assert!(text.len() > 1000);
    for end in 0..text.len() {
        let faults = refused(&format!("cut at {end}"), &text[..end]);
        assert_eq!(faults.len(), 1, "{faults:#?}");
        assert!(faults[0].problem.contains("too early"), "{faults:#?}");
    }
}

#[test]
fn numbers_that_are_none() {
    let rows = [
        ("zero teeth", "0", "0 teeth"),
        ("too few", "5", "5 teeth"),
        ("too many", "1000", "1000 teeth"),
        ("negative", "-30", "-30"),
        ("beyond 32 bits", "4294967326", "4294967326"),
        ("beyond 64 bits", "18446744073709551646", ""),
        ("a fraction", "30.5", "30.5"),
        ("an exponent", "3e1", ""),
        ("text", "\"30\"", "30"),
        ("nothing", "null", "null"),
        ("a list", "[30]", ""),
    ];
    for (name, number, problem) in rows {
        let text = with("{\"shaft\":\"in\",\"teeth\":30}", &{
            format!("{{\"shaft\":\"in\",\"teeth\":{number}}}")
        });
        check(name, &text, "couplings[0].sun.teeth", problem);
    }
    check(
        "beyond f64",
        &with("\"teeth\":30", "\"teeth\":1e999"),
        "line 1",
        "number",
    );
    check(
        "no pinions",
        &with("\"count\":3", "\"count\":0"),
        "couplings[0].pinion.count",
        "0 pinions",
    );
    check(
        "too many pinions",
        &with("\"count\":3", "\"count\":13"),
        "couplings[0].pinion.count",
        "13 pinions",
    );
}

#[test]
fn names_that_mean_nothing() {
    check(
        "input",
        &with("\"input\":\"in\"", "\"input\":\"nobody\""),
        "input",
        "nobody",
    );
    check(
        "input on the housing",
        &with("\"input\":\"in\"", "\"input\":\"housing\""),
        "input",
        "housing",
    );
    check(
        "sun",
        &with("\"sun\":{\"shaft\":\"in\"", "\"sun\":{\"shaft\":\"nobody\""),
        "couplings[0]",
        "nobody",
    );
    check(
        "carrier",
        &with("\"carrier\":\"out\"", "\"carrier\":\"nobody\""),
        "couplings[0]",
        "nobody",
    );
    check(
        "brake",
        &with(
            "\"label\":\"Element A\",\"shaft\":\"r1\"",
            "\"label\":\"Element A\",\"shaft\":\"nobody\"",
        ),
        "elements[0].shaft",
        "nobody",
    );
    check(
        "clutch",
        &with("[\"in\",\"r2\"]", "[\"in\",\"nobody\"]"),
        "elements[1].between",
        "nobody",
    );
    check(
        "range",
        &with("\"applied\":[\"A\"]", "\"applied\":[\"nobody\"]"),
        "ranges[0]",
        "nobody",
    );
    check(
        "kind",
        &with("\"planetary\"", "\"worm\""),
        "couplings[0].kind",
        "worm",
    );
    check(
        "mesh",
        &with("\"external\"", "\"bevel\""),
        "couplings[2].mesh",
        "bevel",
    );
    check(
        "element",
        &with("\"kind\":\"brake\"", "\"kind\":\"band\""),
        "elements[0]",
        "band",
    );
}

#[test]
fn trains_that_bite_their_tail() {
    check(
        "output is input",
        &with("\"output\":\"out\"", "\"output\":\"in\""),
        "output",
        "in",
    );
    check(
        "a set on one shaft",
        &with("\"carrier\":\"out\"", "\"carrier\":\"in\""),
        "couplings[0]",
        "in",
    );
    check(
        "a clutch from a shaft to itself",
        &with("\"between\":[\"in\",\"r2\"]", "\"between\":[\"in\",\"in\"]"),
        "elements[1].between",
        "in",
    );
    check(
        "a clutch to the housing",
        &with(
            "\"between\":[\"in\",\"r2\"]",
            "\"between\":[\"in\",\"housing\"]",
        ),
        "elements[1].between",
        "housing",
    );
    check(
        "a shaft twice",
        &with("\"id\":\"out\"", "\"id\":\"in\""),
        "shafts[1].id",
        "in",
    );
    check(
        "an element twice in a range",
        &with("\"applied\":[\"A\"]", "\"applied\":[\"A\",\"A\"]"),
        "ranges[0].applied",
        "A",
    );
    check(
        "a shaft called housing",
        &with("{\"id\":\"in\",", "{\"id\":\"housing\","),
        "shafts",
        "housing",
    );
}

#[test]
fn a_field_written_twice_is_refused() {
    let rows = [
        ("format", "\"format\":1", "\"format\":1,\"format\":1"),
        (
            "input",
            "\"input\":\"in\"",
            "\"input\":\"in\",\"input\":\"out\"",
        ),
        ("teeth", "\"teeth\":30", "\"teeth\":30,\"teeth\":31"),
        (
            "label",
            "\"label\":\"Shaft in\"",
            "\"label\":\"a\",\"label\":\"b\"",
        ),
        (
            "kind",
            "\"kind\":\"brake\"",
            "\"kind\":\"clutch\",\"kind\":\"brake\"",
        ),
    ];
    for (field, old, new) in rows {
        let faults = refused(field, &with(old, new));
        let named = faults.iter().any(|fault| fault.to_string().contains(field));
        assert!(named, "{field} is not named: {faults:#?}");
    }
}

#[test]
fn lists_in_place_of_objects_are_refused() {
    refused(
        "a shaft as a list",
        &with(
            "{\"id\":\"in\",\"label\":\"Shaft in\"}",
            "[\"in\",\"Shaft in\"]",
        ),
    );
    refused(
        "a gear as a list",
        &with("{\"shaft\":\"in\",\"teeth\":30}", "[\"in\",30]"),
    );
    refused(
        "a range as a list",
        &with(
            "{\"applied\":[\"A\"],\"id\":\"1\",\"label\":\"Range 1\"}",
            "[\"1\",\"Range 1\",[\"A\"]]",
        ),
    );
    let fields = [
        "format",
        "name",
        "about",
        "input",
        "output",
        "shafts",
        "couplings",
        "elements",
        "ranges",
    ];
    let scenario = good();
    let list: Vec<&Value> = fields.iter().map(|&field| &scenario[field]).collect();
    let text = serde_json::to_string(&list).unwrap_or_default();
    refused("a scenario as a list", &text);
}

/// However long what a fault quotes, its message stays short and on one line.
#[test]
fn messages_stay_short() {
    let long = "x".repeat(20_000);
    let lines = "a\\nb\\u001b[31m";
    for (name, content) in [("long", long.as_str()), ("lines", lines)] {
        let rows = [
            (
                "name",
                "\"name\":\"Sketch\"",
                format!("\"name\":\"{content}{}\"", "y".repeat(90)),
            ),
            (
                "input",
                "\"input\":\"in\"",
                format!("\"input\":\"{content}\""),
            ),
            ("field", "\"name\"", format!("\"{content}\"")),
            ("field below", "\"teeth\":30", format!("\"{content}\":30")),
            ("kind", "\"planetary\"", format!("\"{content}\"")),
            (
                "kind of element",
                "\"kind\":\"brake\"",
                format!("\"kind\":\"{content}\""),
            ),
            ("mesh", "\"external\"", format!("\"{content}\"")),
            ("teeth", "\"teeth\":30", format!("\"teeth\":\"{content}\"")),
            (
                "format",
                "\"format\":1",
                format!("\"format\":\"{content}\""),
            ),
            (
                "format list",
                "\"format\":1",
                format!("\"format\":[\"{content}\"]"),
            ),
            (
                "kind list",
                "\"kind\":\"planetary\"",
                format!("\"kind\":[\"{content}\"]"),
            ),
            ("shaft id", "\"id\":\"r1\"", format!("\"id\":\"{content}\"")),
            (
                "label",
                "\"label\":\"Shaft r1\"",
                format!("\"label\":\"{content}{}\"", "y".repeat(50)),
            ),
            (
                "carrier",
                "\"carrier\":\"out\"",
                format!("\"carrier\":\"{content}\""),
            ),
            (
                "brake",
                "\"shaft\":\"r1\"",
                format!("\"shaft\":\"{content}\""),
            ),
            (
                "clutch",
                "[\"in\",\"r2\"]",
                format!("[\"{content}\",\"{content}\"]"),
            ),
            ("range", "[\"A\"]", format!("[\"{content}\",\"{content}\"]")),
        ];
        for (place, old, new) in rows {
            refused(&format!("{name} {place}"), &with(old, &new));
        }
    }
}

/// However much is wrong, the list of faults stays short.
#[test]
fn faults_stay_few() {
    let same = vec!["\"A\""; 10_000].join(",");
    refused(
        "an element ten thousand times",
        &with("[\"A\"]", &format!("[{same}]")),
    );
    let unknown = vec!["\"Z\""; 10_000].join(",");
    refused(
        "ten thousand unknown elements",
        &with("[\"A\"]", &format!("[{unknown}]")),
    );
    let range = "{\"id\":\"\",\"label\":\"\",\"applied\":[\"p\",\"q\",\"r\",\"s\",\"t\",\"u\"]}";
    let ranges = [range; 32].join(",");
    refused(
        "nothing right in thirty-two ranges",
        &with("\"ranges\":[", &format!("\"ranges\":[{ranges}],\"x\":["))
            .replace(",\"x\":[{\"applied\":[\"A\"],\"id\":\"1\",\"label\":\"Range 1\"},{\"applied\":[\"C\"],\"id\":\"2\",\"label\":\"Range 2\"}]", ""),
    );
    let many = vec!["7"; 10_000].join(",");
    refused(
        "ten thousand shafts",
        &with("\"shafts\":[", &format!("\"shafts\":[{many},")),
    );
}

#[test]
fn texts_that_are_no_scenario() {
    let deep = |open: &str, close: &str| open.repeat(20_000) + &close.repeat(20_000);
    let rows = [
        ("nothing", String::new()),
        ("spaces", " \n\t ".to_owned()),
        ("null", "null".to_owned()),
        ("a number", "1".to_owned()),
        ("an empty object", "{}".to_owned()),
        ("two values", "{}{}".to_owned()),
        ("deep lists", deep("[", "]")),
        ("deep objects", deep("{\"a\":", "}")),
        ("a byte-order mark", format!("\u{feff}{}", good())),
        ("half a surrogate", with("\"Sketch\"", "\"\\ud800\"")),
        ("a zero character", with("\"Sketch\"", "\"\\u0000\"")),
        ("a comma too many", with("\"format\":1", "\"format\":1,")),
        ("a later format", with("\"format\":1", "\"format\":2")),
        ("too long", good().to_string() + &" ".repeat(65_536)),
        (
            "another programme's file",
            "<svg xmlns=\"http://www.w3.org/2000/svg\"/>".to_owned(),
        ),
    ];
    for (name, text) in rows {
        refused(name, &text);
    }
}
