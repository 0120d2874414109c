//! Exact fractions in lowest terms: speeds per input turn, and ratios.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};
use std::sync::Arc;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{Signed, ToPrimitive, Zero};

use crate::nearest::{nearest, quotient};
use crate::whole::Whole;

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
    // A call: what it does is long, and downloaded.
    #[inline(never)]
    fn reduced(num: i64, den: i64) -> Option<Self> {
        lowest(num, den)
            .map(Self::of_lowest)
            .or_else(|| Self::of_long(num, den))
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
        <i64 as Whole>::reduce(&mut pair);
        let [num, den] = pair;
        let sign = den.signum();
        Some(Self(Repr::Small {
            num: num * sign,
            den: den * sign,
        }))
    }

    /// Of numbers that are in lowest terms already, the denominator positive.
    pub(crate) fn of_lowest([num, den]: [i64; 2]) -> Self {
        Self(Repr::Small { num, den })
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
    // Apart, as in `Fraction::of_long`.
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

    /// Whether its numbers are big and somebody else keeps them, too: for tests of who does.
    pub fn is_shared(&self) -> bool {
        matches!(&self.0, Repr::Big(Aside(quotient)) if Arc::strong_count(quotient) > 1)
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
        .unwrap_or_else(|| nearest(&self.numerator(), &self.denominator()))
    }
}

/// `num / den` in lowest terms, numerator first, the denominator positive; for numbers that are not zero. Nothing
/// where one has more than 32 bits: as nearly none has, these are divided sooner. Native code looks
/// for that by itself, a browser's does not.
// Inline for the walk, as `Columns::narrow_here`.
#[inline(always)]
pub(crate) fn lowest(num: i64, den: i64) -> Option<[i64; 2]> {
    debug_assert!(num != 0 && den != 0, "{num}/{den}");
    let num_size = u32::try_from(num.unsigned_abs()).ok()?;
    let den_size = u32::try_from(den.unsigned_abs()).ok()?;
    let divisor = common(num_size, den_size);
    let num_size = i64::from(num_size / divisor);
    let num = if (num < 0) == (den < 0) {
        num_size
    } else {
        -num_size
    };
    Some([num, i64::from(den_size / divisor)])
}

/// The greatest common divisor of two numbers that are not zero.
// By halving and taking away, as the library does it, which asks for zero each time: in a browser that is a
// fiftieth of a walk over all combinations.
#[inline(always)]
fn common(a: u32, b: u32) -> u32 {
    let twos = (a | b).trailing_zeros();
    let odd = |x: u32| x >> x.trailing_zeros();
    let (mut a, mut b) = (odd(a), odd(b));
    while a != b {
        if a > b {
            a = odd(a - b);
        } else {
            b = odd(b - a);
        }
    }
    a << twos
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

    /// Two numbers that are not zero are halved and taken away until they are equal, which zero never would be.
    #[test]
    fn zeros_are_never_looked_for_a_divisor_of() {
        let near = -12..=12_i64;
        let edges = [
            i64::MIN,
            -i64::from(u32::MAX),
            i64::from(u32::MAX),
            i64::MAX,
        ];
        let numbers: Vec<i64> = near.chain(edges).collect();
        for &num in &numbers {
            for &den in &numbers {
                let exact = Fraction::from_big(BigInt::from(num), BigInt::from(den));
                assert_eq!(Fraction::new(num, den), exact, "{num}/{den}");
            }
        }
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
}
