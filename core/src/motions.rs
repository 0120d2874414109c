//! Every motion a gear train can make: an exact basis of the solutions of its equations.
//!
//! The speeds ω of the shafts satisfy one integer row per mesh and per applied element. What
//! is kept is not the rows but a basis of their null space, one integer column per degree of
//! freedom. Adding a row r with residuals rᵢ = r·bᵢ on the columns bᵢ then costs one pass:
//! choose a pivot column p with rₚ ≠ 0, replace every other column by rₚ·bᵢ − rᵢ·bₚ, and drop
//! bₚ. If all residuals are zero the row holds already. The couplings are eliminated once for
//! a train; each clutch or brake afterwards only narrows a basis of a few columns, and every
//! combination that shares it shares that work.

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
                Ok(step) => Some(Self(Basis::Small(step?.narrowed))),
                Err(Overflow) => Self(Basis::Big(columns.to_big())).constrained(terms),
            },
            Basis::Big(columns) => {
                let Ok(step) = columns.constrained(terms);
                Some(Self(Basis::Big(step?.narrowed)))
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
            Self::Small(turn) => turn.unit.is_some(),
            Self::Big(turn) => turn.unit.is_some(),
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

/// What a new equation does to a basis.
struct Step<I> {
    /// The basis of what still moves.
    narrowed: Columns<I>,
    /// The column that the equation removed, and its residual in it.
    pivot: (usize, I),
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
    fn constrained(&self, terms: &Terms) -> Result<Option<Step<I>>, I::Overflow> {
        let mut residuals = Vec::with_capacity(self.count);
        let mut pivot: Option<usize> = None;
        for index in 0..self.count {
            let residual = value_in(self.column(index), terms)?;
            if !residual.is_zero()
                && pivot.is_none_or(|best: usize| residual.is_smaller_than(&residuals[best]))
            {
                pivot = Some(index);
            }
            residuals.push(residual);
        }
        let Some(pivot) = pivot else { return Ok(None) };

        let mut entries = Vec::with_capacity(self.entries.len());
        for index in (0..self.count).filter(|&index| index != pivot) {
            let column = self.column(index);
            if residuals[index].is_zero() {
                entries.extend_from_slice(column);
                continue;
            }
            let start = entries.len();
            for (own, removed) in column.iter().zip(self.column(pivot)) {
                entries.push(I::cross(
                    &residuals[pivot],
                    own,
                    &residuals[index],
                    removed,
                )?);
            }
            I::shrink(&mut entries[start..]);
        }
        let narrowed = Self {
            shafts: self.shafts,
            count: self.count - 1,
            entries,
        };
        Ok(Some(Step {
            narrowed,
            pivot: (pivot, residuals.swap_remove(pivot)),
        }))
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

/// One motion in which the input turns, and the motions in which it rests.
#[derive(Debug, Clone)]
pub(crate) struct Turn<I> {
    /// Shaft speeds, and the input's speed among them that they are to be divided by.
    unit: Option<(Vec<I>, I)>,
    /// What can still move while the input rests.
    idle: Columns<I>,
}

impl<I: Whole> Turn<I> {
    fn new(motions: &Columns<I>, input: usize) -> Result<Self, I::Overflow> {
        Ok(match motions.constrained(&vec![(input, 1)])? {
            None => Self {
                unit: None,
                idle: motions.clone(),
            },
            Some(Step {
                narrowed,
                pivot: (index, speed),
            }) => Self {
                unit: Some((motions.column(index).to_vec(), speed)),
                idle: narrowed,
            },
        })
    }

    fn value(&self, terms: &Terms) -> Result<Option<Fraction>, I::Overflow> {
        for index in 0..self.idle.count {
            if !value_in(self.idle.column(index), terms)?.is_zero() {
                return Ok(None);
            }
        }
        match &self.unit {
            None => Ok(Some(Fraction::ZERO)),
            Some((speeds, input)) => Ok(value_in(speeds, terms)?.over(input)),
        }
    }
}

impl Turn<i64> {
    fn to_big(&self) -> Turn<BigInt> {
        let big = |values: &[i64]| values.iter().copied().map(BigInt::from).collect();
        Turn {
            unit: self
                .unit
                .as_ref()
                .map(|(speeds, input)| (big(speeds), BigInt::from(*input))),
            idle: self.idle.to_big(),
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
    fn numbers_beyond_i64_stay_exact() {
        // A chain of 24 shafts, each 999/998 of the one before: 999^23 is about 2^229.
        let mut motions = Motions::free(24);
        for shaft in 1..24 {
            motions = motions
                .constrained(&vec![(shaft - 1, 999), (shaft, -998)])
                .unwrap_or_else(|| Motions::free(24));
        }
        assert_eq!(motions.degrees_of_freedom(), 1);
        let speed = motions.turning(0).value(&vec![(23, 1)]);
        let power = |base: u32| num_traits::pow(BigInt::from(base), 23);
        assert_eq!(speed, Fraction::from_big(power(999), power(998)));
    }
}
