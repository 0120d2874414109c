//! What is said in the language in use.

use super::catalogue::{Catalogue, Values};

/// A message with its variables put in.
pub fn said(key: &str, values: Values<'_>) -> String {
    Catalogue::spoken().write(key, 0, values)
}

/// A message that has none, as it stands.
pub fn word(key: &str) -> &str {
    Catalogue::spoken().plain(key)
}

/// A message of how many there are.
pub fn counted(key: &str, count: usize) -> String {
    Catalogue::spoken().write(key, count, &[])
}
