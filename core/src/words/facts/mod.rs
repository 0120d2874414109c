//! What there is to say of a combination, as typed facts: each is computed from the exact solution,
//! and none knows a language.

mod as_one;
pub(crate) mod joins;
mod missing;
mod neutral;
mod set_work;
mod spare;
mod tie_up;
mod why;

use std::cmp::Ordering;

use levertrain_exact::Fraction;

pub use as_one::{Alike, AsOne, MemberAt};
pub use missing::Missing;
pub use neutral::{Neutral, Unconnected};
pub use set_work::{Hold, Motion, Place, Reaction, SetWork};
pub use spare::{OnlyFor, Spare};
pub use tie_up::{TieUp, Would};

use crate::base::element_set::ElementSet;
use crate::model::scenario::Element;
use crate::solve::fight::Fight;
use crate::solve::{Combination, State};
use crate::train::{Body, Train};

/// How fast something turns beside something else, whichever way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// Slower.
    Slower,
    /// As fast.
    Alike,
    /// Faster.
    Faster,
}

impl Pace {
    /// The pace of what turns at `speed` beside what turns at `other`.
    pub(super) fn of(speed: &Fraction, other: &Fraction) -> Self {
        match speed.abs().cmp(&other.abs()) {
            Ordering::Less => Self::Slower,
            Ordering::Equal => Self::Alike,
            Ordering::Greater => Self::Faster,
        }
    }
}

/// What an applied element does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Does {
    /// A brake holds a body.
    Holds(Body),
    /// A one-way clutch locks one body to another.
    Locks(Body, Body),
    /// A clutch lets the input drive a body.
    Drives(Body),
    /// A clutch joins two bodies.
    Joins(Body, Body),
}

/// One thing to say.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact {
    /// What each applied element does; empty where none is applied.
    Applied(Vec<(usize, Does)>),
    /// Applied elements join the input to the output itself.
    Joined,
    /// Some sets turn as one piece.
    AsOne(AsOne),
    /// What a set does with the torque that goes through it.
    Works(SetWork),
    /// A set carries torque and no power: the members that do stand still.
    Strut(usize),
    /// How the output turns beside the input, and whether the same way.
    Delivers(Pace, bool),
    /// What could be released.
    Spare(Spare),
    /// Why the output is free.
    Neutral(Neutral),
    /// What holds the output.
    OutputHeld(Fight),
    /// What fights.
    TiedUp(TieUp),
    /// These shafts, other than the output, have speeds that nothing decides.
    Free(Vec<usize>),
}

impl Fact {
    /// All there is to say of a combination, in order.
    pub fn all(combination: &Combination<'_>) -> Vec<Self> {
        let mut facts = vec![applied(combination)];
        match combination.state() {
            State::Driving(ratio) | State::OverApplied(ratio) => {
                facts.extend(why::facts(combination));
                facts.push(Self::Delivers(
                    Pace::of(&Fraction::ONE, ratio),
                    ratio.signum() > 0,
                ));
                facts.push(Self::Spare(Spare::of(combination)));
            }
            State::Neutral => facts.push(Self::Neutral(Neutral::of(combination))),
            State::OutputHeld => facts.extend(combination.hold().map(Self::OutputHeld)),
            State::TiedUp => facts.extend(TieUp::of(combination).map(Self::TiedUp)),
        }
        let free = free(combination);
        if *combination.state() != State::TiedUp && !free.is_empty() {
            facts.push(Self::Free(free));
        }
        facts
    }
}

fn applied(combination: &Combination<'_>) -> Fact {
    let train = combination.train();
    let applied = combination.applied().iter();
    Fact::Applied(
        applied
            .map(|element| (element, does(train, element)))
            .collect(),
    )
}

/// What an element does where it is applied.
pub(crate) fn does(train: &Train, element: usize) -> Does {
    let [from, to] = train.ends(element);
    let input = Body::Shaft(train.input());
    match &train.scenario().elements[element] {
        Element::Brake(_) => Does::Holds(from),
        Element::OneWay(_) => Does::Locks(from, to),
        Element::Clutch(_) if from == input => Does::Drives(to),
        Element::Clutch(_) if to == input => Does::Drives(from),
        Element::Clutch(_) => Does::Joins(from, to),
    }
}

fn free(combination: &Combination<'_>) -> Vec<usize> {
    let train = combination.train();
    (0..train.scenario().shafts.len())
        .filter(|&shaft| shaft != train.output() && combination.shaft_speed(shaft).is_none())
        .collect()
}

/// The set with this one element.
fn only(element: usize) -> ElementSet {
    ElementSet::NONE.with(element)
}
