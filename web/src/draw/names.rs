//! Names that run from right to left, kept to themselves in texts that run the other way: without it a
//! number beside a name would be drawn on its other side.

/// Before a text of a direction of its own, and behind it. Neither leaves a mark.
pub(super) const OPENS: char = '\u{2068}';
pub(super) const CLOSES: char = '\u{2069}';

/// What the author of a train has written, as it stands in a drawing.
// Once: it is called for in many places, and an engine would carry it as often.
#[inline(never)]
pub fn isolated(name: &str) -> String {
    let apart = name.chars().any(runs_leftward);
    let mut text = String::new();
    if apart {
        text.push(OPENS);
    }
    text += name;
    if apart {
        text.push(CLOSES);
    }
    text
}

/// A text that was cut, with its sign that it goes on: a name that was cut ends there.
// Once, as [`isolated`].
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

/// Letters of Hebrew, Arabic and their neighbours; what else stands among them loses nothing by being
/// kept to itself.
pub(super) const fn runs_leftward(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fefc}' | '\u{10800}'..='\u{1efff}')
}
