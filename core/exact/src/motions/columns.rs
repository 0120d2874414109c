//! A basis of motions in one type of whole number, and its narrowing by an equation.

use num_bigint::BigInt;

use super::Terms;
use super::value::{Value, value_in};
use crate::fraction::Fraction;
use crate::whole::{Bits, Whole};

/// A basis stored column after column.
#[derive(Debug, Clone)]
pub(super) struct Columns<I> {
    shafts: usize,
    count: usize,
    entries: Vec<I>,
    /// The bits of all entries, or more.
    bits: Bits,
}

/// The column that an equation removes, and the equation's residual in it.
struct Pivot<I> {
    column: usize,
    residual: I,
}

impl<I: Whole> Columns<I> {
    pub(super) fn identity(shafts: usize) -> Self {
        let mut entries = vec![I::from_small(0); shafts * shafts];
        for shaft in 0..shafts {
            entries[shaft * shafts + shaft] = I::from_small(1);
        }
        Self {
            shafts,
            count: shafts,
            bits: I::bits(&entries),
            entries,
        }
    }

    /// No columns, and memory for these narrowed, which is one column less.
    pub(super) fn room(&self) -> Self {
        Self {
            shafts: 0,
            count: 0,
            entries: Vec::with_capacity(self.entries.len().saturating_sub(self.shafts)),
            bits: 0,
        }
    }

    /// How many shafts each column gives the speeds of.
    pub(super) fn shafts(&self) -> usize {
        self.shafts
    }

    /// How many columns there are.
    pub(super) fn count(&self) -> usize {
        self.count
    }

    pub(super) fn column(&self, index: usize) -> &[I] {
        &self.entries[index * self.shafts..(index + 1) * self.shafts]
    }

    /// How many shafts there are, and the entries of the first `count` columns, one after the other.
    // Inline for the walk, as `narrow_here`.
    #[inline(always)]
    pub(super) fn first(&self, count: usize) -> (usize, &[I]) {
        (self.shafts, &self.entries[..count * self.shafts])
    }

    fn columns(&self) -> impl Iterator<Item = &[I]> {
        let mut rest = &self.entries[..];
        (0..self.count).map(move |_| {
            let (column, others) = rest.split_at(self.shafts);
            rest = others;
            column
        })
    }

    /// Adds a column of `other` at the end.
    pub(super) fn push(&mut self, other: &Self, index: usize) {
        self.entries.extend_from_slice(other.column(index));
        self.bits |= other.bits;
        self.count += 1;
    }

    /// Divides each column by what its entries have in common.
    pub(super) fn reduce(&mut self) {
        for column in self.entries.chunks_exact_mut(self.shafts.max(1)) {
            I::reduce(column);
        }
        self.bits = I::bits(&self.entries);
    }

    /// Adds an equation; `None` when every column satisfies it already.
    pub(super) fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let mut narrowed = self.room();
        let pivot = self.narrow(self.count, terms, &mut narrowed)?;
        Ok(pivot.map(|_| narrowed))
    }

    /// Writes the basis of the motions that satisfy an equation as well over `into`, in the memory
    /// it has: each column but one, the pivot, combined with it where necessary, in the order they
    /// were in. The pivot's place is returned; `None` when every column satisfies the equation
    /// already, and `into` stays as it was.
    ///
    /// The pivot is sought among the first `preferred` columns, and where all of those satisfy the
    /// equation among the others.
    // Once for all who are in no hurry: the code is long, and downloaded.
    #[inline(never)]
    pub(super) fn narrow(
        &self,
        preferred: usize,
        terms: &Terms,
        into: &mut Self,
    ) -> Result<Option<usize>, I::Overflow> {
        self.narrow_here(preferred, terms, into)
    }

    /// As [`Columns::narrow`], put where it is asked for: calls would take a tenth of the time of a
    /// walk over all combinations.
    #[inline(always)]
    pub(super) fn narrow_here(
        &self,
        preferred: usize,
        terms: &Terms,
        into: &mut Self,
    ) -> Result<Option<usize>, I::Overflow> {
        let value = Value::of(terms);
        let Some(pivot) = self.pivot(preferred, value)? else {
            return Ok(None);
        };
        let entries = &mut into.entries;
        entries.clear();
        into.bits = 0;
        let removed = self.column(pivot.column);
        for (index, column) in self.columns().enumerate() {
            if index == pivot.column {
                continue;
            }
            let residual = value.within(column, self.bits)?;
            into.bits |= if residual.is_zero() {
                I::copy(column, entries)
            } else {
                let (kept, removed) = ((&pivot.residual, column), (&residual, removed));
                I::cross(kept, removed, self.bits, entries)?
            };
        }
        into.shafts = self.shafts;
        into.count = self.count - 1;
        Ok(Some(pivot.column))
    }

    /// Columns of the values of expressions; those without any are left out.
    pub(super) fn seen_in(&self, expressions: &[Terms]) -> Result<Self, I::Overflow> {
        let mut seen = self.room();
        seen.shafts = expressions.len();
        for column in self.columns() {
            let values = expressions.iter().map(|terms| value_in(column, terms));
            let values = values.collect::<Result<Vec<I>, _>>()?;
            if !values.iter().all(I::is_zero) {
                seen.entries.extend(values);
                seen.count += 1;
            }
        }
        seen.reduce();
        Ok(seen)
    }

    /// The values of expressions in each column.
    pub(super) fn values(&self, expressions: &[Terms]) -> Result<Vec<Vec<Fraction>>, I::Overflow> {
        let one = I::from_small(1);
        let value = |column: &[I], terms: &Terms| -> Result<Fraction, I::Overflow> {
            Ok(value_in(column, terms)?
                .over(&one)
                .unwrap_or(Fraction::ZERO))
        };
        let of_column = |column| {
            expressions
                .iter()
                .map(|terms| value(column, terms))
                .collect()
        };
        self.columns().map(of_column).collect()
    }

    /// The pivot is the column with the smallest residual: a small one keeps later numbers small.
    // Inline for the walk, as `narrow_here`.
    #[inline(always)]
    fn pivot(&self, preferred: usize, value: Value<'_>) -> Result<Option<Pivot<I>>, I::Overflow> {
        let mut best: Option<Pivot<I>> = None;
        for (column, motion) in self.columns().enumerate() {
            if column == preferred && best.is_some() {
                break;
            }
            let residual = value.within(motion, self.bits)?;
            if !residual.is_zero()
                && best
                    .as_ref()
                    .is_none_or(|best| residual.is_smaller_than(&best.residual))
            {
                best = Some(Pivot { column, residual });
            }
        }
        Ok(best)
    }
}

impl Columns<i64> {
    pub(super) fn to_big(&self) -> Columns<BigInt> {
        Columns {
            shafts: self.shafts,
            count: self.count,
            entries: self.entries.iter().copied().map(BigInt::from).collect(),
            bits: 0,
        }
    }
}
