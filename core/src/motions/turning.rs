//! Motions seen from the input shaft.
//!
//! The basis is arranged so that the input turns in its last column only. An equation then
//! takes its pivot from the other columns where it can, which keeps that arrangement, and every
//! speed per input turn can be read off at any time.

use num_bigint::BigInt;

use super::Terms;
use super::columns::{Columns, value_in};
use crate::fraction::Fraction;
use crate::whole::{Overflow, Whole};

/// Motions seen from the input shaft: what turns with it, and what may turn without it.
#[derive(Debug, Clone)]
pub(crate) enum Turning {
    Small(Turn<i64>),
    Big(Turn<BigInt>),
}

impl Turning {
    pub(super) fn new(motions: &Columns<i64>, input: usize) -> Self {
        match Turn::new(motions, input) {
            Ok(turn) => Self::Small(turn),
            Err(Overflow) => Self::new_big(&motions.to_big(), input),
        }
    }

    pub(super) fn new_big(motions: &Columns<BigInt>, input: usize) -> Self {
        let Ok(turn) = Turn::new(motions, input);
        Self::Big(turn)
    }

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
            Self::Small(turn) => turn.columns.count(),
            Self::Big(turn) => turn.columns.count(),
        }
    }

    /// As [`super::Motions::constrained`].
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
        let pivot = motions.pivot(0..motions.count(), &at_rest)?;
        let columns = match &pivot {
            None => motions.clone(),
            Some(pivot) => {
                let mut columns = motions.without(pivot, &at_rest)?;
                columns.push(motions.column(pivot.column));
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
        self.columns.count() - usize::from(self.input_turns)
    }

    /// Adds an equation; `None` when every column satisfies it already. The column that turns
    /// the input is given up only where no other can be.
    fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let idle = self.idle();
        let pivot = match self.columns.pivot(0..idle, terms)? {
            Some(pivot) => pivot,
            None => match self.columns.pivot(idle..self.columns.count(), terms)? {
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
