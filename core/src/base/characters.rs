//! Characters that are not seen, or do to others what is not seen.

/// Whether a character ends a line or turns the direction of what follows: shown in a sentence, it
/// would change the words of others.
pub(crate) fn steers(c: char) -> bool {
    matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Whether a character leaves no mark on its own.
pub(crate) fn is_blank(c: char) -> bool {
    let no_width = matches!(c, '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}'
        | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
        | '\u{2060}'..='\u{206f}' | '\u{2800}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}' | '\u{ffa0}' | '\u{e0000}'..='\u{e0fff}');
    c.is_whitespace() || no_width
}

/// Where a part first stands in a text. The search of the standard library is made for long texts,
/// and weighs more than a kilobyte of engine.
pub fn place_of(text: &str, part: &str) -> Option<usize> {
    let last = text.len().checked_sub(part.len())?;
    let (text, part) = (text.as_bytes(), part.as_bytes());
    (0..=last).find(|&at| text.get(at..).is_some_and(|rest| rest.starts_with(part)))
}

#[cfg(test)]
mod tests {
    use super::place_of;

    #[test]
    fn a_part_is_found_where_it_first_stands() {
        for (text, part, place) in [
            ("Ring + ring", " + ", Some(4)),
            ("ababac", "aba", Some(0)),
            ("ababac", "bac", Some(3)),
            ("Träger", "ger", Some(4)),
            ("a", "", Some(0)),
            ("", "a", None),
            ("ab", "abc", None),
            ("ab", "c", None),
        ] {
            assert_eq!(place_of(text, part), place, "{part:?} in {text:?}");
            assert_eq!(place_of(text, part), text.find(part));
        }
    }
}
