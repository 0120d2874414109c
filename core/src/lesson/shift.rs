//! A shift: what goes and what comes between two combinations, how speeds change, and what lies in between
//! where one of them, or all, are late.

use levertrain_exact::Fraction;

use crate::base::element_set::ElementSet;
use crate::solve::State;
use crate::solve::settle::{Duty, Settled, Verdict};
use crate::train::Train;

/// The shift from one combination to another.
#[derive(Debug, Clone)]
pub struct Shift<'a> {
    /// What drives before.
    pub before: Settled<'a>,
    /// What drives after.
    pub after: Settled<'a>,
    /// What is released.
    pub released: ElementSet,
    /// What is applied.
    pub applied: ElementSet,
    /// What stays applied.
    pub kept: ElementSet,
    /// One-way clutches that let go by themselves.
    pub lets_go: ElementSet,
    /// One-way clutches that lock by themselves.
    pub locks: ElementSet,
    /// What there is where something is late: all that comes, then all that goes. Of several each alone
    /// follows, where that makes a difference.
    pub lates: Vec<Late<'a>>,
    /// Whether the load, when it drives, turns the input at the same ratio: before, and after.
    pub brakes: [bool; 2],
    /// What becomes of every shaft.
    pub shafts: Vec<Shaft>,
}

/// What there is while something is late and all else is on time.
#[derive(Debug, Clone)]
pub struct Late<'a> {
    /// Whether it is late to release, and not to apply.
    pub to_go: bool,
    /// What is late.
    pub elements: ElementSet,
    /// What is applied until it has come or gone.
    pub holds: ElementSet,
    /// What that makes of the train.
    pub between: Settled<'a>,
}

/// How many elements change hands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Swap {
    /// None.
    Nothing,
    /// Elements are only released.
    Releases,
    /// Elements are only applied.
    Applies,
    /// One goes and one comes.
    Single,
    /// More than that.
    Several,
}

/// The speed of a shaft before and after, per input turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaft {
    /// Before.
    pub before: Option<Fraction>,
    /// After.
    pub after: Option<Fraction>,
    /// What that is.
    pub change: Change,
}

/// What becomes of a speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// It stays.
    Same,
    /// It grows, the same way.
    Faster,
    /// It falls, the same way.
    Slower,
    /// It comes to the other way.
    TurnsRound,
    /// What turned rests.
    Stops,
    /// What rested turns.
    Starts,
    /// What was decided is so no more.
    BecomesFree,
    /// What was free is decided.
    BecomesDecided,
    /// It is decided neither before nor after.
    Free,
}

impl Change {
    fn of(before: Option<&Fraction>, after: Option<&Fraction>) -> Self {
        let (before, after) = match (before, after) {
            (Some(before), Some(after)) => (before, after),
            (Some(_), None) => return Self::BecomesFree,
            (None, Some(_)) => return Self::BecomesDecided,
            (None, None) => return Self::Free,
        };
        match (before.signum(), after.signum()) {
            _ if before == after => Self::Same,
            (0, _) => Self::Starts,
            (_, 0) => Self::Stops,
            (one, other) if one != other => Self::TurnsRound,
            _ if before.abs() < after.abs() => Self::Faster,
            _ => Self::Slower,
        }
    }
}

impl<'a> Shift<'a> {
    /// The shift between two sets of applied elements, one-way clutches left to themselves.
    pub fn of(train: &'a Train, from: ElementSet, to: ElementSet) -> Self {
        let [before, after] = [from, to].map(|applied| train.settle(applied, Duty::Drive));
        let locked = |settled: &Settled<'_>| {
            let applied = settled.combination.applied();
            applied.minus(applied.minus(train.one_ways()))
        };
        let shafts = 0..train.scenario().shafts.len();
        let shaft = |shaft: usize| {
            let [before, after] =
                [&before, &after].map(|settled| settled.combination.shaft_speed(shaft));
            Shaft {
                change: Change::of(before.as_ref(), after.as_ref()),
                before,
                after,
            }
        };
        let (released, applied) = (from.minus(to), to.minus(from));
        let mut lates = Vec::new();
        for (elements, to_go) in [(applied, false), (released, true)] {
            late(&mut lates, &after, to, elements, to_go);
        }
        let brakes = [(&before, from), (&after, to)]
            .map(|(own, applied)| train.coasts_alike(applied, own.combination.state().ratio()));
        Self {
            released,
            applied,
            kept: from.minus(released),
            lets_go: locked(&before).minus(locked(&after)),
            locks: locked(&after).minus(locked(&before)),
            lates,
            brakes,
            shafts: shafts.map(shaft).collect(),
            before,
            after,
        }
    }

    /// How many elements change hands.
    pub fn swap(&self) -> Swap {
        match (self.released.len(), self.applied.len()) {
            (0, 0) => Swap::Nothing,
            (_, 0) => Swap::Releases,
            (0, _) => Swap::Applies,
            (1, 1) => Swap::Single,
            _ => Swap::Several,
        }
    }

    /// How many times as fast the input turns after as before, at the same output speed.
    pub fn input_factor(&self) -> Option<Fraction> {
        let [before, after] =
            [&self.before, &self.after].map(|settled| settled.combination.state().ratio());
        after?.over(before?)
    }
}

/// Adds what there is while all of `elements` are late, and each alone where that is something else. That the
/// train is neutral where it is to become so is nothing to tell of one alone.
fn late<'a>(
    lates: &mut Vec<Late<'a>>,
    after: &Settled<'a>,
    to: ElementSet,
    elements: ElementSet,
    to_go: bool,
) {
    let train = after.combination.train();
    let first = lates.len();
    // None is the whole of them.
    for one in std::iter::once(None).chain(elements.iter().map(Some)) {
        let late = one.map_or(elements, |one| ElementSet::NONE.with(one));
        let holds = if to_go {
            to.union(late)
        } else {
            to.minus(late)
        };
        let between = train.settle(holds, Duty::Drive);
        let state = between.combination.state();
        let told = lates.get(first).is_some_and(|all| {
            alike(&all.between, &between) || *state == State::Neutral && alike(after, &between)
        });
        if !late.is_empty() && !told {
            lates.push(Late {
                to_go,
                elements: late,
                holds,
                between,
            });
        }
    }
}

fn alike(one: &Settled<'_>, other: &Settled<'_>) -> bool {
    let settled = |own: &Settled<'_>| matches!(own.verdict, Verdict::Settled);
    settled(one) == settled(other) && one.combination.state() == other.combination.state()
}
