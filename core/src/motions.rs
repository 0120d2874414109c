//! Every motion a gear train can make: an exact basis of the solutions of its equations.
//!
//! The speeds ω of the shafts satisfy one integer row per mesh and per applied element. What
//! is kept is not the rows but a basis of their null space, one integer column per degree of
//! freedom. Adding a row r with residuals rᵢ = r·bᵢ on the columns bᵢ then costs one pass:
//! choose a pivot column p with rₚ ≠ 0, replace every other column by rₚ·bᵢ − rᵢ·bₚ, and drop
//! bₚ. If all residuals are zero the row holds already. The couplings are eliminated once for
//! a train; each clutch or brake afterwards only narrows a basis of a few columns, and every
//! combination that shares it shares that work.
//!
//! [`Turning`] is the same basis arranged so that the input turns in its last column only. A
//! row then takes its pivot from the other columns where it can, which keeps that arrangement,
//! and every speed per input turn can be read off at any time.

use std::ops::Range;

use num_bigint::BigInt;

use crate::fraction::Fraction;
use crate::whole::{Overflow, Whole};

/// A linear expression of shaft speeds: Σ coefficient · ω(shaft). The housing does not move
/// and has no term.
pub(crate) type Terms = Vec<(usize, i64)>;

/// The motions that satisfy a set of equations.
#[derive(Debug, Clone)]
pub struct Motions(Basis);

#[derive(Debug, Clone)]
enum Basis {
    Small(Columns<i64>),
    Big(Columns<BigInt>),
}

impl Motions {
    /// All motions of `shafts` shafts that nothing joins.
    pub(crate) fn free(shafts: usize) -> Self {
        Self(Basis::Small(Columns::identity(shafts)))
    }

    /// Degrees of freedom: how many speeds can be chosen independently.
    pub fn degrees_of_freedom(&self) -> usize {
        match &self.0 {
            Basis::Small(columns) => columns.count,
            Basis::Big(columns) => columns.count,
        }
    }

    /// The motions in which `terms` is zero as well; `None` when it is already zero in all.
    pub(crate) fn constrained(&self, terms: &Terms) -> Option<Self> {
        match &self.0 {
            Basis::Small(columns) => match columns.constrained(terms) {
                Ok(narrowed) => Some(Self(Basis::Small(narrowed?))),
                Err(Overflow) => Self(Basis::Big(columns.to_big())).constrained(terms),
            },
            Basis::Big(columns) => {
                let Ok(narrowed) = columns.constrained(terms);
                Some(Self(Basis::Big(narrowed?)))
            }
        }
    }

    /// These motions with the speed of shaft `input` taken as one turn.
    pub(crate) fn turning(&self, input: usize) -> Turning {
        match &self.0 {
            Basis::Small(columns) => match Turn::new(columns, input) {
                Ok(turn) => Turning::Small(turn),
                Err(Overflow) => Self(Basis::Big(columns.to_big())).turning(input),
            },
            Basis::Big(columns) => {
                let Ok(turn) = Turn::new(columns, input);
                Turning::Big(turn)
            }
        }
    }
}

/// Motions seen from the input shaft: what turns with it, and what may turn without it.
#[derive(Debug, Clone)]
pub(crate) enum Turning {
    Small(Turn<i64>),
    Big(Turn<BigInt>),
}

impl Turning {
    /// Whether the input can turn at all.
    pub(crate) fn input_can_turn(&self) -> bool {
        match self {
            Self::Small(turn) => turn.input_turns,
            Self::Big(turn) => turn.input_turns,
        }
    }

    /// Degrees of freedom, the input's included.
    pub(crate) fn degrees_of_freedom(&self) -> usize {
        match self {
            Self::Small(turn) => turn.columns.count,
            Self::Big(turn) => turn.columns.count,
        }
    }

    /// As [`Motions::constrained`].
    pub(crate) fn constrained(&self, terms: &Terms) -> Option<Self> {
        match self {
            Self::Small(turn) => match turn.constrained(terms) {
                Ok(narrowed) => narrowed.map(Self::Small),
                Err(Overflow) => Self::Big(turn.to_big()).constrained(terms),
            },
            Self::Big(turn) => {
                let Ok(narrowed) = turn.constrained(terms);
                narrowed.map(Self::Big)
            }
        }
    }

    /// Speed of a shaft per input turn, as [`Turning::value`] of that one term.
    pub(crate) fn speed(&self, shaft: usize) -> Option<Fraction> {
        match self {
            Self::Small(turn) => turn.speed(shaft),
            Self::Big(turn) => turn.speed(shaft),
        }
    }

    /// Value of a linear expression per input turn (or with the input at rest where it cannot
    /// turn); `None` when it is not determined.
    pub(crate) fn value(&self, terms: &Terms) -> Option<Fraction> {
        match self {
            Self::Small(turn) => match turn.value(terms) {
                Ok(value) => value,
                Err(Overflow) => {
                    let Ok(value) = turn.to_big().value(terms);
                    value
                }
            },
            Self::Big(turn) => {
                let Ok(value) = turn.value(terms);
                value
            }
        }
    }
}

/// A basis stored column after column.
#[derive(Debug, Clone)]
struct Columns<I> {
    shafts: usize,
    count: usize,
    entries: Vec<I>,
}

/// The column that an equation removes, and the equation's residual in it.
struct Pivot<I> {
    column: usize,
    residual: I,
}

impl<I: Whole> Columns<I> {
    fn identity(shafts: usize) -> Self {
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

    fn column(&self, index: usize) -> &[I] {
        &self.entries[index * self.shafts..(index + 1) * self.shafts]
    }

    /// Adds an equation; `None` when every column satisfies it already.
    fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let pivot = self.pivot(0..self.count, terms)?;
        pivot.map(|pivot| self.without(&pivot, terms)).transpose()
    }

    /// Among the columns `among` that do not satisfy an equation, that with the smallest
    /// residual: a small pivot keeps later numbers small.
    fn pivot(&self, among: Range<usize>, terms: &Terms) -> Result<Option<Pivot<I>>, I::Overflow> {
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
    fn without(&self, pivot: &Pivot<I>, terms: &Terms) -> Result<Self, I::Overflow> {
        let mut entries = Vec::with_capacity(self.entries.len());
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
        Ok(Self {
            shafts: self.shafts,
            count: self.count - 1,
            entries,
        })
    }
}

impl Columns<i64> {
    fn to_big(&self) -> Columns<BigInt> {
        Columns {
            shafts: self.shafts,
            count: self.count,
            entries: self.entries.iter().copied().map(BigInt::from).collect(),
        }
    }
}

/// Columns of which at most the last turns the input.
#[derive(Debug, Clone)]
pub(crate) struct Turn<I> {
    columns: Columns<I>,
    input: usize,
    /// Whether the last column turns the input; otherwise none does.
    input_turns: bool,
}

impl<I: Whole> Turn<I> {
    fn new(motions: &Columns<I>, input: usize) -> Result<Self, I::Overflow> {
        let at_rest = vec![(input, 1)];
        let pivot = motions.pivot(0..motions.count, &at_rest)?;
        let columns = match &pivot {
            None => motions.clone(),
            Some(pivot) => {
                let mut columns = motions.without(pivot, &at_rest)?;
                columns
                    .entries
                    .extend_from_slice(motions.column(pivot.column));
                columns.count += 1;
                columns
            }
        };
        Ok(Self {
            columns,
            input,
            input_turns: pivot.is_some(),
        })
    }

    /// How many columns leave the input at rest.
    fn idle(&self) -> usize {
        self.columns.count - usize::from(self.input_turns)
    }

    /// Adds an equation; `None` when every column satisfies it already. The column that turns
    /// the input is given up only where no other can be.
    fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let idle = self.idle();
        let pivot = match self.columns.pivot(0..idle, terms)? {
            Some(pivot) => pivot,
            None => match self.columns.pivot(idle..self.columns.count, terms)? {
                Some(pivot) => pivot,
                None => return Ok(None),
            },
        };
        Ok(Some(Self {
            columns: self.columns.without(&pivot, terms)?,
            input: self.input,
            input_turns: self.input_turns && pivot.column < idle,
        }))
    }

    /// The motion that turns the input.
    fn driven(&self) -> Option<&[I]> {
        self.input_turns.then(|| self.columns.column(self.idle()))
    }

    fn speed(&self, shaft: usize) -> Option<Fraction> {
        for index in 0..self.idle() {
            if !self.columns.column(index)[shaft].is_zero() {
                return None;
            }
        }
        match self.driven() {
            None => Some(Fraction::ZERO),
            Some(speeds) => speeds[shaft].over(&speeds[self.input]),
        }
    }

    fn value(&self, terms: &Terms) -> Result<Option<Fraction>, I::Overflow> {
        for index in 0..self.idle() {
            if !value_in(self.columns.column(index), terms)?.is_zero() {
                return Ok(None);
            }
        }
        match self.driven() {
            None => Ok(Some(Fraction::ZERO)),
            Some(speeds) => Ok(value_in(speeds, terms)?.over(&speeds[self.input])),
        }
    }
}

impl Turn<i64> {
    fn to_big(&self) -> Turn<BigInt> {
        Turn {
            columns: self.columns.to_big(),
            input: self.input,
            input_turns: self.input_turns,
        }
    }
}

/// Value of a linear expression in one motion.
fn value_in<I: Whole>(motion: &[I], terms: &Terms) -> Result<I, I::Overflow> {
    match terms[..] {
        [(shaft, 1)] => Ok(motion[shaft].clone()),
        _ => terms.iter().try_fold(I::from_small(0), |sum, &(shaft, k)| {
            sum.plus_scaled(k, &motion[shaft])
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_equation_removes_one_freedom_and_a_repeated_one_none() {
        let free = Motions::free(3);
        let set = free.constrained(&vec![(0, 20), (1, -100), (2, 80)]);
        let set = set.unwrap_or_else(|| free.clone());
        assert_eq!(set.degrees_of_freedom(), 2);
        assert!(set.constrained(&vec![(0, -1), (1, 5), (2, -4)]).is_none());
    }

    #[test]
    fn equations_may_come_before_or_after_the_choice_of_input() {
        let set = vec![(0, 20), (1, -100), (2, 80)];
        let free = Motions::free(4);
        let coupled = free.constrained(&set).unwrap_or_else(|| free.clone());
        let held = |shaft| vec![(shaft, 1)];
        let joined = vec![(0, 1), (1, -1)];
        for equations in [
            vec![],
            vec![held(2)],
            vec![held(3), held(2)],
            vec![held(2), joined.clone()],
            vec![joined, vec![(1, 1), (2, -1)]],
            vec![held(0)],
        ] {
            let mut motions = coupled.clone();
            let mut turning = coupled.turning(0);
            for equation in &equations {
                let narrowed = motions.constrained(equation);
                let narrower = turning.constrained(equation);
                assert_eq!(narrowed.is_some(), narrower.is_some(), "{equations:?}");
                motions = narrowed.unwrap_or(motions);
                turning = narrower.unwrap_or(turning);
            }
            let after = motions.turning(0);
            assert_eq!(turning.degrees_of_freedom(), after.degrees_of_freedom());
            assert_eq!(turning.input_can_turn(), after.input_can_turn());
            for shaft in 0..4 {
                assert_eq!(turning.speed(shaft), after.speed(shaft), "{equations:?}");
                assert_eq!(turning.speed(shaft), turning.value(&held(shaft)));
            }
        }
    }

    #[test]
    fn numbers_beyond_i64_stay_exact() {
        // A chain of 24 shafts, each 999/998 of the one before: 999^23 is about 2^229.
        let mut motions = Motions::free(24);
        let mut turning = motions.turning(0);
        for shaft in 1..24 {
            let equation = vec![(shaft - 1, 999), (shaft, -998)];
            motions = motions.constrained(&equation).unwrap_or(motions);
            turning = turning.constrained(&equation).unwrap_or(turning);
        }
        assert_eq!(motions.degrees_of_freedom(), 1);
        let power = |base: u32| num_traits::pow(BigInt::from(base), 23);
        let exact = Fraction::from_big(power(999), power(998));
        for turning in [turning, motions.turning(0)] {
            assert_eq!(turning.value(&vec![(23, 1)]), exact);
            assert_eq!(turning.speed(23), exact);
        }
    }
}
