//! The kinds of tasks.

use crate::base::dice::Dice;
use levertrain_exact::Fraction;

use super::answer::Marked;

use super::{direction, failed, members, neutral, order, reach, speed, teeth, tie_up};
use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::settle::Duty;
use crate::train::Train;

/// Most one-way clutches of a train that questions are asked about. With more, one range can take milliseconds to
/// settle, and a sheet asks for a thousand.
pub const MOST_ONE_WAYS: usize = 8;

/// What is asked for of the members of a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Those that stand still and carry torque.
    Held,
    /// Those that drive: power goes into the set through them.
    Driving,
    /// Those that deliver: power goes out of the set through them.
    Driven,
}

/// One question about a train. Ranges, sets, shafts and elements are told by their indices in its scenario.
#[derive(Debug, Clone, PartialEq)]
pub enum Task {
    /// Apply clutches and brakes so that the ratio is this.
    Reach {
        /// Input speed over output speed.
        ratio: Fraction,
    },
    /// Name the members of a set that do something in a range.
    Members {
        /// Which range.
        range: usize,
        /// Which set.
        set: usize,
        /// What they do.
        part: Part,
    },
    /// Say which way a shaft turns in a range.
    Direction {
        /// Which range.
        range: usize,
        /// Which shaft.
        shaft: usize,
    },
    /// Say how fast a shaft turns in a range, per turn of the input.
    Speed {
        /// Which range.
        range: usize,
        /// Which shaft.
        shaft: usize,
    },
    /// Find all neutral combinations with so many elements applied.
    Neutral {
        /// How many are applied.
        applied: usize,
    },
    /// Say which of these combinations tie up.
    TieUp {
        /// Those to choose from.
        among: Vec<ElementSet>,
    },
    /// Put ranges in order, the largest ratio first.
    Order {
        /// As they are offered.
        ranges: Vec<usize>,
    },
    /// Choose teeth for the gears of a set so that a range has this ratio and no tooth rule is broken.
    Teeth {
        /// Which range.
        range: usize,
        /// Which set.
        set: usize,
        /// Input speed over output speed.
        ratio: Fraction,
    },
    /// Name the element that failed, by what the ranges have become.
    Failed {
        /// What the fault is drawn from.
        seed: u32,
    },
}

/// The kinds of tasks, in the order in which they are offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Kind {
    Reach,
    Members,
    Direction,
    Speed,
    Neutral,
    TieUp,
    Order,
    Teeth,
    Failed,
}

impl Kind {
    /// All of them, each with its name in a file.
    pub const ALL: &[(&'static str, Self)] = &[
        ("reach", Self::Reach),
        ("members", Self::Members),
        ("direction", Self::Direction),
        ("speed", Self::Speed),
        ("neutral", Self::Neutral),
        ("tie-up", Self::TieUp),
        ("order", Self::Order),
        ("teeth", Self::Teeth),
        ("failed", Self::Failed),
    ];

    /// Those that a train offers.
    pub fn offered(train: &Train) -> Vec<Self> {
        let all = Self::ALL.iter().map(|(_, kind)| *kind);
        all.filter(|&kind| Task::ask(train, kind, 0).is_some())
            .collect()
    }

    /// Its name in a file.
    pub fn name(self) -> &'static str {
        let own = Self::ALL.iter().find(|(_, kind)| *kind == self);
        own.map_or("", |(name, _)| name)
    }
}

impl Task {
    /// A task of a kind about this train, by a seed; `None` where the train offers none.
    pub fn ask(train: &Train, kind: Kind, seed: u64) -> Option<Self> {
        if train.one_ways().len() > MOST_ONE_WAYS {
            return None;
        }
        let mut dice = Dice::new(seed);
        match kind {
            Kind::Reach => reach::ask(train, &mut dice),
            Kind::Members => members::ask(train, &mut dice),
            Kind::Direction => direction::ask(train, &mut dice),
            Kind::Speed => speed::ask(train, &mut dice),
            Kind::Neutral => neutral::ask(train, &mut dice),
            Kind::TieUp => tie_up::ask(train, &mut dice),
            Kind::Order => order::ask(train, &mut dice),
            Kind::Teeth => teeth::ask(train, &mut dice),
            Kind::Failed => failed::ask(train, &mut dice),
        }
    }

    /// Its kind.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Reach { .. } => Kind::Reach,
            Self::Members { .. } => Kind::Members,
            Self::Direction { .. } => Kind::Direction,
            Self::Speed { .. } => Kind::Speed,
            Self::Neutral { .. } => Kind::Neutral,
            Self::TieUp { .. } => Kind::TieUp,
            Self::Order { .. } => Kind::Order,
            Self::Teeth { .. } => Kind::Teeth,
            Self::Failed { .. } => Kind::Failed,
        }
    }

    /// A right answer; `None` where there is none, as the ratio that is asked for may not be had.
    pub fn solve(&self, train: &Train) -> Option<Vec<String>> {
        match self {
            Self::Reach { ratio } => reach::solve(train, ratio),
            Self::Members { range, set, part } => members::solve(train, *range, *set, *part),
            Self::Direction { range, shaft } => direction::solve(train, *range, *shaft),
            Self::Speed { range, shaft } => speed::solve(train, *range, *shaft),
            Self::Neutral { applied } => neutral::solve(train, *applied),
            Self::TieUp { among } => tie_up::solve(train, among),
            Self::Order { ranges } => order::solve(train, ranges),
            Self::Teeth { range, set, ratio } => teeth::solve(train, *range, *set, ratio),
            Self::Failed { seed } => failed::solve(train, *seed),
        }
    }

    /// Marks an answer: the ids of what was picked, in order where that counts, or what was written.
    /// What is none of the choices counts as picked wrongly.
    pub fn mark(&self, train: &Train, answer: &[String]) -> Marked {
        match self {
            Self::Reach { ratio } => reach::mark(train, ratio, answer),
            Self::Members { range, set, part } => members::mark(train, *range, *set, *part, answer),
            Self::Direction { range, shaft } => direction::mark(train, *range, *shaft, answer),
            Self::Speed { range, shaft } => speed::mark(train, *range, *shaft, answer),
            Self::Neutral { applied } => neutral::mark(train, *applied, answer),
            Self::TieUp { among } => tie_up::mark(train, among, answer),
            Self::Order { ranges } => order::mark(train, ranges, answer),
            Self::Teeth { range, set, ratio } => teeth::mark(train, *range, *set, ratio, answer),
            Self::Failed { seed } => failed::mark(train, *seed, answer),
        }
    }

    /// The range that is asked about, where it is one.
    pub fn range(&self) -> Option<usize> {
        match self {
            Self::Members { range, .. }
            | Self::Direction { range, .. }
            | Self::Speed { range, .. } => Some(*range),
            _ => None,
        }
    }
}

/// A range as it drives.
pub(super) fn in_range(train: &Train, range: usize) -> Combination<'_> {
    train.settle(train.range(range), Duty::Drive).combination
}

/// What anybody can apply: one-way clutches lock by themselves.
pub(super) fn choosable(train: &Train) -> ElementSet {
    let all: ElementSet = (0..train.scenario().elements.len()).collect();
    all.minus(train.one_ways())
}

/// The sets of so many elements that anybody can apply, in order; `None` where they are more than `most`.
pub(super) fn sets_of(train: &Train, applied: usize, most: usize) -> Option<Vec<ElementSet>> {
    let mut sets = vec![ElementSet::NONE];
    for element in choosable(train).iter() {
        let with: Vec<_> = sets
            .iter()
            .filter(|set| set.len() < applied)
            .map(|set| set.with(element))
            .collect();
        sets.extend(with);
    }
    sets.retain(|set| set.len() == applied);
    sets.sort_unstable();
    (sets.len() <= most).then_some(sets)
}

/// The ids of a set of elements, as one choice of several: `H+J`, or `-` for none.
pub(super) fn name_of(train: &Train, set: ElementSet) -> String {
    if set.is_empty() {
        return "-".to_owned();
    }
    let ids = set
        .iter()
        .map(|element| train.scenario().elements[element].id());
    ids.collect::<Vec<_>>().join("+")
}
