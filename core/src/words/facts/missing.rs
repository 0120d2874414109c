//! What a neutral train lacks: the fewest clutches and brakes that would make it drive.

use crate::base::element_set::ElementSet;
use crate::solve::settle::Duty;
use crate::solve::{Combination, State};
use crate::train::Train;

/// Most combinations that are tried; beyond, nothing is said. Few trains have so many that are
/// neutral, and a sentence may not keep the page waiting.
const MOST_TRIED: usize = 3000;

/// What more must be applied so that a neutral train drives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// Any one of these.
    OneOf(ElementSet),
    /// So many, rightly chosen; fewer do not.
    Several(usize),
    /// Nothing that could be applied besides makes it drive.
    Nothing,
    /// Too many combinations to try them all.
    Unknown,
}

impl Missing {
    /// Searches for the fewest, trying one more, then two, and so on.
    pub fn of(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let applied = combination.applied().minus(train.one_ways());
        let open = (0..train.scenario().elements.len())
            .filter(|&element| !applied.contains(element) && !train.one_ways().contains(element));
        let mut search = Search {
            train,
            open: open.collect(),
            tried: 0,
            found: ElementSet::NONE,
        };
        for count in 1..=search.open.len() {
            let drives = search.drives(applied, 0, count);
            if search.tried > MOST_TRIED {
                return Self::Unknown;
            }
            match (drives, count) {
                (false, _) => {}
                (true, 1) => return Self::OneOf(search.found),
                (true, _) => return Self::Several(count),
            }
        }
        Self::Nothing
    }
}

struct Search<'a> {
    train: &'a Train,
    open: Vec<usize>,
    tried: usize,
    /// The last ones that, added to all others, made it drive.
    found: ElementSet,
}

impl Search<'_> {
    /// Whether `count` of the open elements from the `first` on make it drive beside `applied`;
    /// all single ones that do are collected.
    fn drives(&mut self, applied: ElementSet, first: usize, count: usize) -> bool {
        for place in first..self.open.len() {
            self.tried += 1;
            if self.tried > MOST_TRIED {
                return false;
            }
            let element = self.open[place];
            let more = applied.with(element);
            if count > 1 {
                // What is tied up, or holds the output, does so with more applied as well.
                let state = self.train.solve(more);
                let hopeless = matches!(state.state(), State::TiedUp | State::OutputHeld);
                if !hopeless && self.drives(more, place + 1, count - 1) {
                    return true;
                }
            } else {
                let settled = self.train.settle(more, Duty::Drive).combination;
                if settled.state().ratio().is_some() {
                    self.found = self.found.with(element);
                }
            }
        }
        !self.found.is_empty()
    }
}
