//! Multilinear polynomials with whole coefficients: what determinants of mesh rows are.
//!
//! Every mesh row is linear in its own ratio k (see [`crate::coupling::RowRatio`]), so a
//! determinant of rows has each k to the first power at most.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{One, Signed, Zero};

/// A set of variables, one bit each.
pub(super) type Variables = u32;

/// Σ coefficient · Π of the variables in the key. No coefficient is zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Polynomial {
    pub(super) terms: BTreeMap<Variables, BigInt>,
}

impl Polynomial {
    /// From its values where each variable is 0 or 1: `corners[m]` has the variables in `m` at
    /// 1. The coefficients follow by inclusion and exclusion, exactly.
    pub(super) fn from_corners(mut corners: Vec<BigInt>) -> Self {
        let count = corners.len();
        let mut bit = 1;
        while bit < count {
            for mask in 0..count {
                if mask & bit != 0 {
                    let without = corners[mask ^ bit].clone();
                    corners[mask] -= without;
                }
            }
            bit <<= 1;
        }
        let terms = corners.into_iter().enumerate();
        Self {
            terms: terms
                .filter(|(_, coefficient)| !coefficient.is_zero())
                .map(|(mask, coefficient)| (mask as Variables, coefficient))
                .collect(),
        }
    }

    pub(super) fn is_zero(&self) -> bool {
        self.terms.is_empty()
    }

    /// The variables it contains.
    pub(super) fn variables(&self) -> Variables {
        self.terms.keys().fold(0, |all, mask| all | mask)
    }

    /// Its coefficients' greatest common divisor with the sign that most terms have, and the
    /// variables that divide every term, taken out.
    fn primitive(mut self) -> (BigInt, Variables, Self) {
        let Some((_, first)) = self.terms.first_key_value() else {
            return (BigInt::zero(), 0, self);
        };
        let below_zero = self
            .terms
            .values()
            .filter(|term| term.is_negative())
            .count();
        let negative = match (2 * below_zero).cmp(&self.terms.len()) {
            Ordering::Less => false,
            Ordering::Equal => first.is_negative(),
            Ordering::Greater => true,
        };
        let mut content = self
            .terms
            .values()
            .fold(BigInt::zero(), |all, term| all.gcd(term));
        if negative {
            content = -content;
        }
        let common = self
            .terms
            .keys()
            .fold(Variables::MAX, |all, mask| all & mask);
        self.terms = self
            .terms
            .into_iter()
            .map(|(mask, coefficient)| (mask & !common, coefficient / &content))
            .collect();
        (content, common, self)
    }

    /// Written as number · single variables · irreducible sums.
    pub(super) fn factored(self) -> Factored {
        let (number, singles, rest) = self.primitive();
        let mut sums = Vec::new();
        let mut left = rest.variables();
        while left != 0 {
            let group = rest.inseparable_group(left & left.wrapping_neg());
            sums.push(rest.part_in(group));
            left &= !group;
        }
        Factored {
            number,
            singles,
            sums,
        }
    }

    /// The variables that stand in one factor with `start`.
    ///
    /// With f = a + b·x + c·y + d·x·y, x and y are in different factors just when a·d = b·c.
    fn inseparable_group(&self, start: Variables) -> Variables {
        let all = self.variables();
        let (mut group, mut fresh) = (start, start);
        while fresh != 0 {
            let x = fresh & fresh.wrapping_neg();
            fresh &= !x;
            for bit in 0..Variables::BITS {
                let y = 1 << bit;
                if all & y != 0 && group & y == 0 && !self.separates(x, y) {
                    group |= y;
                    fresh |= y;
                }
            }
        }
        group
    }

    fn separates(&self, x: Variables, y: Variables) -> bool {
        let part = |wanted: Variables| -> Vec<(Variables, &BigInt)> {
            let terms = self
                .terms
                .iter()
                .filter(|(mask, _)| **mask & (x | y) == wanted);
            terms
                .map(|(mask, coefficient)| (mask & !(x | y), coefficient))
                .collect()
        };
        product(&part(0), &part(x | y)) == product(&part(x), &part(y))
    }

    /// The factor whose variables are `group`: terms alike in every other variable are a
    /// multiple of it.
    fn part_in(&self, group: Variables) -> Self {
        let others = self.terms.keys().next().map_or(0, |mask| mask & !group);
        let terms = self
            .terms
            .iter()
            .filter(|(mask, _)| **mask & !group == others);
        let part = terms
            .map(|(mask, coefficient)| (mask & group, coefficient.clone()))
            .collect();
        Self { terms: part }.primitive().2
    }
}

/// A product of two polynomials, with squares: keys hold the variables of degree one and two.
fn product(
    left: &[(Variables, &BigInt)],
    right: &[(Variables, &BigInt)],
) -> BTreeMap<(Variables, Variables), BigInt> {
    let mut terms = BTreeMap::new();
    for (a, x) in left {
        for (b, y) in right {
            *terms.entry((a ^ b, a & b)).or_insert_with(BigInt::zero) += *x * *y;
        }
    }
    terms.retain(|_, coefficient| !coefficient.is_zero());
    terms
}

/// number · Π singles · Π sums.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Factored {
    pub(super) number: BigInt,
    pub(super) singles: Variables,
    pub(super) sums: Vec<Polynomial>,
}

impl Factored {
    /// Cancels what two products share.
    pub(super) fn cancel(&mut self, other: &mut Self) {
        let shared = self.singles & other.singles;
        self.singles &= !shared;
        other.singles &= !shared;
        self.sums.retain(|sum| {
            let same = other.sums.iter().position(|candidate| candidate == sum);
            same.map(|index| other.sums.remove(index)).is_none()
        });
        let divisor = self.number.gcd(&other.number);
        if !divisor.is_zero() {
            self.number /= &divisor;
            other.number /= &divisor;
        }
        if other.number.is_negative() {
            self.number = -&self.number;
            other.number = -&other.number;
        }
        debug_assert!(other.number >= BigInt::one());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (1 + x)·(2 + 3·y·z)·w from its corners: bits x=1, y=2, z=4, w=8.
    #[test]
    fn a_product_is_found_again() {
        let corners = (0..16_u32).map(|m| {
            let bit = |b: u32| i64::from(m >> b & 1);
            BigInt::from((1 + bit(0)) * (2 + 3 * bit(1) * bit(2)) * bit(3) * -4)
        });
        let factored = Polynomial::from_corners(corners.collect()).factored();
        assert_eq!(factored.number, BigInt::from(-4));
        assert_eq!(factored.singles, 8);
        let sizes: Vec<_> = factored.sums.iter().map(Polynomial::variables).collect();
        assert_eq!(sizes, [1, 6]);
    }

    #[test]
    fn what_does_not_factor_stays_whole() {
        // 1 + x + y
        let corners = [1, 2, 2, 3].map(BigInt::from).to_vec();
        let factored = Polynomial::from_corners(corners).factored();
        assert_eq!(factored.sums.len(), 1);
        assert_eq!(factored.sums[0].terms.len(), 3);
    }
}
