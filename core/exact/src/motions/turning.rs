//! Motions seen from the input shaft.
//!
//! The basis is arranged so that the input turns in its last column only. An equation then
//! takes its pivot from the other columns where it can, which keeps that arrangement, and every
//! speed per input turn can be read off at any time.

use num_bigint::BigInt;

use super::columns::Columns;
use super::value::value_in;
use super::{Speeds, Term, Terms, speeds};
use crate::fraction::{Fraction, lowest};
use crate::nearest::quotient;
use crate::whole::{Overflow, Whole};

/// A shaft's speed beside the input's.
pub(super) enum Beside {
    /// Nothing decides it.
    Undetermined,
    /// The shaft rests, or the input does.
    AtRest,
    /// So many turns of the input for one of the shaft.
    Turns(Fraction),
}

/// Motions seen from the input shaft: what turns with it, and what may turn without it.
#[derive(Debug, Clone)]
pub struct Turning(Basis);

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

    /// These motions narrowed by one equation after the other; the number of equations that held
    /// already comes with them.
    pub fn narrowed<'t>(&self, equations: impl Iterator<Item = &'t Terms>) -> (Self, usize) {
        // Two take turns, so that only these need memory.
        let (mut narrowed, mut spare) = (None, self.room());
        let mut surplus = 0;
        for terms in equations {
            if narrowed.as_ref().unwrap_or(self).narrow(terms, &mut spare) {
                let before = narrowed.replace(spare);
                spare = before.unwrap_or_else(|| self.room());
            } else {
                surplus += 1;
            }
        }
        (narrowed.unwrap_or_else(|| self.clone()), surplus)
    }

    /// As [`super::Motions::constrained`].
    pub fn constrained(&self, terms: &Terms) -> Option<Self> {
        let mut narrowed = self.room();
        self.narrow(terms, &mut narrowed).then_some(narrowed)
    }

    /// As [`Turning::constrained`], in the memory of `into`, whatever it held; `false` when the
    /// equation holds already and `into` is of no use.
    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    pub(super) fn constrained_into(&self, terms: &Terms, into: &mut Self) -> bool {
        if let (Basis::Small(turn), Basis::Small(narrowed)) = (&self.0, &mut into.0)
            && let Ok(narrower) = turn.constrained_into(terms, narrowed)
        {
            return narrower;
        }
        self.narrow(terms, into)
    }

    /// As [`Turning::constrained_into`], for those in no hurry.
    // A call, because what it does is long, and downloaded.
    #[inline(never)]
    pub(super) fn narrow(&self, terms: &Terms, into: &mut Self) -> bool {
        let narrowed = match &self.0 {
            Basis::Small(turn) => {
                // What once held long numbers may hold short ones again.
                if let Basis::Big(_) = into.0 {
                    *into = self.room();
                }
                if let Basis::Small(narrowed) = &mut into.0
                    && let Ok(narrower) = turn.narrow(terms, narrowed)
                {
                    return narrower;
                }
                turn.to_big().constrained(terms)
            }
            Basis::Big(turn) => turn.constrained(terms),
        };
        let Ok(narrowed) = narrowed;
        let narrower = narrowed.is_some();
        if let Some(turn) = narrowed {
            *into = Self(Basis::Big(turn));
        }
        narrower
    }

    /// Nothing that turns: memory for these motions narrowed, by [`Turning::constrained_into`].
    pub(super) fn room(&self) -> Self {
        Self(match &self.0 {
            Basis::Small(turn) => Basis::Small(turn.room()),
            Basis::Big(turn) => Basis::Big(turn.room()),
        })
    }

    /// Speed of a shaft per input turn, as [`Turning::value`] of that one term.
    pub fn speed(&self, shaft: usize) -> Option<Fraction> {
        match &self.0 {
            Basis::Small(turn) => turn.speed(shaft),
            Basis::Big(turn) => turn.speed(shaft),
        }
    }

    /// The speed of every shaft per input turn, written over what `into` held; how many of them are
    /// determined.
    pub fn speeds(&self, into: &mut Speeds) -> usize {
        let shafts = match &self.0 {
            Basis::Small(turn) => {
                let shafts = turn.columns.shafts();
                if into.short.len() != shafts {
                    into.make_room(shafts);
                }
                if let Some(determined) = turn.speeds(&mut into.short) {
                    return determined;
                }
                shafts
            }
            Basis::Big(turn) => turn.columns.shafts(),
        };
        into.read_any(shafts, self)
    }

    /// Turns of the input for one of a shaft.
    pub(super) fn beside(&self, shaft: usize) -> Beside {
        match &self.0 {
            Basis::Small(turn) => turn.beside(shaft),
            Basis::Big(turn) => turn.beside(shaft),
        }
    }

    /// Value of a linear expression per input turn (or with the input at rest where it cannot
    /// turn); `None` when it is not determined.
    pub fn value(&self, terms: &[Term]) -> Option<Fraction> {
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

    /// The `f64` nearest to [`Turning::value`], mostly without the fraction.
    pub fn nearest(&self, terms: &[Term]) -> Option<f64> {
        let quick = match &self.0 {
            Basis::Small(turn) => turn.nearest(terms),
            Basis::Big(_) => Err(Overflow),
        };
        quick.unwrap_or_else(|Overflow| self.value(terms).map(|value| value.to_f64()))
    }

    /// Whether the speed of a shaft is determined.
    pub fn determines(&self, shaft: usize) -> bool {
        match &self.0 {
            Basis::Small(turn) => !turn.floats(shaft),
            Basis::Big(turn) => !turn.floats(shaft),
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
        let mut columns = motions.room();
        let pivot = motions.narrow(motions.count(), &at_rest, &mut columns)?;
        match pivot {
            None => columns = motions.clone(),
            Some(pivot) => columns.push(motions, pivot),
        }
        // Every narrowing and every reading to come is done in these numbers: small ones pay.
        columns.reduce();
        Ok(Self {
            columns,
            input,
            input_turns: pivot.is_some(),
        })
    }

    fn room(&self) -> Self {
        Self {
            columns: self.columns.room(),
            input: self.input,
            input_turns: false,
        }
    }

    /// How many columns leave the input at rest.
    fn idle(&self) -> usize {
        self.columns.count() - usize::from(self.input_turns)
    }

    /// Adds an equation; `None` when every column satisfies it already. The column that turns
    /// the input is given up only where no other can be.
    fn constrained(&self, terms: &Terms) -> Result<Option<Self>, I::Overflow> {
        let mut narrowed = self.room();
        Ok(self.narrow(terms, &mut narrowed)?.then_some(narrowed))
    }

    /// As [`Turn::constrained`], in the memory of `into`; whether the equation was new.
    fn narrow(&self, terms: &Terms, into: &mut Self) -> Result<bool, I::Overflow> {
        let idle = self.idle();
        let pivot = self.columns.narrow(idle, terms, &mut into.columns)?;
        Ok(into.is_without(self, pivot))
    }

    /// As [`Turn::narrow`].
    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    fn constrained_into(&self, terms: &Terms, into: &mut Self) -> Result<bool, I::Overflow> {
        let idle = self.idle();
        let pivot = self.columns.narrow_here(idle, terms, &mut into.columns)?;
        Ok(into.is_without(self, pivot))
    }

    /// Notes that these are the columns of others without one, if so.
    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    fn is_without(&mut self, wider: &Self, column: Option<usize>) -> bool {
        if let Some(column) = column {
            self.input = wider.input;
            self.input_turns = wider.input_turns && column < wider.idle();
        }
        column.is_some()
    }

    /// The motion that turns the input.
    fn driven(&self) -> Option<&[I]> {
        self.input_turns.then(|| self.columns.column(self.idle()))
    }

    /// Whether a shaft can turn while the input rests.
    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    fn floats(&self, shaft: usize) -> bool {
        let (shafts, entries) = self.columns.first(self.idle());
        // In steps over the entries, for the browser's sake: with an iterator over the columns a
        // walk over all combinations takes a fourteenth longer there.
        let mut entry = shaft;
        while entry < entries.len() {
            if !entries[entry].is_zero() {
                return true;
            }
            entry += shafts;
        }
        false
    }

    fn speed(&self, shaft: usize) -> Option<Fraction> {
        if self.floats(shaft) {
            return None;
        }
        match self.driven() {
            None => Some(Fraction::ZERO),
            Some(speeds) => speeds[shaft].over(&speeds[self.input]),
        }
    }

    fn beside(&self, shaft: usize) -> Beside {
        if self.floats(shaft) {
            return Beside::Undetermined;
        }
        let ratio = |driven: &[I]| driven[self.input].over(&driven[shaft]);
        self.driven()
            .and_then(ratio)
            .map_or(Beside::AtRest, Beside::Turns)
    }

    fn value(&self, terms: &[Term]) -> Result<Option<Fraction>, I::Overflow> {
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
    /// As [`Turning::nearest`], where the numbers are short enough for it.
    fn nearest(&self, terms: &[Term]) -> Result<Option<f64>, Overflow> {
        for index in 0..self.idle() {
            if value_in(self.columns.column(index), terms)? != 0 {
                return Ok(None);
            }
        }
        let Some(speeds) = self.driven() else {
            return Ok(Some(0.0));
        };
        let value = value_in(speeds, terms)?;
        quotient(value, speeds[self.input])
            .map(Some)
            .ok_or(Overflow)
    }

    /// As [`Turning::speeds`]; nothing where one of them is not short.
    fn speeds(&self, into: &mut [[i64; 2]]) -> Option<usize> {
        // Written out, not one by one through `speed`: this is a half of what a walk over all
        // combinations does.
        let Some(driven) = self.driven() else {
            into.fill(speeds::AT_REST);
            return Some(if self.idle() > 0 {
                self.speeds_at_rest(into)
            } else {
                into.len()
            });
        };
        let input = driven[self.input];
        let mut determined = 0;
        for ((shaft, speed), &driven) in into.iter_mut().enumerate().zip(driven) {
            let floats = self.floats(shaft);
            determined += usize::from(!floats);
            // Many a speed is none, or the input's own: these need no divisor.
            *speed = if floats {
                speeds::UNDETERMINED
            } else if driven == 0 {
                speeds::AT_REST
            } else if driven == input {
                speeds::AS_INPUT
            } else {
                lowest(driven, input)?
            };
        }
        Some(determined)
    }

    /// As [`Turning::speeds`] where the input rests, over zeros.
    // Apart, because shafts seldom float while the input is held.
    #[cold]
    #[inline(never)]
    fn speeds_at_rest(&self, zeros: &mut [[i64; 2]]) -> usize {
        let mut determined = 0;
        for (shaft, speed) in zeros.iter_mut().enumerate() {
            if self.floats(shaft) {
                *speed = speeds::UNDETERMINED;
            } else {
                determined += 1;
            }
        }
        determined
    }

    fn to_big(&self) -> Turn<BigInt> {
        Turn {
            columns: self.columns.to_big(),
            input: self.input,
            input_turns: self.input_turns,
        }
    }
}
