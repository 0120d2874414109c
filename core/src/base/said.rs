//! What is said in the language in use.

use super::catalogue::{Catalogue, Values};

/// A message with its variables put in.
pub fn said(key: &str, values: Values<'_>) -> String {
    Catalogue::spoken().write(key, 0, values)
}

/// The same with whole numbers among the variables: written in one place, since every other place
/// that does it costs an engine some bytes.
pub(crate) fn said_of(key: &str, values: Values<'_>, numbers: &[(&str, u32)]) -> String {
    let written: Vec<String> = numbers
        .iter()
        .map(|(_, number)| number.to_string())
        .collect();
    let mut all = values.to_vec();
    all.extend(
        numbers
            .iter()
            .zip(&written)
            .map(|((name, _), number)| (*name, number.as_str())),
    );
    said(key, &all)
}

/// A message that has none, as it stands.
pub fn word(key: &str) -> &str {
    Catalogue::spoken().plain(key)
}

/// A message of how many there are.
pub fn counted(key: &str, count: usize) -> String {
    Catalogue::spoken().write(key, count, &[])
}
