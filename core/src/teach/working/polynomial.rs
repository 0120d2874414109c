//! Multilinear polynomials with whole coefficients: what determinants of mesh rows are.
//!
//! Every mesh row is linear in its own ratio k (see [`crate::model::coupling::RowRatio`]), so a
//! determinant of rows has each k to the first power at most, and a coefficient for each set of
//! them says all.

use levertrain_exact::Fraction;
use num_integer::Integer;

/// Σ coefficient · Π of the variables in a set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Polynomial {
    /// Numbers of the variables.
    variables: Vec<usize>,
    /// One a set of variables: bit i of the index is set where `variables[i]` is in it.
    coefficients: Vec<i64>,
}

impl Polynomial {
    /// From its values where each variable is 0 or 1: `corners[m]` has the variables in `m` at
    /// 1. The coefficients follow by inclusion and exclusion, exactly.
    pub(super) fn from_corners(variables: Vec<usize>, mut corners: Vec<i64>) -> Self {
        for place in 0..variables.len() {
            for set in 0..corners.len() {
                if has(set, place) {
                    corners[set] -= corners[without(set, place)];
                }
            }
        }
        Self {
            variables,
            coefficients: corners,
        }
    }

    pub(super) fn is_zero(&self) -> bool {
        self.coefficients.iter().all(|&c| c == 0)
    }

    pub(super) fn variables(&self) -> &[usize] {
        &self.variables
    }

    /// How many terms it has.
    pub(super) fn terms(&self) -> usize {
        self.coefficients.iter().filter(|&&c| c != 0).count()
    }

    /// The sum with another in the same variables.
    pub(super) fn plus(&self, other: &Self) -> Self {
        let pairs = self.coefficients.iter().zip(&other.coefficients);
        Self {
            variables: self.variables.clone(),
            coefficients: pairs.map(|(a, b)| a + b).collect(),
        }
    }

    /// The factor of a variable, and what is without it: p = v·factor + rest.
    pub(super) fn split(&self, place: usize) -> [Self; 2] {
        [true, false].map(|with| self.part(|set| has(set, place) == with, 1 << place))
    }

    /// Its value with these numbers for the variables.
    pub(super) fn value(&self, of: &[Fraction]) -> Fraction {
        let mut values: Vec<Fraction> = self.coefficients.iter().map(|&c| c.into()).collect();
        // Each variable takes its half of the sets into those without it.
        for &variable in self.variables.iter().rev() {
            let upper = values.split_off(values.len() / 2);
            for (value, upper) in values.iter_mut().zip(upper) {
                if !upper.is_zero() {
                    *value = &*value + &(&upper * &of[variable]);
                }
            }
        }
        values.swap_remove(0)
    }

    /// Whether it is below zero there.
    pub(super) fn is_negative(&self, of: &[Fraction]) -> bool {
        let mut signs = self.coefficients.iter().map(|c| c.signum());
        if signs.clone().all(|sign| sign >= 0) {
            return false;
        }
        signs.all(|sign| sign <= 0) || self.value(of).signum() < 0
    }

    /// Written as number · single variables · sums that cannot be factored.
    pub(super) fn factored(&self) -> Factored {
        let (number, singles, rest) = self.primitive();
        let mut sums = Vec::new();
        let mut left = (1 << rest.variables.len()) - 1;
        while left != 0 {
            let group = rest.inseparable_group(left & (!left + 1));
            // Terms alike in every other variable are a multiple of the factor.
            let others = rest.first_set() & !group;
            let factor = rest.part(|set| set & !group == others, !group);
            sums.push(factor.primitive().2);
            left &= !group;
        }
        match rest.over(&sums) {
            Some(sign) => Factored {
                number: number * sign,
                singles,
                sums,
            },
            // Numbers that the polynomial was tried with agreed by chance.
            None => Factored {
                number,
                singles,
                sums: vec![rest],
            },
        }
    }

    /// The terms that `keep`, without the variables at the places in `dropped`, and then without
    /// those that are in no term.
    fn part(&self, keep: impl Fn(usize) -> bool, dropped: usize) -> Self {
        let kept = |set: usize| self.coefficients[set] != 0 && keep(set);
        let sets = || (0..self.coefficients.len()).filter(|&set| kept(set));
        let used = sets().fold(0, |all, set| all | set) & !dropped;
        let places: Vec<usize> = (0..self.variables.len())
            .filter(|&p| has(used, p))
            .collect();
        let mut part = Self {
            variables: places.iter().map(|&place| self.variables[place]).collect(),
            coefficients: vec![0; 1 << places.len()],
        };
        for set in sets() {
            part.coefficients[gathered(set, &places)] = self.coefficients[set];
        }
        part
    }

    /// Its coefficients' greatest common divisor with the sign of the first, the variables that
    /// divide every term, and what is left of it.
    fn primitive(&self) -> (i64, Vec<usize>, Self) {
        let all = self.coefficients.iter();
        let content = all.fold(0_i64, |divisor, c| divisor.gcd(c));
        if content == 0 {
            return (0, Vec::new(), self.clone());
        }
        let number = content * self.coefficients[self.first_set()].signum();
        let sets = (0..self.coefficients.len()).filter(|&set| self.coefficients[set] != 0);
        let common = sets.fold(usize::MAX, |all, set| all & set);
        let places = 0..self.variables.len();
        let singles = places.filter(|&place| has(common, place));
        let singles = singles.map(|place| self.variables[place]).collect();
        let mut rest = self.part(|_| true, common);
        rest.coefficients.iter_mut().for_each(|c| *c /= number);
        (number, singles, rest)
    }

    /// The first set with a term.
    fn first_set(&self) -> usize {
        let mut coefficients = self.coefficients.iter();
        coefficients.position(|&c| c != 0).unwrap_or(0)
    }

    /// The places of the variables that stand in one factor with that in `start`.
    ///
    /// With f = a + b·x + c·y + d·x·y, x and y are in different factors just when a·d = b·c.
    fn inseparable_group(&self, start: usize) -> usize {
        let all = (1 << self.variables.len()) - 1;
        let (mut group, mut fresh) = (start, start);
        while fresh != 0 {
            let x = fresh & (!fresh + 1);
            fresh &= !x;
            for place in 0..self.variables.len() {
                let y = 1 << place;
                if all & y & !group != 0 && !self.seems_separate(x, y) {
                    group |= y;
                    fresh |= y;
                }
            }
        }
        group
    }

    /// Whether a·d = b·c with numbers put in for all other variables, modulo a prime. It is so
    /// by chance at most once in a hundred million times.
    fn seems_separate(&self, x: usize, y: usize) -> bool {
        let corner = |wanted: usize| {
            let sets = (0..self.coefficients.len()).filter(|set| set & (x | y) == wanted);
            sets.fold(0, |sum, set| {
                (sum + self.coefficients[set] * weight(set & !(x | y))) % PRIME
            })
        };
        let [a, b, c, d] = [0, x, y, x | y].map(corner);
        (a * d - b * c) % PRIME == 0
    }

    /// 1 or −1 where this is the product of `factors` with that sign; `None` where it is not.
    fn over(&self, factors: &[Self]) -> Option<i64> {
        let place = |variable| self.variables.iter().position(|v| v == variable);
        let mut places = Vec::new();
        for factor in factors {
            places.push(
                factor
                    .variables
                    .iter()
                    .map(place)
                    .collect::<Option<Vec<_>>>()?,
            );
        }
        let product = |set: usize| {
            let mut pairs = factors.iter().zip(&places);
            pairs.try_fold(1_i64, |product, (factor, places)| {
                product.checked_mul(factor.coefficients[gathered(set, places)])
            })
        };
        let first = self.first_set();
        let sign = product(first)?.signum() * self.coefficients[first].signum();
        let mut sets = 0..self.coefficients.len();
        let agrees = |set| product(set) == Some(sign * self.coefficients[set]);
        sets.all(agrees).then_some(sign)
    }
}

/// A prime below 2³¹, so that products of remainders fit.
const PRIME: i64 = (1 << 31) - 1;

/// The product of the numbers that stand for the variables at these places, modulo the prime.
fn weight(mut set: usize) -> i64 {
    let mut product = 1;
    // Powers of a generator are as good as random.
    let mut number = 16_807;
    while set != 0 {
        if has(set, 0) {
            product = product * number % PRIME;
        }
        number = (number * 48_271 + 11) % PRIME;
        set >>= 1;
    }
    product
}

fn has(set: usize, place: usize) -> bool {
    set >> place & 1 == 1
}

fn without(set: usize, place: usize) -> usize {
    set & !(1 << place)
}

/// The set of those of `places` that are in `set`.
fn gathered(set: usize, places: &[usize]) -> usize {
    let bits = places.iter().enumerate();
    bits.fold(0, |all, (bit, &place)| {
        all | usize::from(has(set, place)) << bit
    })
}

/// number · Π singles · Π sums.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Factored {
    pub(super) number: i64,
    pub(super) singles: Vec<usize>,
    /// Their first coefficients are positive, and no two are multiples of each other.
    pub(super) sums: Vec<Polynomial>,
}

impl Factored {
    /// 1.
    pub(super) fn one() -> Self {
        Self {
            number: 1,
            singles: Vec::new(),
            sums: Vec::new(),
        }
    }

    /// Multiplies by a product in other variables.
    pub(super) fn extend(&mut self, other: Self) {
        self.number *= other.number;
        self.singles.extend(other.singles);
        self.sums.extend(other.sums);
    }

    /// Cancels what two products share.
    pub(super) fn cancel(&mut self, other: &mut Self) {
        take_shared(&mut self.singles, &mut other.singles);
        take_shared(&mut self.sums, &mut other.sums);
        let divisor = self.number.gcd(&other.number).max(1) * other.number.signum();
        self.number /= divisor;
        other.number /= divisor;
    }

    /// Multiplied out: the variables of each term, a bit each, and its coefficient.
    pub(super) fn terms(&self) -> Vec<(u32, i64)> {
        let singles = self.singles.iter().fold(0, |all, single| all | 1 << single);
        let mut terms = vec![(singles, self.number)];
        for sum in &self.sums {
            let places: Vec<u32> = sum.variables.iter().map(|&v| 1 << v).collect();
            let own = sum.coefficients.iter().enumerate();
            let own: Vec<(u32, i64)> = own
                .filter(|(_, coefficient)| **coefficient != 0)
                .map(|(set, coefficient)| {
                    let in_it = (0..places.len()).filter(|&place| has(set, place));
                    (
                        in_it.fold(0, |all, place| all | places[place]),
                        *coefficient,
                    )
                })
                .collect();
            // The factors have no variable in common.
            let products = terms.iter().flat_map(|(with, by)| {
                own.iter()
                    .map(move |(set, coefficient)| (with | set, by * coefficient))
            });
            terms = products.collect();
        }
        terms
    }

    /// Its value with these numbers for the variables.
    pub(super) fn value(&self, of: &[Fraction]) -> Fraction {
        let singles = self.singles.iter().map(|&variable| of[variable].clone());
        let sums = self.sums.iter().map(|sum| sum.value(of));
        let factors = singles.chain(sums);
        factors.fold(self.number.into(), |product, factor| &product * &factor)
    }
}

/// Takes out of both lists what stands in both.
pub(super) fn take_shared<T: PartialEq>(one: &mut Vec<T>, other: &mut Vec<T>) {
    one.retain(|item| {
        let same = other.iter().position(|candidate| candidate == item);
        same.map(|index| other.remove(index)).is_none()
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From its values at 0 and 1 of each variable, given as a function of them.
    fn polynomial(count: usize, value: impl Fn(&dyn Fn(usize) -> i64) -> i64) -> Polynomial {
        let corners = (0..1_usize << count).map(|set| value(&|v| i64::from(has(set, v))));
        Polynomial::from_corners((0..count).collect(), corners.collect())
    }

    /// Sets of variables of the sums, after the factors are seen to make up the whole again.
    #[track_caller]
    fn check(polynomial: &Polynomial, number: i64, singles: &[usize], sums: &[&[usize]]) {
        let factored = polynomial.factored();
        assert_eq!(factored.number, number);
        assert_eq!(factored.singles, singles);
        let found: Vec<_> = factored.sums.iter().map(Polynomial::variables).collect();
        assert_eq!(found, sums);
        let values: Vec<Fraction> = [2, -3, 5, 7].map(Fraction::from).to_vec();
        assert_eq!(factored.value(&values), polynomial.value(&values));
    }

    #[test]
    fn a_product_is_found_again() {
        let product = polynomial(4, |v| (1 + v(0)) * (2 + 3 * v(1) * v(2)) * v(3) * -4);
        check(&product, -4, &[3], &[&[0], &[1, 2]]);
    }

    /// Each factor alone begins with what is positive, the product with what is negative.
    #[test]
    fn the_sign_of_a_product_of_differences_is_kept() {
        let product = polynomial(3, |v| (1 - v(0)) * (v(1) + v(2) - 1));
        check(&product, -1, &[], &[&[0], &[1, 2]]);
        let product = polynomial(3, |v| (v(0) - 1) * (v(1) - 1) * (v(2) - 1));
        check(&product, -1, &[], &[&[0], &[1], &[2]]);
    }

    #[test]
    fn what_does_not_factor_stays_whole() {
        let sum = polynomial(2, |v| 1 + v(0) + v(1));
        check(&sum, 1, &[], &[&[0, 1]]);
        assert_eq!(sum.terms(), 3);
    }

    /// The numbers tried are one set among many: what only agrees for them is not split.
    #[test]
    fn a_product_is_split_only_when_it_is_one_exactly() {
        let split = polynomial(2, |v| 1 + v(0) + v(1) + v(0) * v(1));
        let [first, second] = [0, 1].map(|place| split.split(place)[0].clone());
        assert_eq!(split.over(&[first.clone(), second.clone()]), Some(1));
        let whole = polynomial(2, |v| 1 + v(0) + v(1));
        assert_eq!(whole.over(&[first, second]), None);
    }
}
