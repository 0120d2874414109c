//! A ratio as a quotient of multilinear polynomials in tooth ratios, with whole coefficients.

use crate::search::{Polynomials, Quotient};

/// A ratio of input to output speed: bit i of a coefficient's place is set where the tooth ratio of row i is a
/// factor. It is in lowest terms as far as it no longer depends on what it need not, and no whole number divides all
/// coefficients.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Ratio {
    pub above: Vec<i64>,
    pub below: Vec<i64>,
    /// The rows that it depends on.
    pub rows: u32,
}

impl Ratio {
    /// Of the two polynomials in so many tooth ratios; nothing where one of them is nothing whatever the teeth.
    pub(super) fn of(above: Vec<i64>, below: Vec<i64>, rows: usize) -> Option<Self> {
        let is_nothing = |sum: &[i64]| sum.iter().all(|&coefficient| coefficient == 0);
        if is_nothing(&above) || is_nothing(&below) {
            return None;
        }
        let mut ratio = Self {
            above,
            below,
            rows: 0,
        };
        for row in 0..rows {
            if ratio.depends_on(row) {
                ratio.rows |= 1 << row;
            } else {
                ratio.leave_out(row);
            }
        }
        ratio.divide();
        Some(ratio)
    }

    /// In doubles, for boxes of tooth ratios between these.
    pub(super) fn among(&self, widest: &[[f64; 2]]) -> Quotient {
        self.polynomials().among(widest)
    }

    /// As a search for teeth takes it.
    pub(super) fn polynomials(&self) -> Polynomials<'_> {
        Polynomials {
            above: &self.above,
            below: &self.below,
        }
    }

    /// Whether it is 1 whatever the teeth.
    pub(super) fn is_direct(&self) -> bool {
        self.above == self.below
    }

    /// Whether it changes with the tooth ratio of a row: (a + b·k)/(c + d·k) does not where a·d = b·c. Both sides are at
    /// most of the second degree in each other tooth ratio, so that they are the same where they are for all choices of
    /// three values for each.
    fn depends_on(&self, row: usize) -> bool {
        let bit = 1 << row;
        let others: Vec<usize> = (0..self.above.len().ilog2() as usize)
            .filter(|&other| other != row)
            .collect();
        let mut choice = vec![1_i128; self.above.len().ilog2() as usize];
        let choices = 3_usize.pow(u32::try_from(others.len()).unwrap_or(u32::MAX));
        (0..choices).any(|mut number| {
            for &other in &others {
                choice[other] = [1, 2, 3][number % 3];
                number /= 3;
            }
            let value = |sum: &[i64], wanted: usize| -> i128 {
                let terms = sum.iter().enumerate();
                let own = terms.filter(|(at, value)| at & bit == wanted && **value != 0);
                own.map(|(at, &value)| {
                    let factors = others.iter().filter(|&&other| at >> other & 1 == 1);
                    i128::from(value) * factors.map(|&other| choice[other]).product::<i128>()
                })
                .sum()
            };
            let (a, b) = (value(&self.above, 0), value(&self.above, bit));
            let (c, d) = (value(&self.below, 0), value(&self.below, bit));
            a * d != b * c
        })
    }

    /// Puts nothing, or the infinite, in for a tooth ratio that it does not depend on.
    fn leave_out(&mut self, row: usize) {
        let bit = 1 << row;
        let is_left = |sum: &[i64]| {
            let mut terms = sum.iter().enumerate();
            terms.any(|(at, &value)| at & bit == 0 && value != 0)
        };
        // What does not depend on it is the quotient of the parts without it, unless those are nothing.
        let with = !is_left(&self.below);
        for sum in [&mut self.above, &mut self.below] {
            for at in (0..sum.len()).filter(|at| at & bit == 0) {
                if with {
                    sum[at] = sum[at | bit];
                }
                sum[at | bit] = 0;
            }
        }
    }

    fn divide(&mut self) {
        let all = || self.above.iter().chain(&self.below);
        let common = all().fold(0, |common: u64, value| gcd(common, value.unsigned_abs()));
        let first = self.below.iter().find(|&&value| value != 0);
        let sign = first.map_or(1, |value| value.signum());
        let divisor = sign * i64::try_from(common.max(1)).unwrap_or(1);
        for value in self.above.iter_mut().chain(&mut self.below) {
            *value /= divisor;
        }
    }
}

const fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// The determinant of a square matrix of small whole numbers, row by row, without fractions (E. H. Bareiss, Math. Comp.
/// 22, 1968). The matrix is used up.
pub(super) fn determinant(matrix: &mut [i64], size: usize) -> i64 {
    let (mut sign, mut before) = (1, 1);
    for step in 0..size {
        let Some(pivot) = (step..size).find(|&row| matrix[row * size + step] != 0) else {
            return 0;
        };
        if pivot != step {
            for column in 0..size {
                matrix.swap(pivot * size + column, step * size + column);
            }
            sign = -sign;
        }
        let own = matrix[step * size + step];
        for row in step + 1..size {
            let first = matrix[row * size + step];
            for column in step + 1..size {
                let product =
                    matrix[row * size + column] * own - first * matrix[step * size + column];
                matrix[row * size + column] = product / before;
            }
        }
        before = own;
    }
    match size {
        0 => 1,
        _ => sign * before,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn determinants_are_those_worked_out_by_hand() {
        let rows: [(&[i64], i64); 4] = [
            (&[], 1),
            (&[0, 1, 1, 0], -1),
            (&[2, 0, 1, 1, 3, 2, 1, 1, 4], 18),
            (&[1, 2, 3, 4, 5, 6, 7, 8, 9], 0),
        ];
        for (matrix, expected) in rows {
            let size = matrix.len().isqrt();
            assert_eq!(
                determinant(&mut matrix.to_vec(), size),
                expected,
                "{matrix:?}"
            );
        }
    }

    /// (1 + k₀)(1 + k₁)/(1 + k₀) is 1 + k₁, and k₀/k₀ is 1.
    #[test]
    fn what_a_ratio_does_not_depend_on_does_not_stand_in_it() {
        let ratio = Ratio::of(vec![1, 1, 1, 1], vec![1, 1, 0, 0], 2);
        let expected = Ratio {
            above: vec![1, 0, 1, 0],
            below: vec![1, 0, 0, 0],
            rows: 0b10,
        };
        assert_eq!(ratio, Some(expected));
        let one = Ratio::of(vec![0, -3], vec![0, -3], 1);
        assert!(one.is_some_and(|one| one.is_direct() && one.rows == 0));
        assert_eq!(Ratio::of(vec![0, 0], vec![1, 0], 1), None);
    }
}
