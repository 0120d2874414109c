//! What applied elements do, decided exactly: combinations, their speeds and ideal torques, what
//! fights in a tie-up, how one-way clutches settle, and the chart of the ranges.

pub(crate) mod chart;
mod combination;
pub(crate) mod fight;
pub(crate) mod settle;
pub(crate) mod torque;

pub(crate) use combination::narrowed;
pub use combination::{Combination, State};
