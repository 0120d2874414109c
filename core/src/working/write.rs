//! From numerator and denominator to a formula a teacher would write.

use num_bigint::BigInt;
use num_traits::Signed;

use super::SetEquation;
use super::expression::Expression;
use super::polynomial::{Factored, Polynomial};
use crate::coupling::{Role, RowRatio, Symbol};
use crate::short_sort::sort_short_by_key;
use crate::train::Train;

/// The tooth symbols of a row's k.
#[derive(Debug, Clone)]
pub(super) struct Symbols {
    /// Number of the set, from 1.
    pub(super) set: usize,
    pub(super) numerator: Vec<Symbol>,
    pub(super) denominator: Vec<Symbol>,
}

impl Symbols {
    fn above(&self) -> impl Iterator<Item = Expression> {
        self.teeth(&self.numerator)
    }

    fn below(&self) -> impl Iterator<Item = Expression> {
        self.teeth(&self.denominator)
    }

    fn teeth(&self, factors: &[Symbol]) -> impl Iterator<Item = Expression> {
        factors.iter().map(|&(letter, teeth)| Expression::Teeth {
            letter,
            set: self.set,
            value: teeth.get(),
        })
    }
}

/// Tooth symbols as numerator and denominator of a single term.
#[derive(Default, Clone)]
struct Term {
    above: Vec<Expression>,
    below: Vec<Expression>,
}

impl Term {
    /// k of each variable in `mask`, or 1/k.
    fn of(mask: u32, inverse: bool, symbols: &[Symbols]) -> Self {
        let mut term = Self::default();
        for (bit, row) in symbols.iter().enumerate() {
            if mask >> bit & 1 == 1 {
                let (top, bottom) = if inverse {
                    (&mut term.below, &mut term.above)
                } else {
                    (&mut term.above, &mut term.below)
                };
                top.extend(row.above());
                bottom.extend(row.below());
            }
        }
        term
    }

    fn times(mut self, other: Self) -> Self {
        self.above.extend(other.above);
        self.below.extend(other.below);
        self
    }

    /// The term with what stands above and below cancelled.
    fn expression(mut self, number: &BigInt) -> Expression {
        self.above.retain(|symbol| {
            let same = self.below.iter().position(|candidate| candidate == symbol);
            same.map(|index| self.below.remove(index)).is_none()
        });
        let mut above = vec![Expression::Number(number.abs())];
        above.extend(self.above);
        Expression::quotient(Expression::product(above), Expression::product(self.below))
    }
}

/// numerator/denominator in tooth symbols.
///
/// With no sum below, the k stay fractions of teeth, as in 1 + R/S; otherwise each sum is
/// written in whole tooth counts, as in R/(S + R).
pub(super) fn formula(
    numerator: &Factored,
    denominator: &Factored,
    symbols: &[Symbols],
) -> Expression {
    let negative = numerator.number.is_negative();
    let expression = if denominator.sums.is_empty() {
        over_singles(numerator, denominator, symbols)
    } else {
        whole_counts(numerator, denominator, symbols)
    };
    match (negative, expression) {
        (false, expression) => expression,
        (true, Expression::Sum(terms)) => Expression::Sum(
            terms
                .into_iter()
                .map(|(sign, term)| (!sign, term))
                .collect(),
        ),
        (true, expression) => Expression::Sum(vec![(true, expression)]),
    }
}

fn over_singles(numerator: &Factored, denominator: &Factored, symbols: &[Symbols]) -> Expression {
    // A sum takes in the single k it shares a variable with, so that it reads 1 + S1/R1 + …
    let within = |sum: &Polynomial| denominator.singles & sum.variables();
    let taken = numerator.sums.iter().fold(0, |all, sum| all | within(sum));
    let outside = Term::of(numerator.singles, false, symbols).times(Term::of(
        denominator.singles & !taken,
        true,
        symbols,
    ));
    let sums = numerator
        .sums
        .iter()
        .map(|sum| sum_of(sum, &Term::of(within(sum), true, symbols), symbols));
    let mut factors = vec![outside.expression(&numerator.number)];
    factors.extend(sums);
    let below = Expression::Number(denominator.number.clone());
    Expression::quotient(Expression::product(factors), below)
}

/// A sum with every term multiplied by `outside`.
fn sum_of(sum: &Polynomial, outside: &Term, symbols: &[Symbols]) -> Expression {
    let terms = sum.terms.iter().map(|(&mask, coefficient)| {
        let term = Term::of(mask, false, symbols).times(outside.clone());
        (coefficient.is_negative(), term.expression(coefficient))
    });
    let mut terms: Vec<(bool, Expression)> = terms.collect();
    // A plain number leads, as in 1 + R/S; then what is added, then what is subtracted.
    sort_short_by_key(&mut terms, |(negative, term)| {
        (*negative, !matches!(term, Expression::Number(_)))
    });
    Expression::Sum(terms)
}

fn whole_counts(numerator: &Factored, denominator: &Factored, symbols: &[Symbols]) -> Expression {
    let (above, below) = (counts(numerator, symbols), counts(denominator, symbols));
    // Each sum was multiplied by the denominators of its k; so is the other side now.
    let mut top = Term {
        above: above.singles,
        below: Vec::new(),
    };
    top.above.extend(below.multiplied);
    let mut bottom = below.singles;
    bottom.extend(above.multiplied);
    top.above.retain(|symbol| {
        let same = bottom.iter().position(|candidate| candidate == symbol);
        same.map(|index| bottom.remove(index)).is_none()
    });
    let product = |number: &BigInt, singles: Vec<Expression>, sums: Vec<Expression>| {
        let mut factors = vec![Expression::Number(number.abs())];
        factors.extend(singles);
        factors.extend(sums);
        Expression::product(factors)
    };
    Expression::quotient(
        product(&numerator.number, top.above, above.sums),
        product(&denominator.number, bottom, below.sums),
    )
}

/// A product in whole tooth counts.
struct Counts {
    sums: Vec<Expression>,
    singles: Vec<Expression>,
    /// What it has been multiplied by on the way.
    multiplied: Vec<Expression>,
}

fn counts(factored: &Factored, symbols: &[Symbols]) -> Counts {
    let mut counts = Counts {
        sums: Vec::new(),
        singles: Vec::new(),
        multiplied: Vec::new(),
    };
    for (bit, row) in symbols.iter().enumerate() {
        if factored.singles >> bit & 1 == 1 {
            counts.singles.extend(row.above());
            counts.multiplied.extend(row.below());
        }
    }
    for sum in &factored.sums {
        let variables = sum.variables();
        let rows = || {
            let rows = symbols.iter().enumerate();
            rows.filter(|(bit, _)| variables >> bit & 1 == 1)
        };
        let inside = |mask: u32| {
            let factors = rows().flat_map(|(bit, row)| match mask >> bit & 1 {
                1 => row.above().collect::<Vec<_>>(),
                _ => row.below().collect(),
            });
            factors.collect::<Vec<_>>()
        };
        let mut terms: Vec<(&BigInt, Vec<Expression>)> = sum
            .terms
            .iter()
            .map(|(&mask, coefficient)| (coefficient, inside(mask)))
            .collect();
        counts.singles.extend(take_common(&mut terms));
        let mut terms: Vec<(bool, Expression)> = terms
            .into_iter()
            .map(|(coefficient, mut factors)| {
                factors.insert(0, Expression::Number(coefficient.abs()));
                (coefficient.is_negative(), Expression::product(factors))
            })
            .collect();
        sort_short_by_key(&mut terms, |(negative, _)| *negative);
        counts.sums.push(Expression::Sum(terms));
        counts
            .multiplied
            .extend(rows().flat_map(|(_, row)| row.below()));
    }
    counts
}

/// Takes the factors out that stand in every term, as two rows may share a ring.
fn take_common(terms: &mut [(&BigInt, Vec<Expression>)]) -> Vec<Expression> {
    let mut common = Vec::new();
    for candidate in terms.first().map_or(Vec::new(), |(_, first)| first.clone()) {
        let places = terms
            .iter()
            .map(|(_, factors)| factors.iter().position(|factor| *factor == candidate));
        if let Some(places) = places.collect::<Option<Vec<usize>>>() {
            for ((_, factors), place) in terms.iter_mut().zip(places) {
                factors.remove(place);
            }
            common.push(candidate);
        }
    }
    common
}

/// The speed equation of every mesh row, with what is subtracted on the right.
pub(super) fn equations(train: &Train) -> Vec<SetEquation> {
    let mut equations = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        let facts = coupling.facts();
        let members = facts.members();
        for RowRatio {
            constant,
            slope,
            numerator,
            denominator,
        } in facts.row_ratios()
        {
            let symbols = Symbols {
                set: index + 1,
                numerator,
                denominator,
            };
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
                    (constant[member], symbols.below().collect::<Vec<_>>()),
                    (slope[member], symbols.above().collect()),
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
                    .filter(|(c, _)| *c != 0)
                    .map(|(c, mut factors)| {
                        factors.insert(0, Expression::Number(BigInt::from(c.abs())));
                        ((c < 0) != to_right, Expression::product(factors))
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
                right.push((false, Expression::Number(BigInt::ZERO)));
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
