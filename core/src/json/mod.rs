//! Strict JSON and reading it into types, each value with its place.

mod read;
mod strict;

pub use read::{Fields, Problem, Read, Value, one_of, read_fields};
pub(crate) use read::{count, list, tagged};
pub use strict::strict;
