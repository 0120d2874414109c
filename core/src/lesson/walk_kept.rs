//! Why a neutral range keeps elements applied: those of the ranges beside it are applied already.

use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::settle::Duty;

/// Elements that are applied here and in a range that drives beside this one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// Which.
    pub elements: ElementSet,
    /// The other range.
    pub range: usize,
    /// What is left to apply for it.
    pub rest: ElementSet,
}

impl Kept {
    /// Of the nearest range that drives before a neutral one, and the nearest after it, going round. What is no range
    /// is seen beside the first that keeps all of it and takes the fewest more.
    pub(super) fn all(combination: &Combination<'_>) -> Vec<Self> {
        let train = combination.train();
        let applied = combination.applied().minus(train.one_ways());
        let count = train.scenario().ranges.len();
        let drives = |&range: &usize| {
            let settled = train.settle(train.range(range), Duty::Drive);
            settled.combination.state().ratio().is_some()
        };
        let kept = |range: usize| Self {
            elements: applied.minus(applied.minus(train.range(range))),
            range,
            rest: train.range(range).minus(applied),
        };
        let Some(own) = (0..count).find(|&range| train.range(range) == applied) else {
            let driving = (0..count).filter(drives).map(kept);
            let all = driving.filter(|kept| !applied.is_empty() && kept.elements == applied);
            return all.min_by_key(|kept| kept.rest.len()).into_iter().collect();
        };
        let before = (0..own).rev().find(drives);
        let after = (own + 1..count).find(drives);
        // A list goes round: neutral stands between reverse and first, wherever a file has it.
        let before = before.or_else(|| (own..count).rev().find(drives));
        let after = after.or_else(|| (0..own).find(drives));
        let after = after.filter(|_| after != before);
        let beside = before.into_iter().chain(after).map(kept);
        beside.filter(|kept| !kept.elements.is_empty()).collect()
    }
}
