//! Numbers as a learner writes them, exactly: `0.259`, `-7/27`, and with a comma for the point.

use levertrain_exact::Fraction;
use num_bigint::BigInt;

/// Most digits on either side of a stroke: more than any speed within the limits has.
const MOST: usize = 400;

/// The number that a text writes; `None` where it writes none.
pub(super) fn number(text: &str) -> Option<Fraction> {
    let text = text.trim().replace([' ', '\u{2009}', '\u{a0}'], "");
    let bare = text.strip_prefix(['-', '\u{2212}']);
    let negative = bare.is_some();
    let bare = bare.unwrap_or_else(|| text.strip_prefix('+').unwrap_or(&text));
    let size = match bare.split_once('/') {
        Some((above, below)) => decimal(above)?.over(&decimal(below)?)?,
        None => decimal(bare)?,
    };
    Some(if negative { -&size } else { size })
}

fn decimal(text: &str) -> Option<Fraction> {
    let (before, after) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let digits = format!("{before}{after}");
    let allowed = !digits.is_empty() && digits.len() <= MOST;
    if !allowed || !digits.bytes().all(|digit| digit.is_ascii_digit()) {
        return None;
    }
    let places = u32::try_from(after.len()).ok()?;
    Fraction::from_big(digits.parse().ok()?, BigInt::from(10).pow(places))
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn what_people_write_is_read_exactly() {
        for (text, exact) in [
            ("0.25", "1/4"),
            ("0,25", "1/4"),
            (".5", "1/2"),
            ("\u{2212}7/27", "-7/27"),
            ("-1 000", "-1000"),
            ("+3", "3"),
            ("1.5/4.5", "1/3"),
        ] {
            let read = number(text).map(|value| value.to_string());
            assert_eq!(read.as_deref(), Some(exact), "{text}");
        }
        for text in ["", "-", "one", "1/0", "1.2.3", "1e3", "--1", "."] {
            assert_eq!(number(text), None, "{text}");
        }
    }
}
