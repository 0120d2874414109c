//! The `f64` nearest to an exact number.

use std::cmp::Ordering;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{Signed, ToPrimitive, Zero};

/// The `f64` nearest to `num / den`, for any denominator but zero; nothing where that would take
/// longer numbers than an `f64` has.
pub(crate) fn quotient(num: i64, den: i64) -> Option<f64> {
    // Both are exact in f64, so that only the division rounds. Adding zero turns −0 into 0.
    let fit = num.unsigned_abs().max(den.unsigned_abs()) <= EXACT;
    fit.then(|| num as f64 / den as f64 + 0.0)
}

/// Whole numbers up to this size have an `f64` of their own.
const EXACT: u64 = 1 << f64::MANTISSA_DIGITS;
/// Bits of a quotient before it is rounded: more than an `f64` keeps, and few enough for `u64`.
const QUOTIENT_BITS: i64 = 60;
/// The smallest `f64` above zero is 2 to the power of minus this.
const LEAST_EXPONENT: i64 = 1074;

/// The `f64` nearest to `signed / den`, ties to even, for a quotient that is not zero and of any size.
pub(crate) fn nearest(signed: &BigInt, den: &BigInt) -> f64 {
    let num = signed.abs();
    // num / den = quotient · 2^-shift, with 60 or 61 bits of quotient and a rest.
    let shift = QUOTIENT_BITS + den.bits() as i64 - num.bits() as i64;
    let shifted = |value: &BigInt, by: i64| value << by.max(0);
    let (quotient, rest) = shifted(&num, shift).div_rem(&shifted(den, -shift));
    let quotient = quotient.to_u64().unwrap_or(u64::MAX);
    let bits = i64::from(u64::BITS - quotient.leading_zeros());
    // The bits that have no place in an f64; near its least value it keeps fewer.
    let drop = (bits - i64::from(f64::MANTISSA_DIGITS)).max(shift - LEAST_EXPONENT);
    let size = if drop > bits {
        // Below half of the least f64 above zero.
        0.0
    } else {
        let (kept, dropped) = (quotient >> drop, quotient & ((1 << drop) - 1));
        let half = 1 << (drop - 1);
        let up = match dropped.cmp(&half) {
            Ordering::Less => false,
            Ordering::Equal => !rest.is_zero() || kept % 2 == 1,
            Ordering::Greater => true,
        };
        // Two steps, as the power alone may have no f64; both are exact, or rightly infinite.
        let exponent = (drop - shift).min(2 * LEAST_EXPONENT) as i32;
        let first = exponent / 2;
        (kept + u64::from(up)) as f64 * 2_f64.powi(first) * 2_f64.powi(exponent - first)
    };
    size.copysign(if signed.is_negative() { -1.0 } else { 1.0 })
}

#[cfg(test)]
mod tests {
    use num_bigint::BigInt;

    use crate::Fraction;

    /// What is nearest is said by parsing the quotient's decimals, which the standard library
    /// rounds rightly.
    #[test]
    fn the_nearest_f64_is_found_above_2_53_and_at_ties() {
        let two = |power: usize| BigInt::from(1) << power;
        let check = |num: BigInt, den: BigInt, decimals: &str| {
            let found = Fraction::from_big(num, den).map(|x| x.to_f64().to_bits());
            let expected: Option<f64> = decimals.parse().ok();
            assert_eq!(found, expected.map(f64::to_bits), "{decimals}");
        };
        let odd: BigInt = two(53) + 1;
        check(odd.clone(), 1.into(), "9007199254740993");
        check(-&odd, 1.into(), "-9007199254740993");
        check(&odd * 2 + 1, 2.into(), "9007199254740993.5");
        check(two(53) + 3, 1.into(), "9007199254740995");
        check(
            i64::MAX.into(),
            (i64::MAX - 1).into(),
            "1.0000000000000000001084",
        );
        check(1.into(), two(1074), "4.9406564584124654e-324");
        check(1.into(), two(1075), "0");
        check((-1).into(), two(1075), "-0");
        check(odd.clone(), two(1128), "4.9406564584124654e-324");
        check(3.into(), two(1075), "1e-323");
        check(two(1024), 1.into(), "inf");
        check(two(1024) - two(970), 1.into(), "inf");
        check(two(1024) - two(970) - 1, 1.into(), "1.7976931348623157e308");
    }

    #[test]
    fn quotients_beyond_f64_still_convert() {
        let huge = num_traits::pow(BigInt::from(10), 400);
        let x = Fraction::from_big(&huge * 3, huge * 2);
        assert_eq!(x.map(|x| x.to_f64()), Some(1.5));
        let wide = num_traits::pow(BigInt::from(7), 500);
        let x = Fraction::from_big(&wide * 3 + 1, wide * 2).map(|x| x.to_f64());
        assert!(x.is_some_and(|x| (x - 1.5).abs() < 1e-15), "{x:?}");
    }
}
