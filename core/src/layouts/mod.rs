//! Finding whole layouts for wanted ratios, completely.
//!
//! [`LayoutAsk`] says how many sets of which kinds, how many clutches and brakes, and which ratios; a
//! [`LayoutSearch`] goes through all layouts of that class and keeps those that give the ratios with real teeth.
//!
//! # What a layout is
//!
//! Each member of each set is part of a body: the housing, the input, the output, or a further shaft. Clutches join two
//! shafts, brakes a shaft and the housing. Two layouts are the same where one becomes the other by naming its sets of one
//! kind, its shafts or its elements otherwise; of those the one is taken whose row of bodies comes first. In all of
//! them
//!
//! - no two members of a set are part of one body, which would lock the set for good;
//! - each further shaft carries a member, and is joined to two things at least; input and output to one;
//! - there are as many shafts as mesh rows and applied elements together, and one more: so many elements applied
//!   leave one motion, which the input drives. (Mobility: shafts less rows; each applied clutch or brake takes one away.)
//! - each element is applied in one of the ranges and carries torque in one, and a ratio depends on each set;
//! - the shafts nest round one axis ([`crate::Nesting`]), input at one end and output at the other; those with so
//!   many carriers on one shaft that this is not decided are kept.
//!
//! One-way clutches are not placed, and a range applies just as many elements as all others do.
//!
//! # Method
//!
//! 1. Frames: all ways of joining the members to bodies, in the order of a restricted growth string, so that each
//!    comes once; of those that differ by the names of sets, the first (`class.rs`). A frame that does not nest is
//!    dropped, as it nests no better with elements.
//! 2. Drives: for each choice of as many pairs of bodies as are applied, the ratio as a quotient of multilinear
//!    polynomials in the tooth ratios, with whole coefficients (`drives.rs`, `ratio.rs`).
//! 3. Choices: drives for the ranges, one after the other, as long as the elements suffice and there are tooth ratios with
//!    which all can be what is wanted: cells of a grid, which are compared quickly, then boxes that are divided (`grid.rs`,
//!    `region.rs`, `choose.rs`). Bounds in a cell or box hold all values there.
//! 4. Teeth: [`crate::search`] finds the best for each choice; layouts with the same ratios share that. Exact trains
//!    decide.
//!
//! So none is missed, but where a frame has more choices than [`limits::CHOICES`] tries tell, or a search for teeth takes more
//! than [`limits::BOXES`] boxes: both are counted.

mod ask;
mod checkpoint;
mod choose;
mod class;
mod contradictions;
mod draft;
mod drives;
mod forecast;
mod found;
mod frame;
mod grid;
pub mod limits;
mod opening;
mod preparation;
mod ratio;
mod region;
mod report;
mod search;
mod task;

pub use ask::{LayoutAsk, WantedRatio};
pub use forecast::{LayoutEstimate, LayoutForecast};
pub use found::LayoutFound;
pub use preparation::LayoutPreparation;
pub use report::{LayoutReport, LayoutsReport};
pub use search::{LayoutCounts, LayoutSearch};
