//! A layout that was found.

use super::frame::{Pair, Pairs};
use crate::model::scenario::Scenario;
use crate::search::Find;
use crate::solve::torque::Torques;
use crate::train::Train;

/// A layout that gives what is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutFound {
    /// It, with its best teeth.
    pub scenario: Scenario,
    /// Its ratios, and how good they are.
    pub find: Find,
    /// Whether all teeth were tried.
    pub ended: bool,
    /// Whether it is decided that its shafts nest.
    pub nests: bool,
    /// It as the text of a scenario file.
    pub text: String,
    /// Which it is: its row of bodies and where its elements sit.
    pub(super) key: Key,
    /// What is applied in each range.
    pub(super) ranges: Vec<Pairs>,
}

/// The row of bodies of a frame, and pairs of bodies.
pub(super) type Key = (Vec<u8>, Vec<Pair>);

impl LayoutFound {
    /// How many shift elements it has.
    pub fn elements(&self) -> usize {
        self.key.1.len()
    }

    /// The one first whose ratios are off least, of those the one with the fewest elements, then in the order of their texts.
    pub(super) fn order(&self, other: &Self) -> std::cmp::Ordering {
        let error = |of: &Self| of.find.measures.error;
        error(self)
            .total_cmp(&error(other))
            .then_with(|| self.elements().cmp(&other.elements()))
            .then_with(|| self.text.cmp(&other.text))
    }
}

/// Whether an element carries no torque in any range.
pub(super) fn has_idle(scenario: &Scenario) -> bool {
    let Ok(train) = Train::new(scenario.clone()) else {
        return true;
    };
    let mut works = vec![false; scenario.elements.len()];
    for range in 0..scenario.ranges.len() {
        let combination = train.solve(train.range(range));
        let Some(torques) = Torques::of(&combination) else {
            continue;
        };
        for element in combination.applied().iter() {
            works[element] |= torques
                .element(element)
                .is_none_or(|torque| torque.signum() != 0);
        }
    }
    works.contains(&false)
}
