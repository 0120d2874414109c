//! Our reader of JSON beside a general one: they agree on what is JSON, on what it says, and on
//! where it ends to be so.

use levertrain_core::json::{Value, strict};
use proptest::prelude::*;
use serde_json::Value as General;

/// Texts to spoil.
const TEXTS: &[&str] = &[
    r#" {"a" : [ 1, -2.5e-3 ,null,true , false], "é\n\u00e9\ud83d\ude00": {"b":"x\\y\"z"} } "#,
    "[0, -0, 0.0, 12345678901234567890, 18446744073709551615, 18446744073709551616, -9223372036854775808, -9223372036854775809]",
    "[1e5, 1E+5, 0.1e-7, 123.456, 3e-6, 55.5, 1e22, 1e-22, 1e23, 1e308, 1.7e308, 5e-324, 1e-400, 0e999]",
    "{\n\t\"one\": [\r\n[], {}, [[\"\"]]],\n \"two\": 0.30000000000000004\n}",
];
/// What is put in.
const PIECES: &[&str] = &[
    "\"",
    "\\",
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "-",
    "+",
    ".",
    "e",
    "E",
    "0",
    "1",
    "9",
    " ",
    "\n",
    "\t",
    "\u{1}",
    "u",
    "\\u",
    "\\ud800",
    "\\udc00",
    "\\u12",
    "n",
    "null",
    "true",
    "é",
    "😀",
    "1e999",
    "\"a\":",
    "99999999999999999999",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    #[test]
    fn readers_of_json_agree(
        text in 0..TEXTS.len(),
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0..PIECES.len() + 2), 0..4),
    ) {
        let mut text: Vec<char> = TEXTS[text].chars().collect();
        for (place, edit) in edits {
            if text.is_empty() {
                break;
            }
            let place = place.index(text.len());
            match PIECES.get(edit) {
                Some(piece) => drop(text.splice(place..place, piece.chars())),
                None if edit == PIECES.len() => drop(text.remove(place)),
                None => text.truncate(place),
            }
        }
        let text: String = text.into_iter().collect();
        match (strict(&text), serde_json::from_str::<General>(&text)) {
            (Ok(ours), Ok(general)) => {
                prop_assert!(same(&ours, &general), "{}: {:?} {:?}", text, ours, general);
            }
            // The general one takes keys that stand twice, and goes on after them.
            (Err(problem), _) if problem.what.contains("twice") => {}
            (Err(problem), Err(error)) => {
                // To the general one the end of a line is part of the next.
                let (line, column) = match (error.line(), error.column()) {
                    (line @ 2.., 0) => {
                        let before = text.split('\n').nth(line - 2).unwrap_or_default();
                        (line - 1, before.len() + 1)
                    }
                    place => place,
                };
                let place = format!("line {line}, column {column}");
                // The general one stops within an exponent that is out of all reason.
                let large = error.to_string().starts_with("number out of range");
                let at = if large { &place } else { &problem.place };
                prop_assert_eq!(at, &place, "{}: {}, {}", text, problem, error);
                let ends = problem.what.contains("ends too early");
                prop_assert_eq!(ends, error.is_eof(), "{}: {}, {}", text, problem, error);
            }
            (ours, general) => prop_assert!(false, "{}: {:?} {:?}", text, ours, general),
        }
    }
}

/// Whether two values are the same, numbers to the last place but one.
fn same(ours: &Value, general: &General) -> bool {
    match (ours, general) {
        (Value::Null, General::Null) => true,
        (Value::Bool(ours), General::Bool(general)) => ours == general,
        (Value::Whole(ours), General::Number(general)) => general.as_u64() == Some(*ours),
        (Value::Negative(ours), General::Number(general)) => {
            general.as_u64().is_none() && general.as_i64() == Some(*ours)
        }
        (Value::Number(ours), General::Number(general)) => {
            let near = |general: f64| (ours - general).abs() <= general.abs() * f64::EPSILON;
            general.as_i64().is_none() && general.as_f64().is_some_and(near)
        }
        (Value::Text(ours), General::String(general)) => ours == general,
        (Value::List(ours), General::Array(general)) => {
            let pairs = ours.iter().zip(general);
            ours.len() == general.len() && pairs.into_iter().all(|(one, other)| same(one, other))
        }
        (Value::Object(ours), General::Object(general)) => {
            let has = |(key, value): &(String, Value)| {
                general.get(key).is_some_and(|other| same(value, other))
            };
            ours.len() == general.len() && ours.iter().all(has)
        }
        _ => false,
    }
}

#[test]
fn powers_of_ten_are_read_exactly() {
    for tens in 0..=308 {
        let text = format!("1e{tens}");
        let expected: f64 = text.parse().unwrap_or(f64::NAN);
        let read = strict(&text).ok().and_then(|value| value.as_f64());
        assert_eq!(read, Some(expected), "{text}");
    }
}

/// Catches a number that is written with all its digits and read as its neighbour: found by the
/// coverage-guided reader in 1.6666666666666666666666666666666666666666666666669 and 2.6e-28.
#[test]
fn numbers_are_read_to_the_last_place() {
    let mut state = 7_u64;
    let mut next = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        state >> 11
    };
    let texts = [
        "1.6666666666666665".to_owned(),
        "5.2e-6".to_owned(),
        "0.1".to_owned(),
        "2.6e-28".to_owned(),
        "1.7976931348623157e308".to_owned(),
        "2.2250738585072014e-308".to_owned(),
    ];
    let random = (0..20_000).map(|_| {
        let digits = next() % 10_u64.pow(1 + (next() % 17) as u32);
        format!("{digits}e{}", (next() % 610) as i64 - 307)
    });
    for text in texts.into_iter().chain(random) {
        let expected: f64 = text.parse().unwrap_or(f64::NAN);
        let read = strict(&text).ok().and_then(|value| value.as_f64());
        // What is too large is refused.
        let expected = Some(expected).filter(|number| number.is_finite());
        assert_eq!(read, expected, "{text}");
    }
}
