//! The speed equations of a train, in tooth symbols.

use super::SetEquation;
use super::expression::{Expression, Tooth};
use super::rows::ToothRatio;
use crate::model::coupling::Role;
use crate::train::Train;

/// The speed equation of every mesh row, with what is subtracted on the right.
pub(super) fn of(train: &Train) -> Vec<SetEquation> {
    let mut equations = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        let facts = coupling.facts();
        let members = facts.members();
        for ratio in facts.row_ratios() {
            let teeth = ToothRatio::of(&ratio, index + 1);
            let (mut left, mut right) = (Vec::new(), Vec::new());
            for (member, fact) in members.iter().enumerate() {
                // The frame of a pair stands still: its term is nothing.
                if fact.role == Role::Frame {
                    continue;
                }
                let speed = Expression::Speed {
                    letter: fact.role.letter(),
                    set: index + 1,
                };
                let parts = [
                    (ratio.constant[member], &teeth.below),
                    (ratio.slope[member], &teeth.above),
                ];
                let signs: Vec<i64> = parts
                    .iter()
                    .map(|(c, _)| c.signum())
                    .filter(|sign| *sign != 0)
                    .collect();
                // A coefficient such as −(S + R) goes to the right as a whole.
                let to_right = signs.first().is_some_and(|sign| *sign < 0);
                let terms = parts
                    .into_iter()
                    .filter(|(coefficient, _)| *coefficient != 0)
                    .map(|(coefficient, teeth)| {
                        let product = times(coefficient.abs(), teeth);
                        ((coefficient < 0) != to_right, product)
                    });
                let mut terms: Vec<(bool, Expression)> = terms.collect();
                let factor = match terms.len() {
                    0 => continue,
                    1 => terms.remove(0).1,
                    _ => Expression::Sum(terms),
                };
                let side = if to_right { &mut right } else { &mut left };
                side.push((false, Expression::product(vec![factor, speed])));
            }
            if right.is_empty() {
                right.push((false, Expression::Number(0)));
            }
            equations.push(SetEquation {
                coupling: index,
                left: Expression::Sum(left),
                right: Expression::Sum(right),
            });
        }
    }
    equations
}

/// number · Π teeth.
fn times(number: i64, teeth: &[Tooth]) -> Expression {
    let teeth = teeth.iter().copied().map(Expression::Teeth);
    Expression::product(
        std::iter::once(Expression::Number(number))
            .chain(teeth)
            .collect(),
    )
}
