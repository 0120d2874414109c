//! What motions seen from the input make of the output.

use super::turning::{Beside, Turning};
use crate::fraction::Fraction;

/// What a combination of applied elements makes of a train.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum State {
    /// The input turns the output at a fixed ratio (input speed over output speed).
    Driving(Fraction),
    /// As [`State::Driving`], with more elements applied than needed, none of which fights.
    OverApplied(Fraction),
    /// The input turns and does not determine the output.
    Neutral,
    /// The input turns and the output stands still.
    OutputHeld,
    /// The input cannot turn.
    TiedUp,
}

impl State {
    /// What `motions` make of shaft `output`; of the equations that left them, `surplus` took away
    /// no freedom.
    // Once for all, as `Columns::narrow`.
    #[inline(never)]
    pub fn of(motions: &Turning, output: usize, surplus: usize) -> Self {
        if !motions.input_can_turn() {
            return Self::TiedUp;
        }
        match motions.beside(output) {
            Beside::Undetermined => Self::Neutral,
            Beside::AtRest => Self::OutputHeld,
            Beside::Turns(ratio) if surplus == 0 => Self::Driving(ratio),
            Beside::Turns(ratio) => Self::OverApplied(ratio),
        }
    }

    /// The ratio, where there is one.
    pub fn ratio(&self) -> Option<&Fraction> {
        match self {
            Self::Driving(ratio) | Self::OverApplied(ratio) => Some(ratio),
            Self::Neutral | Self::OutputHeld | Self::TiedUp => None,
        }
    }

    /// The state as one word, for programs that read it.
    pub fn key(&self) -> &'static str {
        match self {
            Self::Driving(_) => "driving",
            Self::OverApplied(_) => "over-applied",
            Self::Neutral => "neutral",
            Self::OutputHeld => "output-held",
            Self::TiedUp => "tied-up",
        }
    }
}
