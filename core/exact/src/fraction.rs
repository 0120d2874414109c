//! Exact fractions in lowest terms: speeds per input turn, and ratios.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};
use std::sync::Arc;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{Signed, ToPrimitive, Zero};

/// An exact rational number in lowest terms with a positive denominator.
///
/// Dimensionless: a speed per unit of input speed, or a ratio. The sign convention is the
/// same everywhere: positive turns the same way as the input.
///
/// Values that fit two `i64` are kept there; larger ones in big integers. The choice is
/// canonical, so equality is equality of value.
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Fraction(Repr);

#[derive(Clone, PartialEq, Eq, Hash)]
enum Repr {
    Small { num: i64, den: i64 },
    Big(Aside),
}

/// A big fraction, aligned as a small one's numbers are: what tells the two apart then takes a
/// whole word on every machine, and is written and copied as one. Shared, because the last owner's
/// clearing up is then a call, and not code in every loop that writes over fractions.
#[derive(Clone, PartialEq, Eq, Hash)]
#[repr(align(8))]
struct Aside(Arc<Quotient>);

/// Numerator and denominator, in lowest terms, the denominator positive.
#[derive(Clone, PartialEq, Eq, Hash)]
struct Quotient {
    num: BigInt,
    den: BigInt,
}

impl Fraction {
    /// Zero.
    pub const ZERO: Self = Self(Repr::Small { num: 0, den: 1 });
    /// One.
    pub const ONE: Self = Self(Repr::Small { num: 1, den: 1 });

    /// `num / den` in lowest terms; `None` when `den` is zero.
    // Inline across crates: every speed that is read makes one.
    #[inline]
    pub fn new(num: i64, den: i64) -> Option<Self> {
        if den == 0 {
            return None;
        }
        // Many a speed is none, or the input's own: these need no divisor.
        if num == 0 {
            return Some(Self::ZERO);
        }
        if num == den {
            return Some(Self::ONE);
        }
        Self::reduced(num, den)
    }

    /// As [`Fraction::new`] of two numbers that are not zero.
    fn reduced(num: i64, den: i64) -> Option<Self> {
        let mut there = None;
        Self::write_reduced(&mut there, num, den);
        there
    }

    /// As [`Fraction::reduced`] of numbers of at most 32 bits, as nearly all are: these are divided sooner.
    /// Native code looks for that by itself, a browser's does not.
    #[inline(always)]
    fn of_short(num: i64, den: i64) -> Option<Self> {
        let num_size = u32::try_from(num.unsigned_abs()).ok()?;
        let den_size = u32::try_from(den.unsigned_abs()).ok()?;
        let divisor = num_size.gcd(&den_size).max(1);
        let num_size = i64::from(num_size / divisor);
        Some(Self(Repr::Small {
            num: if (num < 0) == (den < 0) {
                num_size
            } else {
                -num_size
            },
            den: i64::from(den_size / divisor),
        }))
    }

    /// As [`Fraction::reduced`].
    // Apart, so that short numbers need no memory for what long ones take.
    #[cold]
    #[inline(never)]
    fn of_long(num: i64, den: i64) -> Option<Self> {
        // i64::MIN cannot be negated in place: the big path handles it.
        if num == i64::MIN || den == i64::MIN {
            return Self::from_big(BigInt::from(num), BigInt::from(den));
        }
        let mut pair = [num, den];
        <i64 as crate::whole::Whole>::reduce(&mut pair);
        let [num, den] = pair;
        let sign = den.signum();
        Some(Self(Repr::Small {
            num: num * sign,
            den: den * sign,
        }))
    }

    /// Writes [`Fraction::new`] over what is there, for a denominator that is not zero.
    // Inline for the walk, as `Columns::narrow_here`; what is returned would be written twice.
    #[inline(always)]
    pub(crate) fn write(there: &mut Option<Self>, num: i64, den: i64) {
        if num == 0 {
            *there = Some(Self::ZERO);
        } else if num == den {
            *there = Some(Self::ONE);
        } else {
            Self::write_reduced(there, num, den);
        }
    }

    #[inline(never)]
    fn write_reduced(there: &mut Option<Self>, num: i64, den: i64) {
        match Self::of_short(num, den) {
            Some(fraction) => *there = Some(fraction),
            None => Self::write_long(there, num, den),
        }
    }

    #[cold]
    #[inline(never)]
    fn write_long(there: &mut Option<Self>, num: i64, den: i64) {
        *there = Self::of_long(num, den);
    }

    /// `num / den` in lowest terms for numbers of any size; `None` when `den` is zero.
    pub fn from_big(num: BigInt, den: BigInt) -> Option<Self> {
        if Zero::is_zero(&den) {
            return None;
        }
        let mut divisor = num.gcd(&den);
        if den.is_negative() {
            divisor = -divisor;
        }
        let (num, den) = (num / &divisor, den / &divisor);
        Some(match (num.to_i64(), den.to_i64()) {
            (Some(num), Some(den)) => Self(Repr::Small { num, den }),
            _ => Self(Repr::Big(Aside(Arc::new(Quotient { num, den })))),
        })
    }

    /// The same in big integers.
    fn quotient(&self) -> Quotient {
        match &self.0 {
            Repr::Small { num, den } => Quotient {
                num: BigInt::from(*num),
                den: BigInt::from(*den),
            },
            Repr::Big(Aside(quotient)) => (**quotient).clone(),
        }
    }

    /// As small fractions, in big integers.
    #[cold]
    #[inline(never)]
    fn by_big(&self, other: &Self, operation: Operation) -> Self {
        let (Quotient { num: a, den: b }, Quotient { num: c, den: d }) =
            (self.quotient(), other.quotient());
        let num = match operation {
            Operation::Minus => &a * &d - &b * &c,
            Operation::Times => &a * &c,
        };
        // A product of denominators is never zero.
        Self::from_big(num, &b * &d).unwrap_or(Self::ZERO)
    }

    /// The numerator, which carries the sign.
    pub fn numerator(&self) -> BigInt {
        self.quotient().num
    }

    /// The denominator, always positive.
    pub fn denominator(&self) -> BigInt {
        self.quotient().den
    }

    /// Whether this is zero.
    pub fn is_zero(&self) -> bool {
        matches!(self.0, Repr::Small { num: 0, .. })
    }

    /// −1, 0 or 1.
    pub fn signum(&self) -> i32 {
        match &self.0 {
            Repr::Small { num, .. } => num.signum() as i32,
            Repr::Big(Aside(quotient)) => {
                if quotient.num.is_negative() {
                    -1
                } else {
                    1
                }
            }
        }
    }

    /// Its size.
    #[must_use]
    pub fn abs(&self) -> Self {
        if self.signum() < 0 {
            -self
        } else {
            self.clone()
        }
    }

    /// One over this; `None` for zero.
    pub fn recip(&self) -> Option<Self> {
        match &self.0 {
            Repr::Small { num: 0, .. } => None,
            // In lowest terms already, but for the sign.
            Repr::Small { num, den } if *num != i64::MIN => Some(Self(Repr::Small {
                num: den * num.signum(),
                den: num.abs(),
            })),
            Repr::Small { num, den } => Self::new(*den, *num),
            Repr::Big(Aside(quotient)) => {
                Self::from_big(quotient.den.clone(), quotient.num.clone())
            }
        }
    }

    /// This divided by `other`; `None` when `other` is zero.
    pub fn over(&self, other: &Self) -> Option<Self> {
        Some(self * &other.recip()?)
    }

    /// What `small` makes of both numerators and denominators where they are small; `None` where
    /// they are not, or the result overflows.
    fn with(&self, other: &Self, small: impl Fn([i64; 4]) -> Option<Self>) -> Option<Self> {
        match (&self.0, &other.0) {
            (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => {
                small([*a, *b, *c, *d])
            }
            _ => None,
        }
    }

    /// The nearest `f64`.
    pub fn to_f64(&self) -> f64 {
        match &self.0 {
            Repr::Small { num, den } => quotient(*num, *den),
            Repr::Big(_) => None,
        }
        .unwrap_or_else(|| nearest(&self.quotient()))
    }
}

/// The `f64` nearest to `num / den`, for any denominator but zero; nothing where that would take
/// longer numbers than an `f64` has.
pub(crate) fn quotient(num: i64, den: i64) -> Option<f64> {
    // Both are exact in f64, so that only the division rounds. Adding zero turns −0 into 0.
    let fit = num.unsigned_abs().max(den.unsigned_abs()) <= EXACT;
    fit.then(|| num as f64 / den as f64 + 0.0)
}

// Sums and products are calls: put into the loops of a linear program, they would be kilobytes.

impl Mul for &Fraction {
    type Output = Fraction;

    #[inline(never)]
    fn mul(self, other: Self) -> Fraction {
        let small = |[a, b, c, d]: [i64; 4]| Fraction::new(a.checked_mul(c)?, b.checked_mul(d)?);
        self.with(other, small)
            .unwrap_or_else(|| self.by_big(other, Operation::Times))
    }
}

impl Add for &Fraction {
    type Output = Fraction;

    #[inline(never)]
    fn add(self, other: Self) -> Fraction {
        let small = |[a, b, c, d]: [i64; 4]| {
            let sum = a.checked_mul(d)?.checked_add(c.checked_mul(b)?)?;
            Fraction::new(sum, b.checked_mul(d)?)
        };
        self.with(other, small)
            .unwrap_or_else(|| self.by_big(&-other, Operation::Minus))
    }
}

impl Sub for &Fraction {
    type Output = Fraction;

    #[inline(never)]
    fn sub(self, other: Self) -> Fraction {
        let small = |[a, b, c, d]: [i64; 4]| {
            let difference = a.checked_mul(d)?.checked_sub(c.checked_mul(b)?)?;
            Fraction::new(difference, b.checked_mul(d)?)
        };
        self.with(other, small)
            .unwrap_or_else(|| self.by_big(other, Operation::Minus))
    }
}

impl Neg for &Fraction {
    type Output = Fraction;

    fn neg(self) -> Fraction {
        match &self.0 {
            Repr::Small { num, den } if *num != i64::MIN => Fraction(Repr::Small {
                num: -num,
                den: *den,
            }),
            _ => {
                let Quotient { num, den } = self.quotient();
                Fraction::from_big(-num, den).unwrap_or(Fraction::ZERO)
            }
        }
    }
}

/// Whole numbers up to this size have an `f64` of their own.
const EXACT: u64 = 1 << f64::MANTISSA_DIGITS;
/// Bits of a quotient before it is rounded: more than an `f64` keeps, and few enough for `u64`.
const QUOTIENT_BITS: i64 = 60;
/// The smallest `f64` above zero is 2 to the power of minus this.
const LEAST_EXPONENT: i64 = 1074;

/// The nearest `f64`, ties to even, of a quotient that is not zero and of any size.
fn nearest(Quotient { num: signed, den }: &Quotient) -> f64 {
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

/// What is done in big integers.
#[derive(Debug, Clone, Copy)]
enum Operation {
    Minus,
    Times,
}

impl From<i64> for Fraction {
    fn from(value: i64) -> Self {
        Self(Repr::Small { num: value, den: 1 })
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Fraction {
    fn cmp(&self, other: &Self) -> Ordering {
        match (&self.0, &other.0) {
            (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => {
                (i128::from(*a) * i128::from(*d)).cmp(&(i128::from(*c) * i128::from(*b)))
            }
            _ => (self - other).signum().cmp(&0),
        }
    }
}

impl fmt::Display for Fraction {
    /// `12/5`, `-2`, `0`: ASCII, so that it can be read back.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.0 {
            Repr::Small { num, den: 1 } => write!(f, "{num}"),
            Repr::Small { num, den } => write!(f, "{num}/{den}"),
            Repr::Big(Aside(quotient)) => {
                let Quotient { num, den } = &**quotient;
                match den.to_i64() {
                    Some(1) => write!(f, "{num}"),
                    _ => write!(f, "{num}/{den}"),
                }
            }
        }
    }
}

impl fmt::Debug for Fraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(num: i64, den: i64, text: &str) {
        let new = Fraction::new(num, den);
        assert_eq!(new.as_ref().map(|x| x.to_string()).as_deref(), Some(text));
        // Over nothing, over a small one, and over one that takes memory of its own.
        let big = Fraction::from_big(BigInt::from(i64::MAX) * 4, BigInt::from(3));
        for mut there in [None, Some(Fraction::from(7)), big] {
            Fraction::write(&mut there, num, den);
            assert_eq!(there, new);
        }
    }

    #[test]
    fn lowest_terms_and_sign() {
        check(24, 10, "12/5");
        check(24, -10, "-12/5");
        check(-6, -3, "2");
        check(0, -3, "0");
        // About where numbers are short no more.
        check(-4_294_967_295, 65_535, "-65537");
        check(4_294_967_296, -65_536, "-65536");
        check(4_294_967_295, -4_294_967_296, "-4294967295/4294967296");
        check(-12_884_901_888, -4_294_967_296, "3");
        check(i64::MIN, i64::MIN, "1");
        check(i64::MIN, 2, "-4611686018427387904");
        assert_eq!(Fraction::new(1, 0), None);
    }

    #[test]
    fn large_values_are_exact_and_canonical() {
        let big = Fraction::from_big(BigInt::from(i64::MAX) * 4, BigInt::from(6));
        let big = big.unwrap_or(Fraction::ZERO);
        assert_eq!(big.to_string(), "18446744073709551614/3");
        let back = big.over(&Fraction::from(2)).unwrap_or(Fraction::ZERO);
        assert_eq!(
            back,
            Fraction::new(i64::MAX, 3).map_or(Fraction::ZERO, |x| x)
        );
    }

    #[test]
    fn sums_and_products_are_exact_across_the_edge_of_i64() {
        let whole = |value: i64| Fraction::from(value);
        let third = Fraction::new(1, 3).unwrap_or(Fraction::ZERO);
        assert_eq!((&third + &third).to_string(), "2/3");
        assert_eq!((&third - &whole(2)).to_string(), "-5/3");
        assert_eq!((&third * &whole(-6)).to_string(), "-2");
        let large = whole(i64::MAX);
        assert_eq!((&large + &whole(1)).to_string(), "9223372036854775808");
        assert_eq!(&(&large + &whole(1)) - &whole(1), large);
        let square = &large * &large;
        assert_eq!(square.to_string(), "85070591730234615847396907784232501249");
        assert_eq!(square.over(&large), Some(large));
        assert_eq!(square.over(&Fraction::ZERO), None);
        let least = whole(i64::MIN);
        assert_eq!((-&least).to_string(), "9223372036854775808");
        assert_eq!(
            least.over(&whole(-1)).map(|x| x.to_string()).as_deref(),
            Some("9223372036854775808")
        );
    }

    #[test]
    fn order_is_by_value() {
        let third = Fraction::new(1, 3);
        assert!(third < Fraction::new(1, 2));
        assert!(Fraction::new(-1, 3) < Fraction::new(1, 1000));
        assert_eq!(third.map(|x| x.signum()), Some(1));
    }

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
