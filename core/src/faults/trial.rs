//! What is tried of a train: its named ranges, and one in which nothing is applied.

use super::{Answer, Does};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// A range that is tried, and what it does while nothing is broken.
#[derive(Debug, Clone)]
pub struct Trial {
    /// Its index among the named ranges; none for all clutches and brakes released.
    pub range: Option<usize>,
    /// What it applies.
    pub applied: ElementSet,
    /// What it does.
    pub healthy: Answer,
}

impl Trial {
    /// The named ranges in their order. Where none of them is a neutral, all released comes last.
    pub fn all(train: &Train) -> Vec<Self> {
        let trial = |range: Option<usize>, applied| Self {
            range,
            applied,
            healthy: Answer::of(train, applied),
        };
        let ranges = 0..train.scenario().ranges.len();
        let mut trials: Vec<Self> = ranges
            .map(|range| trial(Some(range), train.range(range)))
            .collect();
        let rests = |trial: &Self| trial.applied.is_empty() || trial.healthy.does == Does::Neutral;
        if !trials.iter().any(rests) {
            trials.push(trial(None, ElementSet::NONE));
        }
        trials
    }
}
