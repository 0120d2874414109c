//! What a range becomes.

use levertrain_exact::Fraction;

use super::{Answer, Does};

/// What a range becomes, beside what it does while nothing is broken.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// As it should be.
    Right,
    /// It drives as it should, but no longer brakes the engine.
    NoEngineBraking,
    /// It drives as it should, and brakes the engine as it should not.
    EngineBraking,
    /// The output is free, and should not be.
    Lost,
    /// Something slips: the input runs up, and its ratio to the output is not fixed.
    Slips,
    /// It drives at this ratio, and should at another or not at all.
    Drives(Fraction),
    /// The output is held, and should not be.
    OutputHeld,
    /// The input cannot turn, and should.
    TiedUp,
    /// One-way clutches do not settle in one way only, so that nothing is known.
    Undecided,
}

impl Outcome {
    /// What becomes of a range that is `healthy` while nothing is broken: with what slips held together,
    /// and with it open.
    pub(super) fn of(healthy: &Answer, held: &Answer, open: &Answer) -> Self {
        if [healthy, held, open]
            .map(|answer| &answer.does)
            .contains(&&Does::Undecided)
        {
            return Self::Undecided;
        }
        if held.does != open.does {
            return Self::Slips;
        }
        if held.does == healthy.does {
            return match (healthy.brakes, held.brakes && open.brakes) {
                (true, false) => Self::NoEngineBraking,
                (false, true) => Self::EngineBraking,
                _ => Self::Right,
            };
        }
        match &held.does {
            Does::Drives(ratio) => Self::Drives(ratio.clone()),
            Does::Neutral => Self::Lost,
            Does::OutputHeld => Self::OutputHeld,
            Does::TiedUp => Self::TiedUp,
            Does::Undecided => Self::Undecided,
        }
    }

    /// The same to one who tries it: whether it is the input or only the output that is held, it does
    /// not move.
    pub(super) fn as_felt(&self) -> &Self {
        match self {
            Self::OutputHeld => &Self::TiedUp,
            other => other,
        }
    }

    /// The ratio that it has and should not have.
    pub fn ratio(&self) -> Option<&Fraction> {
        match self {
            Self::Drives(ratio) => Some(ratio),
            _ => None,
        }
    }

    /// The outcome as one word, for programs that read it.
    pub fn key(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::NoEngineBraking => "no-engine-braking",
            Self::EngineBraking => "engine-braking",
            Self::Lost => "lost",
            Self::Slips => "slips",
            Self::Drives(_) => "drives",
            Self::OutputHeld => "output-held",
            Self::TiedUp => "ties-up",
            Self::Undecided => "undecided",
        }
    }
}
