//! How wide a text will be, the same for every backend.
//!
//! The backends measure text differently or not at all, and layout must not depend on which
//! one paints. The widths are those of the face the page ships (Barlow Semi Condensed), rounded
//! up, so a text never fills more than its box.

use super::names::isolates;

/// Height of a line of text over its font size.
pub const LINE: f64 = 1.2;

/// Width of a text in CSS pixels at font size `size`.
pub fn width(text: &str, size: f64, bold: bool) -> f64 {
    let em: f64 = text.chars().map(advance).sum();
    em * size * if bold { 1.06 } else { 1.0 }
}

/// Advance width of a character in em.
fn advance(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | 'I' => 0.27,
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '/' | '-' | ' ' => 0.38,
        'm' | 'w' | 'M' | 'W' | '@' | '%' => 0.84,
        '\u{2009}' => 0.2,
        c if isolates(c) => 0.0,
        'A'..='Z' => 0.62,
        '0'..='9' | '\u{2212}' | '+' | '=' | '×' | '–' | '→' => 0.57,
        _ => 0.54,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_texts_and_larger_sizes_are_wider() {
        assert!(width("Ring 2", 12.0, false) < width("Ring 12", 12.0, false));
        assert!(width("Ring 2", 12.0, false) < width("Ring 2", 13.0, false));
        assert!(width("Ring 2", 12.0, false) < width("Ring 2", 12.0, true));
    }
}
