//! From the rows of a train to numerator and denominator of its ratio.

use levertrain_exact::{Fraction, Motions, Terms};
use num_bigint::BigInt;
use num_traits::{One, Zero};

use super::expression::Expression;
use super::polynomial::Polynomial;
use super::write::{Symbols, formula};
use crate::coupling::{RowRatio, Symbol};
use crate::element_set::ElementSet;
use crate::solve::Combination;
use crate::train::{Body, Train};

/// Most rows a formula may combine: beyond that nobody reads it, and the corners are too many.
const MOST_ROWS: usize = 10;

/// A mesh row over groups of bodies that turn as one.
#[derive(Debug, Clone)]
struct GroupRow {
    constant: Vec<i64>,
    slope: Vec<i64>,
    /// Numerator and denominator of its k.
    k: (i64, i64),
    symbols: Symbols,
}

impl GroupRow {
    /// The row at its k, or at k moved by `nudge` teeth, in whole numbers.
    fn terms(&self, nudge: i64) -> Terms {
        let (num, den) = (self.k.0 + nudge, self.k.1);
        let value = |group: usize| self.constant[group] * den + self.slope[group] * num;
        (0..self.constant.len())
            .map(|g| (g, value(g)))
            .filter(|(_, v)| *v != 0)
            .collect()
    }

    fn touches(&self, group: usize) -> bool {
        self.constant[group] != 0 || self.slope[group] != 0
    }
}

/// The ratio of a driving combination as a formula.
pub(super) fn ratio(combination: &Combination<'_>) -> Option<Expression> {
    let wanted = combination.state().ratio()?;
    let train = combination.train();
    let groups = Groups::of(train, combination.applied());
    let input = groups.of_body(Body::Shaft(train.input()))?;
    let output = groups.of_body(Body::Shaft(train.output()))?;
    if input == output {
        return Some(Expression::Number(BigInt::one()));
    }
    let rows = needed_rows(
        group_rows(train, &groups),
        groups.count,
        input,
        output,
        wanted,
    )?;
    let columns = independent_columns(&rows, groups.count, input, output)?;

    let determinant = |last: usize| {
        let corners = (0..1_usize << rows.len()).map(|corner| {
            let matrix = rows.iter().enumerate().map(|(index, row)| {
                let at_one = corner >> index & 1 == 1;
                let entry = |&group: &usize| {
                    let slope = if at_one { row.slope[group] } else { 0 };
                    BigInt::from(row.constant[group] + slope)
                };
                columns.iter().chain([&last]).map(entry).collect()
            });
            bareiss(matrix.collect())
        });
        Polynomial::from_corners(corners.collect())
    };
    // coefficient(input)·ω(input) + coefficient(output)·ω(output) = 0
    let (of_input, of_output) = (determinant(input), determinant(output));
    if of_input.is_zero() || of_output.is_zero() {
        return None;
    }
    let mut numerator = of_output.factored();
    let mut denominator = of_input.factored();
    numerator.number = -numerator.number;
    numerator.cancel(&mut denominator);
    if !holds_nearby(
        &rows,
        groups.count,
        (input, output),
        &numerator,
        &denominator,
    ) {
        return None;
    }
    let symbols: Vec<Symbols> = rows.into_iter().map(|row| row.symbols).collect();
    Some(formula(&numerator, &denominator, &symbols))
}

/// Bodies that applied elements make turn as one; the housing's group has no number.
struct Groups {
    of_shaft: Vec<Option<usize>>,
    count: usize,
}

impl Groups {
    fn of(train: &Train, applied: ElementSet) -> Self {
        let shafts = train.scenario().shafts.len();
        // The housing stands after the shafts.
        let index = |body: Body| match body {
            Body::Housing => shafts,
            Body::Shaft(shaft) => shaft,
        };
        let mut leader: Vec<usize> = (0..=shafts).collect();
        for element in applied.iter() {
            let [a, b] = train.ends(element).map(|body| leader[index(body)]);
            leader.iter_mut().filter(|l| **l == b).for_each(|l| *l = a);
        }
        let mut leaders: Vec<usize> = leader[..shafts]
            .iter()
            .copied()
            .filter(|&l| l != leader[shafts])
            .collect();
        leaders.sort_unstable();
        leaders.dedup();
        let of_shaft = leader[..shafts]
            .iter()
            .map(|l| leaders.iter().position(|candidate| candidate == l))
            .collect();
        Self {
            of_shaft,
            count: leaders.len(),
        }
    }

    fn of_body(&self, body: Body) -> Option<usize> {
        match body {
            Body::Housing => None,
            Body::Shaft(shaft) => self.of_shaft[shaft],
        }
    }
}

fn group_rows(train: &Train, groups: &Groups) -> Vec<GroupRow> {
    let mut rows = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        for ratio in coupling.facts().row_ratios() {
            let RowRatio {
                constant,
                slope,
                numerator,
                denominator,
            } = ratio;
            let product = |factors: &[Symbol]| -> i64 {
                factors
                    .iter()
                    .map(|(_, teeth)| teeth.coefficient())
                    .product()
            };
            let mut row = GroupRow {
                constant: vec![0; groups.count],
                slope: vec![0; groups.count],
                k: (product(&numerator), product(&denominator)),
                symbols: Symbols {
                    set: index + 1,
                    numerator,
                    denominator,
                },
            };
            for (member, &body) in train.members(index).iter().enumerate() {
                if let Some(group) = groups.of_body(body) {
                    row.constant[group] += constant[member];
                    row.slope[group] += slope[member];
                }
            }
            rows.push(row);
        }
    }
    rows
}

fn output_speed(
    rows: &[GroupRow],
    count: usize,
    input: usize,
    output: usize,
    nudge: impl Fn(usize) -> i64,
) -> Option<Fraction> {
    let mut motions = Motions::free(count);
    for (index, row) in rows.iter().enumerate() {
        if let Some(narrowed) = motions.constrained(&row.terms(nudge(index))) {
            motions = narrowed;
        }
    }
    let turning = motions.turning(input);
    if turning.input_can_turn() {
        turning.speed(output)
    } else {
        None
    }
}

/// The rows without any of which the output would not be decided.
fn needed_rows(
    mut rows: Vec<GroupRow>,
    count: usize,
    input: usize,
    output: usize,
    ratio: &Fraction,
) -> Option<Vec<GroupRow>> {
    let wanted = ratio.recip();
    for index in (0..rows.len()).rev() {
        let mut fewer = rows.clone();
        fewer.remove(index);
        if output_speed(&fewer, count, input, output, |_| 0) == wanted {
            rows = fewer;
        }
    }
    (1..=MOST_ROWS).contains(&rows.len()).then_some(rows)
}

/// As many groups beside input and output as fix the rows' multipliers up to scale.
fn independent_columns(
    rows: &[GroupRow],
    count: usize,
    input: usize,
    output: usize,
) -> Option<Vec<usize>> {
    let values: Vec<Terms> = rows.iter().map(|row| row.terms(0)).collect();
    let mut multipliers = Motions::free(rows.len());
    let mut columns = Vec::new();
    for group in (0..count).filter(|&group| group != input && group != output) {
        if !rows.iter().any(|row| row.touches(group)) {
            continue;
        }
        let entry = |terms: &Terms| terms.iter().find(|(g, _)| *g == group).map(|(_, v)| *v);
        let column = values
            .iter()
            .enumerate()
            .filter_map(|(row, t)| Some((row, entry(t)?)));
        if let Some(narrowed) = multipliers.constrained(&column.collect()) {
            multipliers = narrowed;
            columns.push(group);
        }
    }
    (columns.len() + 1 == rows.len()).then_some(columns)
}

/// Whether the formula also gives the ratio when tooth counts differ a little: otherwise these
/// very counts make rows agree that in general would not.
fn holds_nearby(
    rows: &[GroupRow],
    count: usize,
    (input, output): (usize, usize),
    numerator: &super::polynomial::Factored,
    denominator: &super::polynomial::Factored,
) -> bool {
    (0..2).all(|round| {
        let nudge = |row: usize| round * (1 + row as i64);
        let k = |row: usize| {
            let (num, den) = rows[row].k;
            Fraction::new(num + nudge(row), den)
        };
        let solved = output_speed(rows, count, input, output, nudge);
        let value = value(numerator, &k).zip(value(denominator, &k));
        let formula = value.and_then(|(top, bottom)| bottom.over(&top));
        solved.is_some() && solved == formula
    })
}

fn value(
    factored: &super::polynomial::Factored,
    k: &impl Fn(usize) -> Option<Fraction>,
) -> Option<Fraction> {
    let monomial = |mask: u32| {
        (0..u32::BITS as usize)
            .filter(|bit| mask >> bit & 1 == 1)
            .try_fold(Fraction::ONE, |product, bit| Some(product.times(&k(bit)?)))
    };
    let whole = |number: &BigInt| Fraction::from_big(number.clone(), BigInt::one());
    let mut product = whole(&factored.number)?.times(&monomial(factored.singles)?);
    for sum in &factored.sums {
        let terms = sum.terms.iter();
        let total = terms.map(|(&mask, c)| Some(whole(c)?.times(&monomial(mask)?)));
        let total = total
            .into_iter()
            .try_fold(Fraction::ZERO, |sum, term| Some(sum.plus(&term?)));
        product = product.times(&total?);
    }
    Some(product)
}

/// Determinant by fraction-free elimination (Bareiss, Math. Comp. 22, 1968).
fn bareiss(mut matrix: Vec<Vec<BigInt>>) -> BigInt {
    let size = matrix.len();
    let mut sign = 1;
    let mut before = BigInt::one();
    for step in 0..size {
        let Some(pivot) = (step..size).find(|&row| !matrix[row][step].is_zero()) else {
            return BigInt::zero();
        };
        if pivot != step {
            matrix.swap(pivot, step);
            sign = -sign;
        }
        for row in step + 1..size {
            for column in step + 1..size {
                let value = &matrix[row][column] * &matrix[step][step]
                    - &matrix[row][step] * &matrix[step][column];
                matrix[row][column] = value / &before;
            }
        }
        before = matrix[step][step].clone();
    }
    before * sign
}
