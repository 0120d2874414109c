//! A language that is made up: English in letters of another script, so that whatever is still in
//! ours was not written from the catalogue.

use std::collections::BTreeSet;

use serde_json::Value;

/// What is alike in all languages: letters of members and pinions, and symbols of units.
const SYMBOLS: [&str; 16] = [
    "S", "Sa", "Sb", "R", "C", "H", "P", "Q", "Za", "Zb", "rev", "min", "rad", "s", "N", "m",
];
/// The first of the marks, which are letters without a meaning.
pub const FIRST_MARK: u32 = 0xe000;
/// The first word in our letters that is no symbol and not known.
pub fn ours(text: &str, known: &BTreeSet<String>) -> Option<String> {
    let is_part = |c: char| c.is_ascii_alphanumeric();
    let words = text
        .split(|c: char| !is_part(c))
        .filter(|word| !word.is_empty());
    let mut words = words.filter(|word| {
        let letters = word.trim_matches(|c: char| c.is_ascii_digit());
        !letters.is_empty() && !SYMBOLS.contains(&letters) && !known.contains(*word)
    });
    words.next().map(str::to_owned)
}

/// A catalogue with its texts, and nothing else, in other letters, and some of them marked.
pub fn made_up(catalogue: &str, marked: &[String]) -> String {
    let mut written = String::new();
    // Which braces are open, and whether what stands in them is text now, as in a variant.
    let mut open: Vec<bool> = Vec::new();
    let (mut key, mut literal) = (true, false);
    let comments = |line: &&str| !line.starts_with('#');
    let lines: Vec<&str> = catalogue.lines().filter(comments).collect();
    for letter in (lines.join("\n") + "\n").chars() {
        let is_text = !key && !literal && open.last().is_none_or(|text| *text);
        written.push(if is_text { other(letter) } else { letter });
        match letter {
            '=' if key => {
                key = false;
                let line = written.rsplit('\n').next().unwrap_or_default();
                let name = line.trim_end_matches([' ', '=']);
                let place = marked.iter().position(|marked| marked == name);
                let mark = place.and_then(|place| char::from_u32(FIRST_MARK + place as u32));
                written.extend(mark.into_iter().flat_map(|mark| [' ', mark]));
            }
            '"' if open.last() == Some(&false) => literal = !literal,
            _ if literal => {}
            '{' => open.push(false),
            '}' => drop(open.pop()),
            ']' | '\n' => {
                key |= letter == '\n' && open.is_empty();
                if let Some(text) = open.last_mut() {
                    *text = letter == ']';
                }
            }
            _ => {}
        }
    }
    written
}

/// A letter of the other script.
fn other(letter: char) -> char {
    let first = match letter {
        'a'..='z' => 'а' as u32 - 'a' as u32,
        'A'..='Z' => 'А' as u32 - 'A' as u32,
        _ => return letter,
    };
    char::from_u32(letter as u32 + first).unwrap_or(letter)
}

/// Writes what people call things in the other script.
pub fn rename(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                match value {
                    Value::String(text) => {
                        if ["label", "name", "about", "housing_label"].contains(&name.as_str()) {
                            *text = text.chars().map(other).collect();
                        }
                    }
                    value => rename(value),
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(rename),
        _ => {}
    }
}
