//! The value of a linear expression in a motion.

use super::Term;
use crate::whole::{Bits, Whole};

/// A linear expression, looked at once for all columns.
#[derive(Clone, Copy)]
pub(super) enum Value<'t> {
    /// The speed of a shaft.
    Speed(usize),
    /// How much faster the first turns than the second.
    Difference(usize, usize),
    /// Any other.
    Sum(&'t [Term]),
}

impl<'t> Value<'t> {
    /// The expression of these terms.
    // Inline for the walk, as `Columns::narrow_here`.
    #[inline(always)]
    pub(super) fn of(terms: &'t [Term]) -> Self {
        match *terms {
            [(shaft, 1)] => Self::Speed(shaft),
            [(first, 1), (second, -1)] => Self::Difference(first, second),
            _ => Self::Sum(terms),
        }
    }

    /// Its value in one motion, whose entries have no other bits than `bits`.
    // Inline for the walk, as `Columns::narrow_here`: it is its innermost step.
    #[inline(always)]
    pub(super) fn within<I: Whole>(self, motion: &[I], bits: Bits) -> Result<I, I::Overflow> {
        match self {
            Self::Speed(shaft) => Ok(motion[shaft].clone()),
            Self::Difference(first, second) => motion[first].minus(&motion[second], bits),
            Self::Sum(terms) => sum(motion, terms),
        }
    }
}

// A call, because no element needs it: what joins two members, or one to the housing, has two terms or one.
#[inline(never)]
fn sum<I: Whole>(motion: &[I], terms: &[Term]) -> Result<I, I::Overflow> {
    terms.iter().try_fold(I::from_small(0), |sum, &(shaft, k)| {
        sum.plus_scaled(k, &motion[shaft])
    })
}

/// Value of a linear expression in one motion.
pub(super) fn value_in<I: Whole>(motion: &[I], terms: &[Term]) -> Result<I, I::Overflow> {
    Value::of(terms).within(motion, Bits::MAX)
}
