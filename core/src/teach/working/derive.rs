//! From the rows of a link to numerator and denominator of its ratio.

use levertrain_exact::Fraction;

use super::polynomial::{Factored, Polynomial};
use super::rows::{Link, Teeth};

/// Most rows that are combined at once: 2ⁿ determinants are taken, and a formula of more that
/// does not split into links would be too long anyway.
///
/// A row over groups has coefficients of which, at k = 0 and k = 1, the squares add up to 8 at
/// most, so a determinant of ten is below 8⁵ (Hadamard), a coefficient below 2²⁵, and a product
/// of two, of which up to 2¹⁰ are added, below 2⁶⁰: everything fits `i64`.
const MOST_ROWS: usize = 10;

/// A ratio as a quotient of products in the k of the rows.
pub(super) struct Ratio {
    pub(super) numerator: Factored,
    pub(super) denominator: Factored,
    /// Numerator and denominator of the ratio less one, where rows were combined in one link only.
    pub(super) less_one: Option<(Factored, Factored)>,
}

/// Why there is none.
pub(super) enum Failure {
    /// The rows only agree for these very tooth counts.
    Coincidence,
    /// More rows than are combined.
    Long,
}

/// The ratio of `from` to `to`, from the rows needed for it with these teeth.
pub(super) fn ratio(all: &Link, teeth: Teeth) -> Result<Ratio, Failure> {
    let link = all.clone().needed(teeth).ok_or(Failure::Coincidence)?;
    let links = link.clone().in_series();
    let mut ratio = Ratio {
        numerator: Factored::one(),
        denominator: Factored::one(),
        less_one: None,
    };
    for part in &links {
        if part.rows.len() > MOST_ROWS {
            return Err(Failure::Long);
        }
        let (of_from, of_to) = coefficients(part, teeth).ok_or(Failure::Coincidence)?;
        // The two coefficients times their speeds add up to nothing.
        let (mut numerator, mut denominator) = (of_to.factored(), of_from.factored());
        numerator.number = -numerator.number;
        numerator.cancel(&mut denominator);
        ratio.numerator.extend(numerator);
        ratio.denominator.extend(denominator);
        let rest = of_from.plus(&of_to);
        if links.len() == 1 && !rest.is_zero() {
            let (mut numerator, mut denominator) = (rest.factored(), of_from.factored());
            numerator.number = -numerator.number;
            numerator.cancel(&mut denominator);
            ratio.less_one = Some((numerator, denominator));
        }
    }
    let numbers = [Teeth::Actual, Teeth::Any(1), Teeth::Any(2)];
    if numbers.into_iter().all(|teeth| ratio.holds(&link, teeth)) {
        Ok(ratio)
    } else {
        Err(Failure::Coincidence)
    }
}

impl Ratio {
    /// Whether it is what the rows make of these teeth.
    fn holds(&self, link: &Link, teeth: Teeth) -> bool {
        let most = link.rows.iter().map(|row| row.number).max().unwrap_or(0);
        let mut k = vec![Fraction::ZERO; most + 1];
        for row in &link.rows {
            k[row.number] = row.k_fraction(teeth);
        }
        let (above, below) = (self.numerator.value(&k), self.denominator.value(&k));
        let speed = link.speed(teeth);
        speed.is_some() && speed == below.over(&above)
    }
}

/// What the rows make of `from` and `to` when they are combined so that nothing else is left:
/// coefficient(from)·ω(from) + coefficient(to)·ω(to) = 0. `None` where these teeth agree by
/// chance.
fn coefficients(link: &Link, teeth: Teeth) -> Option<(Polynomial, Polynomial)> {
    let groups = link.independent_groups(teeth)?;
    let variables: Vec<usize> = link.rows.iter().map(|row| row.number).collect();
    let determinant = |last: usize| {
        let corners = (0..1_usize << link.rows.len()).map(|corner| {
            let rows = link.rows.iter().enumerate();
            let matrix = rows.map(|(index, row)| {
                let k = (corner >> index & 1) as i64;
                let entry = |&group: &usize| row.constant[group] + k * row.slope[group];
                groups.iter().chain([&last]).map(entry).collect()
            });
            determinant(matrix.collect())
        });
        Polynomial::from_corners(variables.clone(), corners.collect())
    };
    let (of_from, of_to) = (determinant(link.from), determinant(link.to));
    (!of_from.is_zero() && !of_to.is_zero()).then_some((of_from, of_to))
}

/// Determinant by fraction-free elimination (Bareiss, Math. Comp. 22, 1968).
fn determinant(mut matrix: Vec<Vec<i64>>) -> i64 {
    let size = matrix.len();
    let mut sign = 1;
    let mut before = 1;
    for step in 0..size {
        let Some(pivot) = (step..size).find(|&row| matrix[row][step] != 0) else {
            return 0;
        };
        if pivot != step {
            matrix.swap(pivot, step);
            sign = -sign;
        }
        for row in step + 1..size {
            for column in step + 1..size {
                let value = matrix[row][column] * matrix[step][step]
                    - matrix[row][step] * matrix[step][column];
                matrix[row][column] = value / before;
            }
        }
        before = matrix[step][step];
    }
    before * sign
}
