//! JSON read strictly: a key that stands twice is a problem, not a silent last word.

use super::reader::{MOST_LEVELS, Stop, Why, read};
use super::value::Value;
use crate::base::problem::Problem;
use crate::base::said::said;

/// Most characters shown on either side of a place that is not JSON.
const SHOWN: usize = 12;

/// Reads a text as JSON in which no object has the same key twice.
///
/// # Errors
/// The first place that is not so.
pub fn strict(text: &str) -> Result<Value, Problem> {
    read(text).map_err(|stop| unreadable(text, stop))
}

fn unreadable(text: &str, Stop { at, why }: Stop) -> Problem {
    // What was taken last is what is wrong, and where it is the end of a line it stands in that line.
    let last = at.saturating_sub(1);
    let before = text.as_bytes().get(..last).unwrap_or_default();
    let breaks = before.iter().filter(|&&byte| byte == b'\n').count();
    let begins = before.iter().rposition(|&byte| byte == b'\n');
    // In bytes, from 1.
    let column = at - begins.map_or(0, |place| place + 1);
    let line = text.split('\n').nth(breaks).unwrap_or_default();
    let place = said(
        "place-line",
        &[
            ("line", &(breaks + 1).to_string()),
            ("column", &column.to_string()),
        ],
    );
    let (what, quoted, fix) = match why {
        Why::Twice(key) => ("problem-twice", key, "fix-leave-one-out"),
        Why::TooDeep => ("problem-too-deep", MOST_LEVELS.to_string(), "fix-flatter"),
        Why::Ends => ("problem-ends", String::new(), "fix-copied-whole"),
        Why::NotJson => match number(line, column) {
            "" => ("problem-not-json", around(line, column), "fix-mend-json"),
            number => ("problem-number", number.to_owned(), "fix-digits-point"),
        },
    };
    Problem::of(&place, (what, &[("found", &quoted)]), (fix, &[]))
}

/// The number at the place of an error, if there is one and may be.
fn number(line: &str, column: usize) -> &str {
    let part = |byte: &u8| byte.is_ascii_digit() || b"+-.eE".contains(byte);
    let bytes = line.as_bytes();
    // Columns are counted in bytes, so one may lie within a character.
    let at = (0..=column)
        .rev()
        .find(|&at| line.is_char_boundary(at))
        .unwrap_or(0);
    let before = bytes[..at]
        .iter()
        .rev()
        .take_while(|byte| part(byte))
        .count();
    let after = bytes[at..].iter().take_while(|byte| part(byte)).count();
    let number = line.get(at - before..at + after).unwrap_or_default();
    let is_one = number.starts_with(|c: char| c.is_ascii_digit() || c == '-');
    // Elsewhere it is not the number that is wrong.
    let ahead = line.get(..at - before).unwrap_or_default();
    let may_stand = ahead.trim_end().ends_with([',', ':', '[']);
    if is_one && may_stand { number } else { "" }
}

/// What stands around the place of an error.
fn around(line: &str, column: usize) -> String {
    let before = line.char_indices().take_while(|&(at, _)| at < column);
    let before = before.count().saturating_sub(SHOWN);
    line.chars().skip(before).take(2 * SHOWN).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, place: &str, what: &str) {
        let problem = strict(text)
            .err()
            .map(|problem| (problem.place, problem.what));
        assert_eq!(problem, Some((place.to_owned(), what.to_owned())), "{text}");
    }

    #[test]
    fn what_is_not_json_is_shown() {
        check("{\n nope}", "line 2, column 2", "not JSON: \" nope}\"");
        check("[1 2]", "line 1, column 4", "not JSON: \"[1 2]\"");
        check("{\"a\n\"", "line 1, column 4", "not JSON: \"{\"a\"");
        check("[1\n", "line 1, column 3", "the file ends too early");
        for number in ["1e999", "-1e999", "1.e5"] {
            let problem = strict(&format!("[{number}]"))
                .err()
                .map(|problem| problem.what);
            let expected = format!("the number {number} is too large, or not written as JSON does");
            assert_eq!(problem, Some(expected));
        }
        check(
            "{\"ä\": 'ß'}",
            "line 1, column 8",
            "not JSON: \"{\"ä\": 'ß'}\"",
        );
        check("[1", "line 1, column 2", "the file ends too early");
        let twice = "the key \"a\" stands here twice";
        check("{\"a\": 1, \"a\": 2}", "line 1, column 12", twice);
    }

    #[test]
    fn deep_nesting_is_named() {
        let nested = |levels: usize| "[".repeat(levels) + &"]".repeat(levels);
        assert!(strict(&nested(MOST_LEVELS)).is_ok());
        for levels in [MOST_LEVELS + 1, 1000, 100_000] {
            let what = strict(&nested(levels)).err().map(|problem| problem.what);
            let expected = format!("more than {MOST_LEVELS} lists and objects within each other");
            assert_eq!(what, Some(expected), "{levels} levels");
        }
    }
}
