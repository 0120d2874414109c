//! The pieces of work that are timed.

use std::hint::black_box;

use levertrain_core::lesson::WalkReport;
use levertrain_core::{Combination, Duty, ElementSet, LossModel, PowerFlow, Torques, Train};

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

/// As [`walk`], with every torque and power of what drives.
pub fn efforts(train: &Train) {
    train.for_each_combination(|combination| {
        read(combination);
        let torques = Torques::of(combination);
        black_box(torques.map(|torques| PowerFlow::of(combination, &torques)));
    });
}

/// The same answers as [`efforts`] from the floating-point baseline.
pub fn dense_efforts(train: &Train, dense: &Dense) {
    for applied in all(train) {
        let speeds = dense.solve(applied);
        black_box(dense.effort(applied, &speeds));
    }
}

/// Speeds and efficiency of every named range, by the walk that shares work, with every torque and
/// what is lost in every mesh.
pub fn loss_chart(train: &Train) {
    train.for_each_with_losses(
        ranges(train),
        &LossModel::default(),
        |combination, lossy| {
            read(combination);
            black_box(lossy);
        },
    );
}

/// Speeds and efficiencies as those of [`loss_chart`], from the floating-point baseline.
pub fn dense_loss_chart(train: &Train, dense: &Dense) {
    let mesh = LossModel::default().mesh_efficiency;
    for applied in ranges(train) {
        let speeds = dense.solve(applied);
        black_box(dense.efficiency(applied, &speeds, mesh));
    }
}

/// The walkthrough of every named range, with its sentences.
pub fn walkthroughs(train: &Train) {
    for applied in ranges(train) {
        let combination = train.settle(applied, Duty::Drive).combination;
        black_box(WalkReport::of(&combination));
    }
}

fn ranges(train: &Train) -> impl Iterator<Item = ElementSet> {
    (0..train.scenario().ranges.len()).map(|range| train.range(range))
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
