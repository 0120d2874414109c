//! Where the problems of a text are in it.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::json::{Spot, spot};
use levertrain_core::{Problem, Train};
use levertrain_tests::files::scenarios;

use crate::verdict::check_spots;

/// Where values that hold no others begin and end.
fn scalars(text: &str) -> Vec<(usize, usize)> {
    let bytes = text.as_bytes();
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let start = at;
        at += 1;
        if bytes[start] == b'"' {
            while bytes[at] != b'"' {
                at += 1 + usize::from(bytes[at] == b'\\');
            }
            at += 1;
            if !text[at..].trim_start().starts_with(':') {
                found.push((start, at));
            }
        } else if bytes[start] == b'-' || bytes[start].is_ascii_digit() {
            while b"+-.eE0123456789".contains(&bytes[at]) {
                at += 1;
            }
            found.push((start, at));
        }
    }
    found
}

fn problems(text: &str) -> Vec<Problem> {
    Train::parse(text).err().unwrap_or_default()
}

/// Where fields begin that are kept as they stand, and told of where they are used: the last ones of a file.
fn kept_from(text: &str) -> usize {
    let fields = ["dynamics", "vehicle", "sources"];
    let starts = fields.map(|field| text.find(&format!("\n  \"{field}\":")));
    starts.into_iter().flatten().min().unwrap_or(text.len())
}

/// Whatever value of whatever scenario is an object instead, a problem is said to be just there.
#[test]
fn a_value_of_the_wrong_type_is_found_where_it_stands() -> Result<()> {
    for file in scenarios()? {
        let values = scalars(&file.text);
        ensure!(values.len() > 20, "{}", file.stem);
        let kept = kept_from(&file.text);
        for (start, end) in values.into_iter().filter(|(start, _)| *start < kept) {
            let text = format!("{}{{}}{}", &file.text[..start], &file.text[end..]);
            let before = &file.text[..start];
            let line = before.split('\n').next_back().unwrap_or_default();
            let there = Spot {
                line: before.split('\n').count(),
                column: line.encode_utf16().count() + 1,
            };
            let found: Vec<_> = problems(&text)
                .iter()
                .map(|problem| (spot(&text, &problem.place), problem.to_string()))
                .collect();
            let is_there = found.iter().any(|(spot, _)| *spot == there);
            ensure!(is_there, "{}: {there:?}, but {found:?}", file.stem);
        }
    }
    Ok(())
}

/// Whatever shaft a member has that is not there, the problem is on the line of its set at least.
#[test]
fn a_member_without_its_shaft_is_found_in_its_set() -> Result<()> {
    let mut seen = 0;
    for file in scenarios()? {
        let members = &file.text[..kept_from(&file.text)];
        for (start, _) in members.match_indices("\"shaft\": \"") {
            let from = start + "\"shaft\": ".len();
            let (_, end) = scalars(&file.text)
                .into_iter()
                .find(|(at, _)| *at == from)
                .context("a shaft is a value")?;
            let text = format!("{}\"nowhere\"{}", &file.text[..from], &file.text[end..]);
            let line = text[..from].split('\n').count();
            let found = problems(&text);
            let lines: Vec<_> = found
                .iter()
                .map(|problem| spot(&text, &problem.place).line)
                .collect();
            let stem = &file.stem;
            ensure!(
                lines.contains(&line),
                "{stem}: {line}, {lines:?}, {found:?}"
            );
            seen += 1;
        }
    }
    ensure!(seen > 50, "{seen}");
    Ok(())
}

/// Places that no text has, and texts that have no place.
#[test]
fn nothing_makes_it_stumble() -> Result<()> {
    let places = [
        "",
        ".",
        "..",
        "[",
        "[]",
        "[0",
        "a[0]]",
        ", ",
        "…",
        "a.…",
        "[0][0][0][0]",
        "😀",
        "a, ",
        "a.a.a.a.a",
    ];
    let texts = [
        "",
        "\u{feff}",
        "{",
        "{}",
        "[]",
        "[[[[1]]]]",
        "{\"a\": [{}]}",
        "{\"\": {\"\": 1}}",
        "\"😀",
        "\r\n\r\n[\r\n",
        "{\"a\": {\"a\": {\"a\": 1}}}",
        "{\"a\u{7}\": 1}",
        "\u{feff}\"ß\u{0}",
    ];
    for text in texts {
        for place in places {
            let problem = Problem::new(place, "what", "fix");
            check_spots(text, &[problem]).map_err(|error| anyhow!(error))?;
        }
    }
    Ok(())
}
