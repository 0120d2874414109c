//! What a combination does, as far as it is noticed from outside.

use levertrain_exact::Fraction;

use crate::base::element_set::ElementSet;
use crate::model::scenario::{Element, OneWay, Way};
use crate::solve::settle::{Duty, Verdict};
use crate::solve::{Combination, State};
use crate::train::Train;

/// Most one-way clutches with a slip of their own that are tried in all ways.
const MOST_IDLE: usize = 4;

/// What a combination does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// What becomes of the output.
    pub does: Does,
    /// Whether it drives, and the load drives the input as well.
    pub brakes: bool,
}

/// What becomes of the output.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Does {
    /// It turns, at this ratio.
    Drives(Fraction),
    /// The input does not decide its speed.
    Neutral,
    /// It stands still, and the input turns.
    OutputHeld,
    /// The input cannot turn, or only the way that nobody drives it.
    TiedUp,
    /// Its one-way clutches do not settle in one way only.
    Undecided,
}

impl Answer {
    /// What a combination of a train does, its one-way clutches settled.
    pub fn of(train: &Train, applied: ElementSet) -> Self {
        let settled = train.settle(applied, Duty::Drive);
        let does = match (&settled.verdict, settled.combination.state()) {
            (Verdict::Ambiguous(_), _) => Does::Undecided,
            (Verdict::Settled, State::Driving(ratio) | State::OverApplied(ratio)) => {
                Does::Drives(ratio.clone())
            }
            (Verdict::Contradictory, state) => match (lets_turn(train, applied), state.ratio()) {
                (Some(true), Some(ratio)) => Does::Drives(ratio.clone()),
                (Some(false), _) => Does::TiedUp,
                _ => Does::Undecided,
            },
            (Verdict::Settled, State::Neutral) => Does::Neutral,
            (Verdict::Settled, State::OutputHeld) => Does::OutputHeld,
            (Verdict::Settled, State::TiedUp) => Does::TiedUp,
        };
        // Without one-way clutches driving and coasting are one.
        let brakes = match &does {
            Does::Drives(ratio) => {
                train.one_ways().is_empty() || train.coasts_alike(applied, Some(ratio))
            }
            _ => false,
        };
        Self { does, brakes }
    }
}

/// Whether the input can turn forwards with no one-way clutch slipping the way it locks; nothing where that
/// is too much to try.
///
/// Where no set of locked ones agrees and the output is decided all the same, those that could lock carry no
/// torque, so that it makes no difference which of them do. There may be a shaft that nothing decides and that can
/// turn as they let it, or none. Slips that are all zero or positive lie in a region without a straight line
/// in it, which has a corner, at which as many of them are zero as decides all the others. So it is
/// enough to try corners.
fn lets_turn(train: &Train, applied: ElementSet) -> Option<bool> {
    let combination = train.solve(applied);
    if *combination.state() == State::TiedUp {
        return Some(false);
    }
    let mut undecided = ElementSet::NONE;
    for element in train.one_ways().iter() {
        match free_slip_sign(&combination, element) {
            Some(..0) => return Some(false),
            Some(_) => {}
            None => undecided = undecided.with(element),
        }
    }
    if undecided.is_empty() {
        return Some(true);
    }
    if undecided.len() > MOST_IDLE {
        return None;
    }
    let mut corners = undecided.iter();
    Some(corners.any(|element| lets_turn(train, applied.with(element)) == Some(true)))
}

/// The sign of a one-way clutch's slip, positive the way that it lets happen.
fn free_slip_sign(combination: &Combination<'_>, element: usize) -> Option<i32> {
    let slip = combination.slip(element)?.signum();
    let turned = matches!(
        combination.train().scenario().elements[element],
        Element::OneWay(OneWay {
            locks: Way::Forward,
            ..
        })
    );
    Some(if turned { -slip } else { slip })
}
