//! The messages of a catalogue as it is written.

use std::collections::BTreeSet;
use std::fs;

use anyhow::Result;
use levertrain_core::words::LANGUAGES;
use levertrain_tests::files::root;

/// The code of the language that the others are translated from.
pub const FIRST: &str = LANGUAGES[0];

pub fn text(language: &str) -> Result<String> {
    let file = root().join(format!("core/words/{language}.ftl"));
    Ok(fs::read_to_string(file)?)
}

/// The messages with their lines.
pub fn messages(language: &str) -> Result<Vec<(String, String)>> {
    let mut messages: Vec<(String, String)> = Vec::new();
    for line in text(language)?.lines() {
        match line.split_once(" = ") {
            Some((key, value)) if !line.starts_with([' ', '#', '}']) => {
                messages.push((key.to_owned(), value.to_owned()));
            }
            _ if line.starts_with('#') => {}
            _ => {
                if let Some((_, message)) = messages.last_mut() {
                    message.push('\n');
                    message.push_str(line);
                }
            }
        }
    }
    Ok(messages)
}

/// What stands between two signs, each time.
pub fn between<'a>(text: &'a str, start: &str, end: &str) -> BTreeSet<&'a str> {
    let parts = text.split(start).skip(1);
    parts
        .filter_map(|part| Some(part.split_once(end)?.0))
        .collect()
}

/// The names of variables in a text.
pub fn variables(text: &str) -> BTreeSet<&str> {
    let after = text.split('$').skip(1);
    after
        .filter_map(|part| part.split([' ', '}']).next())
        .collect()
}
