//! A basis of motions in one type of whole number, and its narrowing by an equation.

use std::ops::Range;

use num_bigint::BigInt;

use super::Terms;
use crate::whole::Whole;

/// A basis stored column after column.
#[derive(Debug)]
pub(super) struct Columns<I> {
    shafts: usize,
    count: usize,
    entries: Vec<I>,
}

impl<I: Clone> Clone for Columns<I> {
    fn clone(&self) -> Self {
        Self {
            shafts: self.shafts,
            count: self.count,
            entries: self.entries.clone(),
        }
    }

    /// Keeps the memory it has.
    fn clone_from(&mut self, source: &Self) {
        self.shafts = source.shafts;
        self.count = source.count;
        self.entries.clone_from(&source.entries);
    }
}

/// The column that an equation removes, and the equation's residual in it.
pub(super) struct Pivot<I> {
    pub(super) column: usize,
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
            entries,
        }
    }

    /// No columns, and no memory.
    pub(super) fn empty() -> Self {
        Self {
            shafts: 0,
            count: 0,
            entries: Vec::new(),
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

    /// The entries of the first `count` columns, one column after another.
    pub(super) fn first(&self, count: usize) -> &[I] {
        &self.entries[..count * self.shafts]
    }

    /// Adds a column at the end.
    pub(super) fn push(&mut self, column: &[I]) {
        self.entries.extend_from_slice(column);
        self.count += 1;
    }

    /// Adds an equation; `None` when every column satisfies it already.
    pub(super) fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let pivot = self.pivot(0..self.count, terms)?;
        pivot.map(|pivot| self.without(&pivot, terms)).transpose()
    }

    /// Among the columns `among` that do not satisfy an equation, that with the smallest
    /// residual: a small pivot keeps later numbers small.
    pub(super) fn pivot(
        &self,
        among: Range<usize>,
        terms: &Terms,
    ) -> Result<Option<Pivot<I>>, I::Overflow> {
        let mut best: Option<Pivot<I>> = None;
        for column in among {
            let residual = value_in(self.column(column), terms)?;
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

    /// The basis of the motions that satisfy an equation as well: each column but the pivot,
    /// combined with it where necessary, in the order they were in.
    pub(super) fn without(&self, pivot: &Pivot<I>, terms: &Terms) -> Result<Self, I::Overflow> {
        let mut narrowed = Self::empty();
        self.without_into(pivot, terms, &mut narrowed)?;
        Ok(narrowed)
    }

    /// As [`Columns::without`], in the memory of `into`, whatever it held.
    pub(super) fn without_into(
        &self,
        pivot: &Pivot<I>,
        terms: &Terms,
        into: &mut Self,
    ) -> Result<(), I::Overflow> {
        let entries = &mut into.entries;
        entries.clear();
        entries.reserve(self.entries.len());
        for index in (0..self.count).filter(|&index| index != pivot.column) {
            let column = self.column(index);
            let residual = value_in(column, terms)?;
            if residual.is_zero() {
                entries.extend_from_slice(column);
                continue;
            }
            let start = entries.len();
            for (own, removed) in column.iter().zip(self.column(pivot.column)) {
                entries.push(I::cross(&pivot.residual, own, &residual, removed)?);
            }
            I::shrink(&mut entries[start..]);
        }
        into.shafts = self.shafts;
        into.count = self.count - 1;
        Ok(())
    }
}

impl Columns<i64> {
    pub(super) fn to_big(&self) -> Columns<BigInt> {
        Columns {
            shafts: self.shafts,
            count: self.count,
            entries: self.entries.iter().copied().map(BigInt::from).collect(),
        }
    }
}

/// Value of a linear expression in one motion.
pub(super) fn value_in<I: Whole>(motion: &[I], terms: &Terms) -> Result<I, I::Overflow> {
    match terms[..] {
        [(shaft, 1)] => Ok(motion[shaft].clone()),
        [(first, 1), (second, -1)] => motion[first].minus(&motion[second]),
        _ => terms.iter().try_fold(I::from_small(0), |sum, &(shaft, k)| {
            sum.plus_scaled(k, &motion[shaft])
        }),
    }
}
