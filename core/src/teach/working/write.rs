//! From numerator and denominator to a formula a teacher would write.

use std::cmp::Reverse;

use super::expression::{Expression, Tooth};
use super::grouping::{Product, Sum, Variables};
use super::polynomial::Factored;
use crate::base::short_sort::sort_short_by_key;

/// numerator/denominator in tooth counts.
///
/// With no sum below, each sum is divided by as many counts as leave a plain number in it, as in
/// 1 + R/S; otherwise whole counts are written, as in R/(S + R). A minus before a difference is
/// saved by turning the difference.
pub(super) fn quotient(
    numerator: &Factored,
    denominator: &Factored,
    variables: &Variables<'_>,
) -> Expression {
    let (negative, size) = signed(numerator, denominator, variables, true);
    if negative {
        Expression::Sum(vec![(true, size)])
    } else {
        size
    }
}

/// 1 + numerator/denominator.
pub(super) fn one_and(
    numerator: &Factored,
    denominator: &Factored,
    variables: &Variables<'_>,
) -> Expression {
    let (negative, size) = signed(numerator, denominator, variables, false);
    Expression::Sum(vec![(false, Expression::Number(1)), (negative, size)])
}

/// Whether it is to be subtracted, and what.
fn signed(
    numerator: &Factored,
    denominator: &Factored,
    variables: &Variables<'_>,
    may_turn: bool,
) -> (bool, Expression) {
    let ((mut top, above), (mut bottom, below)) =
        (variables.whole(numerator), variables.whole(denominator));
    // What one side was multiplied by the other is as well.
    top.teeth.extend(below);
    bottom.teeth.extend(above);
    top.cancel(&mut bottom);
    if top.number < 0 && may_turn && !top.turn_difference() && bottom.turn_difference() {
        (top.number, bottom.number) = (-top.number, -bottom.number);
    }
    let negative = top.number < 0;
    top.number = top.number.abs();
    let expression = if bottom.sums.is_empty() {
        over_teeth(top, bottom)
    } else {
        Expression::quotient(whole(top), whole(bottom))
    };
    (negative, expression)
}

/// A product as it is; its sign is written elsewhere.
fn whole(product: Product) -> Expression {
    let mut factors = vec![Expression::Number(product.number.abs())];
    factors.extend(product.teeth.into_iter().map(Expression::Teeth));
    let sum = |sum: Sum| {
        let terms = sum.into_iter().map(|term| (term.number < 0, whole(term)));
        Expression::Sum(terms.collect())
    };
    factors.extend(product.sums.into_iter().map(sum));
    Expression::product(factors)
}

/// A product over a number and teeth: a sum takes in what makes one of its terms a number.
fn over_teeth(mut top: Product, mut bottom: Product) -> Expression {
    top.cancel(&mut bottom);
    let mut divided = Vec::new();
    for sum in std::mem::take(&mut top.sums) {
        match divisor(&sum, &bottom.teeth) {
            Some((teeth, left)) => {
                bottom.teeth = left;
                divided.push(sum_over(sum, &teeth));
            }
            None => top.sums.push(sum),
        }
    }
    let outside = Expression::quotient(whole(top), whole(bottom));
    divided.insert(0, outside);
    Expression::product(divided)
}

/// The teeth of a term that has nothing else and whose teeth are all among `available`, and what
/// is then left of those.
fn divisor(sum: &Sum, available: &[Tooth]) -> Option<(Vec<Tooth>, Vec<Tooth>)> {
    let plain = sum.iter().filter(|term| term.sums.is_empty());
    let mut found = plain.filter_map(|term| {
        let mut left = available.to_vec();
        for tooth in &term.teeth {
            let place = left.iter().position(|candidate| candidate == tooth)?;
            left.remove(place);
        }
        Some((term.teeth.clone(), left))
    });
    found.next()
}

/// Each term of a sum over the teeth.
fn sum_over(sum: Sum, teeth: &[Tooth]) -> Expression {
    let terms = sum.into_iter().map(|term| {
        let negative = term.number < 0;
        let mut below = Product::number(1);
        below.teeth = teeth.to_vec();
        (negative, over_teeth(term, below))
    });
    let mut terms: Vec<(bool, Expression)> = terms.collect();
    // A number leads what is added or subtracted, as in 1 + R/S and in R/S − 1.
    sort_short_by_key(&mut terms, |(negative, term)| {
        (*negative, Reverse(matches!(term, Expression::Number(_))))
    });
    Expression::Sum(terms)
}
