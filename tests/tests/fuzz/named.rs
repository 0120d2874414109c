//! Bad inputs by name: each is refused, and the problem names what is wrong.

use serde_json::Value;

use crate::sample::{check, good, refused, with};
use crate::verdict::judge;

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
        let problems = refused(&format!("cut at {end}"), &text[..end]);
        assert_eq!(problems.len(), 1, "{problems:#?}");
        assert!(problems[0].what.contains("too early"), "{problems:#?}");
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
fn friction_data_that_cannot_be() {
    let rows = [
        ("surfaces", "8", "0", "0"),
        ("surfaces", "8", "8.5", "8.5"),
        ("surfaces", "8", "-8", "-8"),
        ("outer_radius", "64", "2001", "2001"),
        ("inner_radius", "52", "0", "0"),
        ("inner_radius", "52", "64", "not below the outer radius"),
        ("inner_radius", "52", "null", "null"),
        ("coefficient", "0.1", "1.5", "1.5"),
        ("coefficient", "0.1", "-0.1", "-0.1"),
        ("clamp_force", "3500", "0", "0"),
        ("clamp_force", "3500", "1e300", "allowed"),
        ("clamp_force", "3500", "\"3500\"", "3500"),
    ];
    for (field, value, bad, problem) in rows {
        let text = with(
            &format!("\"{field}\":{value}"),
            &format!("\"{field}\":{bad}"),
        );
        let place = format!("elements[0].friction.{field}");
        check(&format!("{field} {bad}"), &text, &place, problem);
    }
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
        let problems = refused(field, &with(old, new));
        let named = problems
            .iter()
            .any(|problem| problem.to_string().contains(field));
        assert!(named, "{field} is not named: {problems:#?}");
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
        (
            "two byte-order marks",
            format!("\u{feff}\u{feff}{}", good()),
        ),
        ("half a surrogate", with("\"Sketch\"", "\"\\ud800\"")),
        ("a zero character", with("\"Sketch\"", "\"\\u0000\"")),
        ("a comma too many", with("\"format\":1", "\"format\":1,")),
        ("a later format", with("\"format\":1", "\"format\":3")),
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
