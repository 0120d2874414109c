//! Names that run from right to left, kept to themselves in texts that run the other way: without it a
//! number beside a name would be drawn on its other side.

use std::borrow::Cow;

/// Before a text of a direction of its own, and behind it. Neither leaves a mark.
pub(super) const OPENS: char = '\u{2068}';
pub(super) const CLOSES: char = '\u{2069}';

/// What the author of a train has written, as it stands in a drawing.
#[inline(never)]
pub fn isolated(name: &str) -> Cow<'_, str> {
    match name.chars().any(runs_leftward) {
        true => {
            let mut text = String::from(OPENS);
            text.push_str(name);
            text.push(CLOSES);
            Cow::Owned(text)
        }
        false => Cow::Borrowed(name),
    }
}

/// A text that was cut, with its sign that it goes on: a name that was cut ends there.
#[inline(never)]
pub fn cut(kept: &str) -> String {
    let mut text = kept.trim_end().to_owned();
    text.push('…');
    // The last that was opened, if it was not closed.
    if kept.chars().rfind(|&c| isolates(c)) == Some(OPENS) {
        text.push(CLOSES);
    }
    text
}

/// Whether a character is only there to keep a name to itself.
pub const fn isolates(c: char) -> bool {
    matches!(c, OPENS | CLOSES)
}

/// Letters of Hebrew, Arabic and their neighbours.
pub(super) const fn runs_leftward(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}'
        | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}
