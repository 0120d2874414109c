//! JSON read strictly: a key that stands twice is a problem, not a silent last word.

use std::cell::RefCell;
use std::fmt;

use super::value::Value;
use crate::base::problem::Problem;
use crate::base::said::said;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};

/// Most lists and objects within each other; no scenario needs half of them.
const MOST_LEVELS: usize = 16;
/// Most characters shown on either side of a place that is not JSON.
const SHOWN: usize = 12;

/// Reads a text as JSON in which no object has the same key twice.
///
/// # Errors
/// The first place that is not so.
pub fn strict(text: &str) -> Result<Value, Problem> {
    let refusal = RefCell::new(None);
    let mut reader = serde_json::Deserializer::from_str(text);
    let within = Within {
        level: 0,
        refusal: &refusal,
    };
    let read = reader.deserialize_any(within);
    let read = read.and_then(|value| reader.end().map(|()| value));
    read.map_err(|error| unreadable(text, &error, refusal.take()))
}

fn unreadable(text: &str, error: &serde_json::Error, refusal: Option<Refusal>) -> Problem {
    let (line, column) = (error.line().to_string(), error.column().to_string());
    let place = said("place-line", &[("line", &line), ("column", &column)]);
    let (what, quoted, fix) = match refusal {
        Some(Refusal::Twice(key)) => ("problem-twice", key, "fix-leave-one-out"),
        Some(Refusal::TooDeep) => ("problem-too-deep", MOST_LEVELS.to_string(), "fix-flatter"),
        None if error.is_eof() => ("problem-ends", String::new(), "fix-copied-whole"),
        None => match number(line_of(text, error), error.column()) {
            "" => ("problem-not-json", around(text, error), "fix-mend-json"),
            number => ("problem-number", number.to_owned(), "fix-digits-point"),
        },
    };
    Problem::of(&place, (what, &[("found", &quoted)]), (fix, &[]))
}

fn line_of<'t>(text: &'t str, error: &serde_json::Error) -> &'t str {
    let line = text.split('\n').nth(error.line().saturating_sub(1));
    line.unwrap_or_default()
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
    let number = &line[at - before..at + after];
    let is_one = number.starts_with(|c: char| c.is_ascii_digit() || c == '-');
    // Elsewhere it is not the number that is wrong.
    let may_stand = line[..at - before].trim_end().ends_with([',', ':', '[']);
    if is_one && may_stand { number } else { "" }
}

/// What stands around the place of an error.
fn around(text: &str, error: &serde_json::Error) -> String {
    let line = line_of(text, error);
    // Columns are counted in bytes, from 1.
    let before = line
        .char_indices()
        .take_while(|&(at, _)| at < error.column());
    let before = before.count().saturating_sub(SHOWN);
    line.chars().skip(before).take(2 * SHOWN).collect()
}

/// Why a text is refused that is JSON as far as it was read.
enum Refusal {
    Twice(String),
    TooDeep,
}

/// Reads what stands within so many lists and objects.
#[derive(Clone, Copy)]
struct Within<'r> {
    level: usize,
    refusal: &'r RefCell<Option<Refusal>>,
}

impl Within<'_> {
    fn deeper<E: Error>(self) -> Result<Self, E> {
        if self.level == MOST_LEVELS {
            return Err(self.refused(Refusal::TooDeep));
        }
        Ok(Self {
            level: self.level + 1,
            ..self
        })
    }

    /// Ends the reading; what the error says is written by [`unreadable`].
    fn refused<E: Error>(self, refusal: Refusal) -> E {
        *self.refusal.borrow_mut() = Some(refusal);
        E::custom("")
    }
}

impl<'de> serde::de::DeserializeSeed<'de> for Within<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Within<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // What serde would say; our own messages stand in its place.
        f.write_str("")
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(u64::try_from(value).map_or(Value::Negative(value), Value::Whole))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(Value::Whole(value))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Ok(Value::Number(value))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::Text(value.to_owned()))
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let item = self.deeper()?;
        let mut values = Vec::new();
        while let Some(value) = items.next_element_seed(item)? {
            values.push(value);
        }
        Ok(Value::List(values))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let entry = self.deeper()?;
        let mut map: Vec<(String, Value)> = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            if map.iter().any(|(known, _)| *known == key) {
                return Err(self.refused(Refusal::Twice(key)));
            }
            let value = entries.next_value_seed(entry)?;
            map.push((key, value));
        }
        Ok(Value::Object(map))
    }
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
