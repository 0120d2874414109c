//! The pieces of work that are timed.

use std::hint::black_box;

use levertrain_core::{Combination, ElementSet, Train};

use crate::dense::Dense;

/// Classifies every combination and reads every shaft's speed, by the walk that shares work.
pub fn walk(train: &Train) {
    train.for_each_combination(read);
}

/// The same answers as [`walk`], each combination solved by itself.
pub fn one_by_one(train: &Train) {
    for applied in all(train) {
        read(&train.solve(applied));
    }
}

/// The same answers as [`walk`] from the floating-point baseline.
pub fn dense(train: &Train, dense: &Dense) {
    for applied in all(train) {
        black_box(dense.solve(applied));
    }
}

fn all(train: &Train) -> impl Iterator<Item = ElementSet> {
    (0..1_u32 << train.scenario().elements.len()).map(ElementSet::from_bits)
}

fn read(combination: &Combination<'_>) {
    black_box(combination.state());
    for shaft in 0..combination.train().scenario().shafts.len() {
        black_box(combination.shaft_speed(shaft));
    }
}
