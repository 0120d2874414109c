//! What is wrong with something a user gave us: where, what, and how to mend it.

use std::fmt;

use crate::base::catalogue::Values;
use crate::base::characters::{is_blank, steers};
use crate::base::said::{said, word};

/// One problem in a scenario file, a link or a command line.
///
/// A problem is a sentence in three parts, so that an interface can lay them out and a
/// terminal can print them on one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where: a path into the file such as `couplings[1].ring.teeth`, or `line 3, column 7`.
    pub place: String,
    /// What is wrong, quoting the value as it was given.
    pub what: String,
    /// What would mend it.
    pub fix: String,
}

impl Problem {
    /// A problem at `place`. What a message quotes may be anything: characters that do not print
    /// are escaped and long parts cut, so that a problem always fits a line.
    pub fn new(place: impl Into<String>, what: impl Into<String>, fix: impl Into<String>) -> Self {
        Self::of_texts(place.into(), what.into(), fix.into())
    }

    /// The same by the messages that say what is wrong and what would mend it, each with its
    /// variables.
    pub fn of(place: &str, what: (&str, Values<'_>), fix: (&str, Values<'_>)) -> Self {
        Self::of_texts(place.to_owned(), said(what.0, what.1), said(fix.0, fix.1))
    }

    /// The problem of a number that is not from `least` to `most`, as the message says.
    pub fn out_of_range(place: &str, message: &str, value: f64, least: f64, most: f64) -> Self {
        Self::of(
            place,
            (message, &[("found", &value.to_string())]),
            (
                "fix-range",
                &[("least", &least.to_string()), ("most", &most.to_string())],
            ),
        )
    }

    /// The problem in a line in which characters without a width are written out: a terminal shows nothing of them.
    /// A page does so by itself.
    pub fn on_a_terminal(&self) -> String {
        let written = |c: char| match is_blank(c) && !c.is_whitespace() {
            true => c.escape_unicode().to_string(),
            false => c.to_string(),
        };
        self.to_string().chars().map(written).collect()
    }

    fn of_texts(place: String, what: String, fix: String) -> Self {
        let place = match place.is_empty() {
            true => word("place-file").to_owned(),
            false => printable(place),
        };
        Self {
            place,
            what: printable(what),
            fix: printable(fix),
        }
    }
}

/// Most problems reported at once; nobody mends more in one go.
pub(crate) const MOST_PROBLEMS: usize = 50;
/// Most characters of each part of a problem.
const PART_CHARS: usize = 160;

fn printable(text: String) -> String {
    escaped(shortened(&text, PART_CHARS))
}

/// A text as a problem shows it, whose hidden characters are written out.
pub(crate) fn escaped(text: String) -> String {
    if !text.chars().any(is_hidden) {
        return text;
    }
    let escaped = |c: char| match is_hidden(c) {
        true => c.escape_default().to_string(),
        false => c.to_string(),
    };
    text.chars().map(escaped).collect()
}

/// Characters that would not be seen in a message, or would change what is.
fn is_hidden(c: char) -> bool {
    c.is_control() || steers(c)
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let values = [
            ("place", &*self.place),
            ("what", &self.what),
            ("fix", &self.fix),
        ];
        f.write_str(&said("problem", &values))
    }
}

impl std::error::Error for Problem {}

/// The start of a text that may be very long, for quoting in a message.
pub(crate) fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::Problem;

    /// Catches a place that is quoted and in which nobody sees what is wrong.
    #[test]
    fn what_has_no_width_is_written_out() {
        let problem = Problem::new(
            "line 1",
            "not JSON: \"\u{feff}{\u{200b}\u{ad}é \"",
            "mend it",
        );
        assert_eq!(
            problem.on_a_terminal(),
            "line 1: not JSON: \"\\u{feff}{\\u{200b}\\u{ad}é \"; mend it"
        );
    }
}
