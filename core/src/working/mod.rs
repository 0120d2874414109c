//! Showing the working: the closed formula of a ratio in tooth symbols.
//!
//! Each mesh row is constant + k·slope in its own ratio k (R/S for a planetary set). Where the
//! input decides the output, some of the rows combine into one equation between the two:
//! the multipliers are cofactors, so the coefficients of input and output are determinants of
//! those rows, multilinear in the k. They are evaluated exactly at the corners where every k
//! is 0 or 1, which gives their coefficients; factoring both and cancelling gives the formula.

mod derive;
mod expression;
mod polynomial;
mod write;

pub use expression::{Expression, Written};

use crate::solve::Combination;

/// The working behind a combination.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Working {
    /// The ratio as a formula of tooth counts; `None` when there is no ratio, when it holds only
    /// for these very tooth counts, or when it would take more rows than anyone would read.
    pub ratio: Option<Expression>,
    /// The speed equation of each mesh row, both sides: Σ left = Σ right.
    pub equations: Vec<SetEquation>,
}

/// The speed equation of one mesh row of a coupling.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetEquation {
    /// Index of the coupling.
    pub coupling: usize,
    /// Left side.
    pub left: Expression,
    /// Right side.
    pub right: Expression,
}

impl Working {
    /// Works a combination out.
    pub fn of(combination: &Combination<'_>) -> Self {
        Self {
            ratio: derive::ratio(combination),
            equations: write::equations(combination.train()),
        }
    }
}
