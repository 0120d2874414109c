//! Edits of ranges.

use super::fresh;
use crate::base::said::said;
use crate::model::scenario::{Range, Scenario};

/// Makes a range of these applied elements; where it has no label, it gets one.
pub(super) fn add(scenario: &mut Scenario, label: &str, applied: &[String]) {
    let label = match label {
        "" => {
            // Counted on where others were called something else.
            let before = scenario.ranges.len();
            let text = |n: usize| said("edit-range", &[("number", &(before + n).to_string())]);
            let taken = |text: &str| scenario.ranges.iter().any(|range| range.label == text);
            text(fresh::number(text, taken))
        }
        label => label.to_owned(),
    };
    let id = fresh::range(scenario);
    scenario.ranges.push(Range {
        id,
        label,
        applied: applied.to_vec(),
    });
}
