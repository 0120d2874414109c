//! Shifts as swaps of elements: which ratios lead to which others, and the ranges that a train could have.
//!
//! A shift between two combinations releases some elements and applies others. Where that is one of each,
//! one hands its torque over to the other, and that is all there is to time: a single swap ([`Swap`]).
//! All combinations that drive and the single swaps between them are a graph ([`Graph`]). Named ranges are
//! some of its nodes, and their shifts, those that skip ranges too, are single swaps or are not
//! ([`Shift::all`]). Backwards, a path along which the ratio falls is a row of ranges that the train could
//! have ([`Chain`]), whether or not anybody named them.
//!
//! What is a node (derived): a set of elements that somebody can apply, of which none is to spare, and that
//! drives at one ratio. One-way clutches lock by themselves, settled for drive; a brake beside one that
//! locks is not to spare, as it holds for the other duty. An element that only holds what would float is none
//! to spare either, since it takes away a freedom: it may be applied already for the shift after the next.
//! So one ratio can be that of several nodes. A named range that drives is a node whatever it has to spare.
//!
//! Where two sets differ by one element alone, there is nothing to hand over: without one-way clutches both
//! have the same ratio, and one only prepares for a shift. With them the ratio can be another, as what is
//! applied makes a one-way clutch overrun. Both are less to do than a single swap ([`Kind::Alone`]),
//! and count as one wherever single swaps are asked for.
//!
//! Ratios are exact, and they alone decide. Floating point says which of two is surely larger where they
//! are far apart, to save time, and nothing where they are not.

mod bounds;
mod chain;
mod chains;
mod graph;
mod partial;
mod report;
mod search;
mod shift;
mod swap;

pub use bounds::Bounds;
pub use chain::Chain;
pub use chains::{Chains, MOST_CHAINS, MOST_WORK};
pub use graph::{Graph, Node};
pub use report::{ChainReport, ChainsReport, NodeReport, ShiftsReport, SwapReport};
pub use search::Search;
pub use shift::Shift;
pub use swap::{Kind, Swap};
