//! What a combination does, as far as it is noticed from outside.

use levertrain_exact::Fraction;

use crate::base::element_set::ElementSet;
use crate::solve::State;
use crate::solve::settle::{Duty, Verdict};
use crate::train::Train;

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
    /// The input cannot turn.
    TiedUp,
    /// Its one-way clutches do not settle in one way only.
    Undecided,
}

impl Answer {
    /// What a combination of a train does, its one-way clutches settled.
    pub fn of(train: &Train, applied: ElementSet) -> Self {
        let settled = train.settle(applied, Duty::Drive);
        let state = settled.combination.state();
        if settled.verdict != Verdict::Settled {
            return Self {
                does: Does::Undecided,
                brakes: false,
            };
        }
        // Without one-way clutches driving and coasting are one.
        let brakes = state.ratio().is_some()
            && (train.one_ways().is_empty() || train.coasts_alike(applied, state.ratio()));
        let does = match state {
            State::Driving(ratio) | State::OverApplied(ratio) => Does::Drives(ratio.clone()),
            State::Neutral => Does::Neutral,
            State::OutputHeld => Does::OutputHeld,
            State::TiedUp => Does::TiedUp,
        };
        Self { does, brakes }
    }
}
