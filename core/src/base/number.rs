//! Numbers as a person reads them.

use super::said::word;

/// A number with `digits` significant figures, thousands separated by a thin space and with a
/// true minus sign; figures before the point are never dropped.
pub fn number(value: f64, digits: u32) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let size = value.abs();
    // Counted, since a logarithm and reading a number back are kilobytes of engine.
    let mut before = 1;
    let mut more = 10.0;
    while size >= more {
        before += 1;
        more *= 10.0;
    }
    let places = (digits as usize).saturating_sub(before);
    let mut text = format!("{size:.places$}");
    let mut whole = text.find('.').unwrap_or(text.len());
    // A number that was rounded up to one figure more has one decimal too many: 9.9996 is 10.00.
    if whole > before && places > 0 {
        text.pop();
        if text.ends_with('.') {
            text.pop();
        }
        whole = whole.min(text.len());
    }
    let is_zero = text.bytes().all(|byte| matches!(byte, b'0' | b'.'));
    let mut written = String::new();
    if value < 0.0 && !is_zero {
        written.push('\u{2212}');
    }
    let (before, after) = text.split_at_checked(whole).unwrap_or((&text, ""));
    for (index, digit) in before.chars().enumerate() {
        if index > 0 && whole > 4 && (whole - index).is_multiple_of(3) {
            written.push('\u{2009}');
        }
        written.push(digit);
    }
    if let Some(decimals) = after.get(1..) {
        written.push_str(decimal_sign());
        written.push_str(decimals);
    }
    written
}

/// What stands before decimals, in the language that is spoken.
pub fn decimal_sign() -> &'static str {
    word("decimal-sign")
}
