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
#[derive(Debug)]
pub struct Turning(Basis);

impl Clone for Turning {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }

    /// Keeps the memory it has.
    fn clone_from(&mut self, source: &Self) {
        match (&mut self.0, &source.0) {
            (Basis::Small(own), Basis::Small(other)) => {
                own.columns.clone_from(&other.columns);
                own.input = other.input;
                own.input_turns = other.input_turns;
            }
            (own, other) => *own = other.clone(),
        }
    }
}

#[derive(Debug, Clone)]
enum Basis {
    Small(Turn<i64>),
    Big(Turn<BigInt>),
}

impl Turning {
    pub(super) fn new(motions: &Columns<i64>, input: usize) -> Self {
        match Turn::new(motions, input) {
            Ok(turn) => Self(Basis::Small(turn)),
            Err(Overflow) => Self::new_big(&motions.to_big(), input),
        }
    }

    pub(super) fn new_big(motions: &Columns<BigInt>, input: usize) -> Self {
        let Ok(turn) = Turn::new(motions, input);
        Self(Basis::Big(turn))
    }

    /// Whether the input can turn at all.
    pub fn input_can_turn(&self) -> bool {
        match &self.0 {
            Basis::Small(turn) => turn.input_turns,
            Basis::Big(turn) => turn.input_turns,
        }
    }

    /// Degrees of freedom, the input's included.
    pub fn degrees_of_freedom(&self) -> usize {
        match &self.0 {
            Basis::Small(turn) => turn.columns.count(),
            Basis::Big(turn) => turn.columns.count(),
        }
    }

    /// As [`super::Motions::constrained`].
    pub fn constrained(&self, terms: &Terms) -> Option<Self> {
        match &self.0 {
            Basis::Small(turn) => match turn.constrained(terms) {
                Ok(narrowed) => narrowed.map(|turn| Self(Basis::Small(turn))),
                Err(Overflow) => Self(Basis::Big(turn.to_big())).constrained(terms),
            },
            Basis::Big(turn) => {
                let Ok(narrowed) = turn.constrained(terms);
                narrowed.map(|turn| Self(Basis::Big(turn)))
            }
        }
    }

    /// As [`Turning::constrained`], in the memory of `into`, whatever it held; `false` when the
    /// equation holds already and `into` is of no use.
    pub fn constrained_into(&self, terms: &Terms, into: &mut Self) -> bool {
        if let (Basis::Small(turn), Basis::Small(narrowed)) = (&self.0, &mut into.0)
            && let Ok(narrower) = turn.constrained_into(terms, narrowed)
        {
            return narrower;
        }
        match self.constrained(terms) {
            None => false,
            Some(narrowed) => {
                *into = narrowed;
                true
            }
        }
    }

    /// Nothing that turns: memory for [`Turning::constrained_into`].
    pub fn empty() -> Self {
        Self(Basis::Small(Turn {
            columns: Columns::empty(),
            input: 0,
            input_turns: false,
        }))
    }

    /// Speed of a shaft per input turn, as [`Turning::value`] of that one term.
    pub fn speed(&self, shaft: usize) -> Option<Fraction> {
        match &self.0 {
            Basis::Small(turn) => turn.speed(shaft),
            Basis::Big(turn) => turn.speed(shaft),
        }
    }

    /// The speed of every shaft per input turn, written over what `into` held.
    pub fn speeds(&self, into: &mut Vec<Option<Fraction>>) {
        into.clear();
        match &self.0 {
            Basis::Small(turn) => turn.speeds(into),
            Basis::Big(turn) => turn.speeds(into),
        }
    }

    /// Value of a linear expression per input turn (or with the input at rest where it cannot
    /// turn); `None` when it is not determined.
    pub fn value(&self, terms: &Terms) -> Option<Fraction> {
        match &self.0 {
            Basis::Small(turn) => match turn.value(terms) {
                Ok(value) => value,
                Err(Overflow) => {
                    let Ok(value) = turn.to_big().value(terms);
                    value
                }
            },
            Basis::Big(turn) => {
                let Ok(value) = turn.value(terms);
                value
            }
        }
    }
}

/// Columns of which at most the last turns the input.
#[derive(Debug, Clone)]
struct Turn<I> {
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
        let mut narrowed = Self {
            columns: Columns::empty(),
            input: self.input,
            input_turns: false,
        };
        let narrower = self.constrained_into(terms, &mut narrowed)?;
        Ok(narrower.then_some(narrowed))
    }

    /// As [`Turn::constrained`], in the memory of `into`; whether the equation was new.
    fn constrained_into(&self, terms: &Terms, into: &mut Self) -> Result<bool, I::Overflow> {
        let idle = self.idle();
        let pivot = match self.columns.pivot(0..idle, terms)? {
            Some(pivot) => pivot,
            None => match self.columns.pivot(idle..self.columns.count(), terms)? {
                Some(pivot) => pivot,
                None => return Ok(false),
            },
        };
        self.columns
            .without_into(&pivot, terms, &mut into.columns)?;
        into.input = self.input;
        into.input_turns = self.input_turns && pivot.column < idle;
        Ok(true)
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

    fn speeds(&self, into: &mut Vec<Option<Fraction>>) {
        // Written out, not one by one through `speed`: this is most of what a walk over all
        // combinations does.
        let shafts = self.columns.shafts();
        let idle = self.columns.first(self.idle());
        let driven = self.driven();
        into.reserve(shafts);
        for shaft in 0..shafts {
            let floats = idle
                .iter()
                .skip(shaft)
                .step_by(shafts)
                .any(|x| !x.is_zero());
            into.push(match driven {
                _ if floats => None,
                None => Some(Fraction::ZERO),
                Some(speeds) => speeds[shaft].over(&speeds[self.input]),
            });
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
