//! Strict JSON and reading it into types, each value with its place.

mod read;
mod reader;
mod spot;
mod strict;
mod value;
mod write;

pub use read::{Fields, Problem, Read, one_of, read_fields};
pub(crate) use read::{count, is_format, list, tagged, tagged_by};
pub use spot::{Spot, spot};
pub use strict::strict;
pub use value::Value;
