//! Laws that every gear train obeys, on trains drawn at random.
//!
//! The trains are [sketches](levertrain_tests::sketch), and what must hold in them is derived
//! [from the sketch](levertrain_tests::laws), not from the core. The cases are the same in every
//! run; `PROPTEST_RNG_SEED` and `PROPTEST_CASES` ask for others.

mod chart;
mod coverage;
mod facts;
mod fight;
mod lever;
mod mesh_orders;
mod numbers;
mod settle;
mod shift;
mod solution;
mod surroundings;
mod symmetry;
mod walk;
mod walk_cases;
mod words;
