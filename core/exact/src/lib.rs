//! Exact arithmetic: fractions, and every motion that a set of integer equations allows.
//!
//! A set of equations is kept as a basis of its solutions ([`Motions`]); [`Turning`] is the same
//! seen from one of the unknowns, the input's speed, by which all others are measured.
//!
//! A crate of its own because this is what runs for each of the 2ⁿ combinations of a train: it is
//! compiled for speed before all, while the size of the rest of the engine, which is downloaded, matters too.

mod fraction;
mod motions;
mod nearest;
mod whole;

pub use fraction::Fraction;
pub use motions::{Motions, Speeds, State, Term, Terms, Turning, Visited, Walk};
pub use whole::crossed;
