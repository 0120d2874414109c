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
    /// The bits that the entries of a column take, of all in one; none where numbers have no bound.
    fn bits(column: &[Self]) -> Bits;
    /// Adds the entries of `a·x − b·y` to `into`, exactly, for two columns `x` and `y` of the same
    /// length, each with its factor; divided by what they have in common where that is worth the
    /// time. `bits` are those of both columns or more; the new column's are returned.
    fn cross(
        ax: (&Self, &[Self]),
        by: (&Self, &[Self]),
        bits: Bits,
        into: &mut Vec<Self>,
    ) -> Result<Bits, Self::Overflow>;
    /// Adds a column's entries to `into`; their bits are returned.
    fn copy(column: &[Self], into: &mut Vec<Self>) -> Bits;
    /// `self − other`, exactly; `bits` are those of both or more.
    fn minus(&self, other: &Self, bits: Bits) -> Result<Self, Self::Overflow>;
    /// `self + k·x`, exactly.
    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Self::Overflow>;
    /// Divides a column by its greatest common divisor.
    fn reduce(column: &mut [Self]);
    /// Compares by size; a small pivot keeps later numbers small.
    fn is_smaller_than(&self, other: &Self) -> bool;
    /// `self / den`; `None` when `den` is zero.
    fn over(&self, den: &Self) -> Option<Fraction>;
}

/// Columns with entries of no more bits are left as they are: a greatest common divisor of all costs more than it
/// saves. They are [`SHORT`], and where they are long for a product its two factors lose what they have in common.
const REDUCE_ABOVE: Bits = SHORT;

/// Leading zeros of two factors together, with which a product of them is hardly longer than [`REDUCE_ABOVE`]: it has one
/// sign for their two.
const ROOM_FOR_PRODUCTS: u32 = u64::BITS + 30;

/// Bits that numbers take with their signs, of several in one, so that one comparison serves for all: a bit is set
/// where any number changes from it to the next lower one, and so the highest is where the longest's sign begins.
pub(crate) type Bits = u64;

/// Factors of no more bits are multiplied as they are: the sum or difference of two products of
/// them fits 64. Longer ones take the way that notices an overflow, which on machines without a
/// flag for it (wasm) is many times slower.
const SHORT: Bits = u32::MAX as Bits;

// Not by the sign bit, which is spread by an instruction that vectors of 64-bit numbers lack on many machines.
fn bits(value: i64) -> Bits {
    (value ^ (value << 1)) as Bits
}

/// As [`Whole::cross`] of numbers of any length, but for the division.
// Apart, so that the loops of the short case stay small enough to be unrolled.
#[cold]
#[inline(never)]
fn cross_long(
    (a, x): (i64, &[i64]),
    (b, y): (i64, &[i64]),
    into: &mut Vec<i64>,
) -> Result<(), Overflow> {
    for (x, y) in x.iter().zip(y) {
        let left = i128::from(a) * i128::from(*x);
        let right = i128::from(b) * i128::from(*y);
        let entry = left.checked_sub(right).ok_or(Overflow)?;
        into.push(entry.try_into().map_err(|_| Overflow)?);
    }
    Ok(())
}

/// Both factors without what they have in common.
// Inline for the walk, as `Columns::narrow_here`.
#[inline(always)]
fn without_common(a: i64, b: i64) -> (i64, i64) {
    let divisor = common_divisor(a, b);
    if divisor > 1 {
        (a / divisor, b / divisor)
    } else {
        (a, b)
    }
}

/// The greatest common divisor of short numbers, one of long ones.
// A call, as its loop would crowd what surrounds it.
#[inline(never)]
fn common_divisor(a: i64, b: i64) -> i64 {
    let short = |x: i64| u32::try_from(x.unsigned_abs());
    match (short(a), short(b)) {
        (Ok(a), Ok(b)) => i64::from(a.gcd(&b)),
        _ => 1,
    }
}

impl Whole for i64 {
    type Overflow = Overflow;

    fn from_small(value: i64) -> Self {
        value
    }

    fn is_zero(&self) -> bool {
        *self == 0
    }

    fn bits(column: &[Self]) -> Bits {
        column.iter().fold(0, |all, x| all | bits(*x))
    }

    // Inline for the walk, as `Columns::narrow_here`: it is its innermost loop.
    #[inline(always)]
    fn cross(
        (a, x): (&Self, &[Self]),
        (b, y): (&Self, &[Self]),
        of_both: Bits,
        into: &mut Vec<Self>,
    ) -> Result<Bits, Overflow> {
        let start = into.len();
        let pairs = x.iter().zip(y);
        let mut new = 0;
        let factors = bits(*a) | bits(*b);
        // Products about to be too long are worth a look at two numbers before all of theirs.
        let (a, b) = if of_both.leading_zeros() + factors.leading_zeros() < ROOM_FOR_PRODUCTS {
            without_common(*a, *b)
        } else {
            (*a, *b)
        };
        if of_both | bits(a) | bits(b) <= SHORT {
            into.extend(pairs.map(|(x, y)| {
                let entry = a * x - b * y;
                new |= bits(entry);
                entry
            }));
        } else {
            cross_long((a, x), (b, y), into)?;
            new = Self::bits(&into[start..]);
        }
        if new > REDUCE_ABOVE {
            let column = &mut into[start..];
            Self::reduce(column);
            new = Self::bits(column);
        }
        Ok(new)
    }

    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    fn copy(column: &[Self], into: &mut Vec<Self>) -> Bits {
        let mut all = 0;
        into.extend(column.iter().map(|x| {
            all |= bits(*x);
            *x
        }));
        all
    }

    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    fn minus(&self, other: &Self, of_both: Bits) -> Result<Self, Overflow> {
        if of_both <= SHORT {
            return Ok(self - other);
        }
        self.checked_sub(*other).ok_or(Overflow)
    }

    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Overflow> {
        if bits(*self) | bits(k) | bits(*x) <= SHORT {
            return Ok(self + k * x);
        }
        k.checked_mul(*x)
            .and_then(|scaled| self.checked_add(scaled))
            .ok_or(Overflow)
    }

    // Apart: a walk seldom needs it, and its division loop would crowd what surrounds it.
    #[inline(never)]
    fn reduce(column: &mut [Self]) {
        let mut divisor = 0;
        for x in column.iter() {
            divisor = x.unsigned_abs().gcd(&divisor);
            if divisor == 1 {
                return;
            }
        }
        // Only |i64::MIN| has no i64; such a column is left alone and may overflow later,
        // which is noticed and redone with BigInt.
        if let Ok(divisor) = i64::try_from(divisor)
            && divisor > 1
        {
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

/// The entries of `a·x − b·y`, for two columns `x` and `y` of the same length, each with its factor; divided by what they
/// have in common.
// A call: long numbers take their time anyhow.
#[inline(never)]
pub fn crossed((a, x): (&BigInt, &[BigInt]), (b, y): (&BigInt, &[BigInt])) -> Vec<BigInt> {
    let pairs = x.iter().zip(y);
    let mut column: Vec<BigInt> = pairs.map(|(x, y)| a * x - b * y).collect();
    BigInt::reduce(&mut column);
    column
}

impl Whole for BigInt {
    type Overflow = Infallible;

    fn from_small(value: i64) -> Self {
        Self::from(value)
    }

    fn is_zero(&self) -> bool {
        Zero::is_zero(self)
    }

    fn bits(_: &[Self]) -> Bits {
        0
    }

    fn cross(
        (a, x): (&Self, &[Self]),
        (b, y): (&Self, &[Self]),
        _: Bits,
        into: &mut Vec<Self>,
    ) -> Result<Bits, Infallible> {
        into.append(&mut crossed((a, x), (b, y)));
        Ok(0)
    }

    fn copy(column: &[Self], into: &mut Vec<Self>) -> Bits {
        into.extend_from_slice(column);
        0
    }

    fn minus(&self, other: &Self, _: Bits) -> Result<Self, Infallible> {
        Ok(self - other)
    }

    fn plus_scaled(&self, k: i64, x: &Self) -> Result<Self, Infallible> {
        Ok(self + x * k)
    }

    // A call, as of `i64`.
    #[inline(never)]
    fn reduce(column: &mut [Self]) {
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

    fn cross_bits(
        [a, b]: [i64; 2],
        x: &[i64],
        y: &[i64],
        into: &mut Vec<i64>,
    ) -> Result<Bits, Overflow> {
        i64::cross((&a, x), (&b, y), i64::bits(x) | i64::bits(y), into)
    }

    #[test]
    fn small_numbers_that_do_not_fit_say_so() {
        let cross = |a: i64, x: i64, b: i64, y: i64| {
            let mut column = Vec::new();
            cross_bits([a, b], &[x], &[y], &mut column).map(|_| column[0])
        };
        assert_eq!(cross(i64::MAX, 2, 0, 0), Err(Overflow));
        assert_eq!(cross(i64::MIN, i64::MIN, i64::MIN, i64::MAX), Err(Overflow));
        assert_eq!(cross(3, 5, 2, 4), Ok(7));
        let (least, most) = (i64::from(i32::MIN), i64::from(i32::MAX));
        for [a, x, b, y] in [
            [least, least, least, most],
            [least, most, least, least],
            [least - 1, least, most + 1, most],
        ] {
            // A single entry would be divided by itself.
            let mut column = Vec::new();
            let done = cross_bits([a, b], &[x, 0], &[y, 1], &mut column);
            assert_eq!(done, Ok(i64::bits(&column)));
            let exact = i128::from(a) * i128::from(x) - i128::from(b) * i128::from(y);
            let [first, second] = [0, 1].map(|entry| i128::from(column[entry]));
            assert_eq!(first * -i128::from(b), exact * second);
        }
        assert_eq!(1_i64.plus_scaled(i64::MAX, &2), Err(Overflow));
        assert_eq!(i64::MIN.minus(&1, Bits::MAX), Err(Overflow));
    }

    #[test]
    fn reducing_keeps_direction() {
        let mut column = [-6 << 30, 9 << 30, 0];
        i64::reduce(&mut column);
        assert_eq!(column, [-2, 3, 0]);
    }
}
