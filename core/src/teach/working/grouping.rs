//! Products in tooth counts, with their sums nested so that each count is written few times.

use levertrain_exact::Fraction;
use num_integer::Integer;

use super::expression::Tooth;
use super::polynomial::{Factored, Polynomial, take_shared};
use super::rows::ToothRatio;
use crate::base::short_sort::sort_short_by_key;

/// number · Π teeth · Π sums.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Product {
    pub(super) number: i64,
    pub(super) teeth: Vec<Tooth>,
    pub(super) sums: Vec<Sum>,
}

/// Terms, what is added before what is subtracted.
pub(super) type Sum = Vec<Product>;

impl Product {
    pub(super) const fn number(number: i64) -> Self {
        Self {
            number,
            teeth: Vec::new(),
            sums: Vec::new(),
        }
    }

    fn times(mut self, other: Self) -> Self {
        self.number *= other.number;
        self.teeth.extend(other.teeth);
        self.sums.extend(other.sums);
        self
    }

    fn times_teeth(mut self, teeth: &[Tooth]) -> Self {
        self.teeth.extend(teeth);
        self
    }

    /// Cancels the teeth and the number that both have.
    pub(super) fn cancel(&mut self, other: &mut Self) {
        take_shared(&mut self.teeth, &mut other.teeth);
        let divisor = self.number.gcd(&other.number).max(1) * other.number.signum();
        self.number /= divisor;
        other.number /= divisor;
    }

    /// Turns a difference round and the sign of the product with it; whether there was one.
    pub(super) fn turn_difference(&mut self) -> bool {
        let negative = |term: &Product| term.number < 0;
        let Some(sum) = self.sums.iter_mut().find(|sum| sum.iter().any(negative)) else {
            return false;
        };
        sum.iter_mut().for_each(|term| term.number = -term.number);
        put_in_order(sum);
        self.number = -self.number;
        true
    }
}

/// What is added comes first.
fn put_in_order(sum: &mut Sum) {
    sort_short_by_key(sum, |term| term.number < 0);
}

/// What stands behind the variables of polynomials.
pub(super) struct Variables<'a> {
    /// The teeth of each k.
    pub(super) teeth: &'a [ToothRatio],
    /// The value of each.
    pub(super) k: &'a [Fraction],
}

impl Variables<'_> {
    /// A product times the teeth below the line of its k, so that only whole counts are left;
    /// and the teeth it was multiplied by.
    pub(super) fn whole(&self, factored: &Factored) -> (Product, Vec<Tooth>) {
        let mut product = Product::number(factored.number);
        let mut multiplied = Vec::new();
        for &variable in &factored.singles {
            product.teeth.extend(&self.teeth[variable].above);
            multiplied.extend(&self.teeth[variable].below);
        }
        for sum in &factored.sums {
            product = product.times(self.whole_sum(sum));
            for &variable in sum.variables() {
                multiplied.extend(&self.teeth[variable].below);
            }
        }
        (product, multiplied)
    }

    /// A sum that cannot be factored, times the teeth below the line of each of its k; what its
    /// terms have in common is before it. It is turned so that it is above zero.
    fn whole_sum(&self, sum: &Polynomial) -> Product {
        let place = split_place(sum);
        let mut terms = Sum::new();
        let [with, without] = sum.split(place);
        let ratio = &self.teeth[sum.variables()[place]];
        for (part, teeth) in [(without, &ratio.below), (with, &ratio.above)] {
            let others = sum.variables().iter().enumerate();
            let missing = others.filter(|(p, v)| *p != place && !part.variables().contains(v));
            let mut term = Product::number(1).times_teeth(teeth);
            for (_, &variable) in missing {
                term.teeth.extend(&self.teeth[variable].below);
            }
            // The part is in fewer variables, so this ends.
            let (whole, _) = self.whole(&part.factored());
            terms.push(term.times(whole));
        }
        let mut common = Product::number(if sum.is_negative(self.k) { -1 } else { 1 });
        common.teeth = take_common(&mut terms);
        let mut flat = Sum::new();
        for mut term in terms {
            term.number *= common.number;
            match &mut term {
                // Nothing is left but a sum.
                Product {
                    number,
                    teeth,
                    sums,
                } if teeth.is_empty() && sums.len() == 1 => {
                    for mut inner in sums.remove(0) {
                        inner.number *= *number;
                        flat.push(inner);
                    }
                }
                _ => flat.push(term),
            }
        }
        put_in_order(&mut flat);
        common.sums.push(flat);
        common
    }
}

/// Which variable to take out of the terms that have it: that which leaves the least to write.
fn split_place(sum: &Polynomial) -> usize {
    let mut best = (0, (usize::MAX, true));
    for place in 0..sum.variables().len() {
        let parts = sum.split(place).map(|part| part.factored());
        let length = |factored: &Factored| -> usize {
            let sums = factored.sums.iter();
            sums.map(|sum| sum.terms() * sum.variables().len()).sum()
        };
        // Among equals that in which a single term is left, as the 1 of 1 + (R1/S1)(1 + R2/S2).
        let cost = (parts.iter().map(length).sum(), !parts[1].sums.is_empty());
        if cost < best.1 {
            best = (place, cost);
        }
    }
    best.0
}

/// Takes the teeth out that stand in every term, as two rows may share a ring.
fn take_common(terms: &mut Sum) -> Vec<Tooth> {
    let mut common = Vec::new();
    for tooth in terms
        .first()
        .map_or(Vec::new(), |first| first.teeth.clone())
    {
        let place = |term: &Product| term.teeth.iter().position(|t| *t == tooth);
        if let Some(places) = terms.iter().map(place).collect::<Option<Vec<_>>>() {
            for (term, place) in terms.iter_mut().zip(places) {
                term.teeth.remove(place);
            }
            common.push(tooth);
        }
    }
    common
}
