//! What every other room may use and that knows no gear: sets of elements, problems, numbers in words.

pub(crate) mod element_set;
pub(crate) mod fault;
pub(crate) mod number;
pub mod short_sort;
