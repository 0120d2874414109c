//! Valid files with a few things changed.

use levertrain_tests::generate::{ANY, settings, sketch};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

use crate::verdict::judge;

/// One change to a text cut into tokens.
#[derive(Debug, Clone)]
enum Change {
    Truncate(Index),
    Remove(Index),
    Repeat(Index, Index),
    Swap(Index, Index),
    Replace(Index, String),
    Insert(Index, String),
}

fn change() -> impl Strategy<Value = Change> {
    let index = any::<Index>;
    prop_oneof![
        1 => index().prop_map(Change::Truncate),
        2 => index().prop_map(Change::Remove),
        2 => (index(), index()).prop_map(|(from, to)| Change::Repeat(from, to)),
        3 => (index(), index()).prop_map(|(a, b)| Change::Swap(a, b)),
        5 => (index(), nasty()).prop_map(|(at, text)| Change::Replace(at, text)),
        2 => (index(), nasty()).prop_map(|(at, text)| Change::Insert(at, text)),
    ]
}

/// Tokens that readers stumble over.
fn nasty() -> impl Strategy<Value = String> {
    let fixed = [
        "0",
        "-1",
        "6",
        "999",
        "1000",
        "1e999",
        "-0.0",
        "3.5",
        "99999999999999999999",
        "null",
        "true",
        "[]",
        "{}",
        "[[[[[[[[",
        "\"\"",
        "\"housing\"",
        "\"in\"",
        "\"s0\"",
        "\"e0\"",
        "\"\\u0000\"",
        "\"\\ud800\"",
        "\"\\n\"",
        "\"\u{202e}\"",
        "\"kind\"",
        "\"planetary\"",
        "\"extra\":1,",
        ",",
        ":",
        "\u{feff}",
        "NaN",
        "Infinity",
        "//",
        "'",
    ];
    prop_oneof![
        8 => prop::sample::select(fixed.map(str::to_owned).to_vec()),
        1 => (1..6000_usize).prop_map(|count| format!("\"{}\"", "long".repeat(count))),
        1 => (1..300_usize).prop_map(|count| "[".repeat(count)),
        1 => "\\PC{0,20}",
    ]
}

/// Cuts JSON into strings, other words, and single marks.
fn tokens(text: &str) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    let mut chars = text.chars().peekable();
    while let Some(first) = chars.next() {
        let mut token = String::from(first);
        if first == '"' {
            for c in chars.by_ref() {
                token.push(c);
                if c == '"' {
                    break;
                }
            }
        } else if first.is_alphanumeric() {
            while let Some(c) = chars.next_if(|c| c.is_alphanumeric()) {
                token.push(c);
            }
        }
        tokens.push(token);
    }
    tokens
}

fn apply(tokens: &mut Vec<String>, change: Change) {
    if tokens.is_empty() {
        return;
    }
    let count = tokens.len();
    match change {
        Change::Truncate(at) => tokens.truncate(at.index(count)),
        Change::Remove(at) => drop(tokens.remove(at.index(count))),
        Change::Repeat(from, to) => {
            let (from, to) = (from.index(count), to.index(count));
            let part = tokens[from.min(to)..from.max(to)].to_vec();
            tokens.splice(from..from, part);
        }
        Change::Swap(a, b) => tokens.swap(a.index(count), b.index(count)),
        Change::Replace(at, text) => tokens[at.index(count)] = text,
        Change::Insert(at, text) => tokens.insert(at.index(count), text),
    }
}

pub fn mutated() -> impl Strategy<Value = String> {
    let base = prop_oneof![
        Just(crate::sample::good().to_string()),
        sketch(ANY).prop_map(|sketch| sketch.to_json().to_string()),
    ];
    (base, vec(change(), 1..4)).prop_map(|(text, changes)| {
        let mut tokens = tokens(&text);
        for change in changes {
            apply(&mut tokens, change);
        }
        tokens.concat()
    })
}

#[test]
fn tokens_make_up_the_text() {
    let text = crate::sample::good().to_string();
    let tokens = tokens(&text);
    assert_eq!(tokens.concat(), text);
    assert!(tokens.iter().any(|token| token == "\"planetary\""));
    assert!(tokens.iter().any(|token| token == "30"));
}

proptest! {
    #![proptest_config(settings(1500))]

    #[test]
    fn changed_files_are_read_or_refused_well(text in mutated()) {
        judge(&text).map_err(TestCaseError::fail)?;
    }
}
