//! Whole numbers the elimination runs on: `i64` with every overflow noticed, or [`BigInt`].

use std::convert::Infallible;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{Signed, Zero};

use crate::fraction::Fraction;

/// A result did not fit: redo the work with [`BigInt`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Overflow;

/// A signed integer type with the few operations the elimination needs.
///
/// An operation that could overflow returns a `Result`: never a wrong number. [`BigInt`]
/// cannot overflow, which its error type says to the compiler.
pub(crate) trait Whole: Clone + std::fmt::Debug {
    /// What a failed operation returns.
    type Overflow: std::fmt::Debug;

    fn from_small(value: i64) -> Self;
    fn is_zero(&self) -> bool;
    /// `a·x − b·y`, exactly.
    fn cross(a: &Self, x: &Self, b: &Self, y: &Self) -> Result<Self, Self::Overflow>;
    /// `self − other`, exactly.
    fn minus(&self, other: &Self) -> Result<Self, Self::Overflow>;
    /// `self + k·x`, exactly.
    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Self::Overflow>;
    /// Divides a column by its greatest common divisor where that is worth the time.
    fn shrink(column: &mut [Self]);
    /// Compares by size; a small pivot keeps later numbers small.
    fn is_smaller_than(&self, other: &Self) -> bool;
    /// `self / den`; `None` when `den` is zero.
    fn over(&self, den: &Self) -> Option<Fraction>;
}

/// Columns with entries below this bound are left as they are: their products still fit
/// `i64`, and a greatest common divisor costs more than it saves.
const SHRINK_ABOVE: u64 = 1 << 24;

/// Whether all factors fit 32 bits. Such are multiplied as they are: the sum or difference of two
/// products of them fits 64. Longer ones take the way that notices an overflow, which on machines
/// without a flag for it (wasm) is many times slower.
fn all_short<const N: usize>(factors: [i64; N]) -> bool {
    // The bits that differ from the sign, of all at once: one comparison instead of N.
    let bits = factors
        .iter()
        .fold(0, |bits, factor| bits | (factor ^ (factor >> 63)));
    bits <= i64::from(i32::MAX)
}

impl Whole for i64 {
    type Overflow = Overflow;

    fn from_small(value: i64) -> Self {
        value
    }

    fn is_zero(&self) -> bool {
        *self == 0
    }

    fn cross(a: &Self, x: &Self, b: &Self, y: &Self) -> Result<Self, Overflow> {
        if all_short([*a, *x, *b, *y]) {
            return Ok(a * x - b * y);
        }
        let left = i128::from(*a) * i128::from(*x);
        let right = i128::from(*b) * i128::from(*y);
        left.checked_sub(right)
            .and_then(|value| value.try_into().ok())
            .ok_or(Overflow)
    }

    fn minus(&self, other: &Self) -> Result<Self, Overflow> {
        self.checked_sub(*other).ok_or(Overflow)
    }

    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Overflow> {
        if all_short([*self, k, *x]) {
            return Ok(self + k * x);
        }
        k.checked_mul(*x)
            .and_then(|scaled| self.checked_add(scaled))
            .ok_or(Overflow)
    }

    fn shrink(column: &mut [Self]) {
        if column.iter().all(|x| x.unsigned_abs() < SHRINK_ABOVE) {
            return;
        }
        let mut divisor = 0_i64;
        for x in column.iter() {
            // |i64::MIN| has no i64; such a column is left alone and may overflow later,
            // which is noticed and redone with BigInt.
            if *x == i64::MIN {
                return;
            }
            divisor = divisor.gcd(x);
            if divisor == 1 {
                return;
            }
        }
        if divisor > 1 {
            column.iter_mut().for_each(|x| *x /= divisor);
        }
    }

    fn is_smaller_than(&self, other: &Self) -> bool {
        self.unsigned_abs() < other.unsigned_abs()
    }

    fn over(&self, den: &Self) -> Option<Fraction> {
        Fraction::new(*self, *den)
    }
}

impl Whole for BigInt {
    type Overflow = Infallible;

    fn from_small(value: i64) -> Self {
        Self::from(value)
    }

    fn is_zero(&self) -> bool {
        Zero::is_zero(self)
    }

    fn cross(a: &Self, x: &Self, b: &Self, y: &Self) -> Result<Self, Infallible> {
        Ok(a * x - b * y)
    }

    fn minus(&self, other: &Self) -> Result<Self, Infallible> {
        Ok(self - other)
    }

    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Infallible> {
        Ok(self + x * k)
    }

    fn shrink(column: &mut [Self]) {
        let divisor = column.iter().fold(Self::ZERO, |divisor, x| divisor.gcd(x));
        if divisor > Self::from(1) {
            column.iter_mut().for_each(|x| *x /= &divisor);
        }
    }

    fn is_smaller_than(&self, other: &Self) -> bool {
        self.abs() < other.abs()
    }

    fn over(&self, den: &Self) -> Option<Fraction> {
        Fraction::from_big(self.clone(), den.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_numbers_that_do_not_fit_say_so() {
        assert_eq!(i64::cross(&i64::MAX, &2, &0, &0), Err(Overflow));
        assert_eq!(
            i64::cross(&i64::MIN, &i64::MIN, &i64::MIN, &i64::MAX),
            Err(Overflow)
        );
        assert_eq!(i64::cross(&3, &5, &2, &4), Ok(7));
        let (least, most) = (i64::from(i32::MIN), i64::from(i32::MAX));
        for [a, x, b, y] in [
            [least, least, least, most],
            [least, most, least, least],
            [least - 1, least, most + 1, most],
        ] {
            let exact = i128::from(a) * i128::from(x) - i128::from(b) * i128::from(y);
            assert_eq!(i64::cross(&a, &x, &b, &y).map(i128::from), Ok(exact));
        }
        assert_eq!(1_i64.plus_scaled(i64::MAX, &2), Err(Overflow));
        assert_eq!(i64::MIN.minus(&1), Err(Overflow));
    }

    #[test]
    fn shrinking_keeps_direction() {
        let mut column = [-6 << 30, 9 << 30, 0];
        i64::shrink(&mut column);
        assert_eq!(column, [-2, 3, 0]);
    }
}
