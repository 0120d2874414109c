//! Strict JSON and reading it into types, each value with its place.

mod read;
mod strict;

pub(crate) use read::{Fields, Read, count, list, one_of, read_fields, tagged};
pub(crate) use strict::strict;
