//! What every other room may use and that knows no gear: sets of elements, problems, numbers in words.

pub(crate) mod characters;
pub(crate) mod element_set;
pub(crate) mod number;
pub(crate) mod problem;
pub mod short_sort;
pub(crate) mod sine;
