//! What somebody observed of a range.

use levertrain_exact::Fraction;

use super::Outcome;

/// What was observed of a range that was tried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Observed {
    /// As it should be.
    Right,
    /// The output is free, and should not be.
    Lost,
    /// The input runs up beside the output.
    Slips,
    /// It ties up, or holds the output.
    TiesUp,
    /// No engine braking, where there should be.
    NoEngineBraking,
    /// Engine braking, where there should be none.
    EngineBraking,
    /// It drives, and should otherwise or not at all.
    Drives(Other),
}

/// How something drives that should not so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Other {
    /// It is not said how.
    Any,
    /// Forwards.
    Forward,
    /// Backwards.
    Backward,
    /// At this ratio.
    At(Fraction),
    /// At a ratio that no fault is known to give.
    Unknown,
}

impl Observed {
    /// From its word: that of an outcome, or `forward` or `backward`; ratios are read by
    /// [`Search::read`](super::Search::read).
    pub(super) fn parse(word: &str) -> Option<Self> {
        Some(match word {
            "right" => Self::Right,
            "lost" => Self::Lost,
            "slips" => Self::Slips,
            "ties-up" => Self::TiesUp,
            "no-engine-braking" => Self::NoEngineBraking,
            "engine-braking" => Self::EngineBraking,
            "drives" => Self::Drives(Other::Any),
            "forward" => Self::Drives(Other::Forward),
            "backward" => Self::Drives(Other::Backward),
            _ => return None,
        })
    }

    /// Whether an outcome is what was observed; of one that is undecided nothing is excluded.
    pub fn agrees(&self, outcome: &Outcome) -> bool {
        match (self, outcome.as_felt()) {
            (_, Outcome::Undecided)
            | (Self::Right, Outcome::Right)
            | (Self::Lost, Outcome::Lost)
            | (Self::Slips, Outcome::Slips)
            | (Self::TiesUp, Outcome::TiedUp)
            | (Self::NoEngineBraking, Outcome::NoEngineBraking)
            | (Self::EngineBraking, Outcome::EngineBraking) => true,
            (Self::Drives(other), Outcome::Drives(ratio)) => match other {
                Other::Any => true,
                Other::Forward => ratio.signum() > 0,
                Other::Backward => ratio.signum() < 0,
                Other::At(wanted) => wanted == ratio,
                Other::Unknown => false,
            },
            _ => false,
        }
    }

    /// Whether something is wrong.
    pub fn is_abnormal(&self) -> bool {
        *self != Self::Right
    }
}
