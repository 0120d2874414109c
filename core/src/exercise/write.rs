//! A task as a file has it.

use serde::Serialize;

use super::task::Task;
use crate::train::Train;

/// What a file has of a task: its kind and what that needs.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TaskText", optional_fields))]
pub struct TaskReport {
    /// The name of its kind.
    #[cfg_attr(feature = "types", ts(type = "TaskKind"))]
    pub task: &'static str,
    /// Id of a range.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<String>,
    /// Id of a set.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<String>,
    /// Id of a shaft.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shaft: Option<String>,
    /// What is asked for of members.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<&'static str>,
    /// A ratio, exactly.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ratio: Option<String>,
    /// How many are applied.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub applied: Option<usize>,
    /// Combinations to choose from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub among: Option<Vec<Vec<String>>>,
    /// What a fault is drawn from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seed: Option<u32>,
    /// Ids of ranges.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ranges: Option<Vec<String>>,
}

impl TaskReport {
    pub(super) fn of(train: &Train, task: &Task) -> Self {
        let scenario = train.scenario();
        let range_id = |range: usize| scenario.ranges[range].id.clone();
        let set_id = |set: usize| scenario.couplings[set].facts().id().to_owned();
        let mut report = Self {
            task: task.kind().name(),
            ..Self::default()
        };
        match task {
            Task::Reach { ratio } => report.ratio = Some(ratio.to_string()),
            Task::Members { range, set, part } => {
                report.range = Some(range_id(*range));
                report.set = Some(set_id(*set));
                report.part = Some(part.id());
            }
            Task::Direction { range, shaft } | Task::Speed { range, shaft } => {
                report.range = Some(range_id(*range));
                report.shaft = Some(scenario.shafts[*shaft].id.clone());
            }
            Task::Failed { seed } => report.seed = Some(*seed),
            Task::Neutral { applied } => report.applied = Some(*applied),
            Task::TieUp { among } => {
                let sets = among.iter().map(|set| {
                    let elements = set.iter().map(|element| &scenario.elements[element]);
                    elements.map(|element| element.id().to_owned()).collect()
                });
                report.among = Some(sets.collect());
            }
            Task::Order { ranges } => {
                report.ranges = Some(ranges.iter().map(|&range| range_id(range)).collect());
            }
            Task::Teeth { range, set, ratio } => {
                report.range = Some(range_id(*range));
                report.set = Some(set_id(*set));
                report.ratio = Some(ratio.to_string());
            }
        }
        report
    }
}
