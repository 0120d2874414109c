//! What every other room may use and that knows no gear: sets of elements, the catalogue of a
//! language and what is said from it, problems, numbers in words.

pub(crate) mod catalogue;
pub(crate) mod characters;
pub(crate) mod dice;
pub(crate) mod element_set;
pub(crate) mod number;
pub(crate) mod problem;
pub(crate) mod said;
pub mod short_sort;
pub(crate) mod sine;
