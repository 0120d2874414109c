//! Whatever is read from outside: nothing makes the reader panic, and what it refuses it refuses
//! with a few short problems that say where, what, and the fix.
//!
//! The inputs are the same in every run; `PROPTEST_RNG_SEED` and `PROPTEST_CASES` ask for others.

mod arbitrary;
mod catalogues;
mod json;
mod messages;
mod mutated;
mod named;
mod rearranged;
mod sample;
mod spots;
mod verdict;
