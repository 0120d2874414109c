//! Exact numbers to calculate with, apart from the core's own.

use levertrain_core::Fraction;
use num_bigint::BigInt;
use num_rational::Ratio;

/// An exact fraction of big integers.
pub type Rational = Ratio<BigInt>;

/// A core fraction as one to calculate with.
pub fn rational(value: &Fraction) -> Rational {
    Rational::new(value.numerator(), value.denominator())
}

/// Zero.
pub fn zero() -> Rational {
    Rational::from(BigInt::ZERO)
}

/// One.
pub fn one() -> Rational {
    Rational::from(BigInt::from(1))
}

/// 10 to the power of `exponent`.
pub fn power_of_ten(exponent: usize) -> BigInt {
    (0..exponent).fold(BigInt::from(1), |power, _| power * 10)
}

/// `12/5`, `-3` or `2.479` as a number.
///
/// # Panics
/// When `text` is none of these.
#[track_caller]
pub fn parsed(text: &str) -> Rational {
    let whole = |text: &str| -> BigInt {
        text.parse()
            .unwrap_or_else(|error| panic!("{text:?} is not a whole number: {error}"))
    };
    match (text.split_once('/'), text.split_once('.')) {
        (Some((numerator, denominator)), None) => {
            Rational::new(whole(numerator), whole(denominator))
        }
        (None, Some((before, after))) => Rational::new(
            whole(&format!("{before}{after}")),
            power_of_ten(after.len()),
        ),
        _ => Rational::from(whole(text)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_read_exactly() {
        let fifths = Rational::new(12.into(), 5.into());
        assert_eq!(parsed("24/10"), fifths);
        assert_eq!(parsed("2.40"), fifths);
        assert_eq!(parsed("-2.4"), -fifths);
        assert_eq!(parsed("-0.5"), Rational::new((-1).into(), 2.into()));
        assert_eq!(parsed("7"), Rational::from(BigInt::from(7)));
    }
}
