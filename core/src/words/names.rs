//! Labels of a scenario inside a sentence, and lists of them.

use crate::base::characters::place_of;
use crate::base::said::said;

/// What a label is in its sentence. Articles follow it in German, and in English nothing does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Case {
    /// It does something.
    Subject,
    /// Something is done to it.
    Object,
    /// Something is of it, or goes with it.
    Dative,
}

impl Case {
    /// The variable that messages choose by.
    pub const fn value(self) -> (&'static str, &'static str) {
        let word = match self {
            Self::Subject => "subject",
            Self::Object => "object",
            Self::Dative => "dative",
        };
        ("case", word)
    }
}

/// A label inside a sentence, where it does something.
pub fn noun(label: &str) -> String {
    noun_as(label, Case::Subject)
}

/// A label inside a sentence: one whose last word names a kind of thing takes an article, as "the
/// carrier"; any other is a name and stays as its author wrote it, as "Carrier 2".
pub fn noun_as(label: &str, case: Case) -> String {
    let name = place_of(label, " + ").and_then(|end| label.get(..end));
    let name = name.unwrap_or(label);
    let word = name.rsplit_once(' ').map_or(name, |(_, word)| word);
    let kind = word.to_ascii_lowercase();
    if place_of(&said("kinds", &[]), &format!(" {kind} ")).is_none() {
        return label.to_owned();
    }
    let name = label;
    let mut label = label.to_owned();
    // A word in capitals keeps them.
    let second = label.as_bytes().get(1);
    if !second.is_some_and(u8::is_ascii_uppercase)
        && let Some(first) = label.get_mut(..1)
    {
        first.make_ascii_lowercase();
    }
    said(
        "noun",
        &[
            ("label", &label),
            ("name", name),
            ("kind", &kind),
            case.value(),
        ],
    )
}

/// A sentence with its article, if it begins with one, in a capital. Names keep their case.
pub(crate) fn begun(mut sentence: String) -> String {
    let first = sentence.split(' ').next().unwrap_or_default();
    if place_of(&said("articles", &[]), &format!(" {first} ")).is_some()
        && let Some(first) = sentence.get_mut(..1)
    {
        first.make_ascii_uppercase();
    }
    sentence
}

/// Names in a sentence: `A`, `A and B`, `A, B and C`. Names that hold a comma or an "and" of their
/// own are parted by semicolons, so that "1st, held" does not read as two.
pub fn listed<S: AsRef<str>>(names: &[S]) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    joined(&names, ["list-and", "list-and-clear"])
}

/// The same of a choice: `A, B or C`.
pub(super) fn one_of(names: &[String]) -> String {
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    joined(&names, ["list-or", "list-or-clear"])
}

/// Parts of a sentence, parted by semicolons.
pub(crate) fn parted(parts: &[String]) -> String {
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    in_turn(&parts, ["list-clear", "list-clear"])
}

fn joined(names: &[&str], [end, end_clear]: [&str; 2]) -> String {
    let and = said("and-within", &[]);
    if names
        .iter()
        .any(|name| name.contains(',') || place_of(name, &and).is_some())
    {
        in_turn(names, ["list-clear", end_clear])
    } else {
        in_turn(names, ["list", end])
    }
}

/// The first message between all but the last two.
fn in_turn(names: &[&str], [between, end]: [&str; 2]) -> String {
    let mut list = String::new();
    for (place, name) in names.iter().enumerate() {
        list = match place {
            0 => (*name).to_owned(),
            _ if place + 1 == names.len() => add(end, &list, name),
            _ => add(between, &list, name),
        };
    }
    list
}

fn add(key: &str, most: &str, last: &str) -> String {
    said(key, &[("most", most), ("last", last)])
}
