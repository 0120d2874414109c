//! What applied elements do, decided exactly: combinations, their speeds and ideal torques, what
//! fights in a tie-up, how one-way clutches settle, and the chart of the ranges.

pub(crate) mod chart;
mod combination;
mod fewest;
pub(crate) mod fight;
mod locking;
pub(crate) mod settle;
pub(crate) mod torque;

pub(crate) use combination::narrowed;
pub use combination::{Combination, State};
