//! What a combination does, in sentences a student understands: typed facts, written from the
//! catalogue of a language.

mod facts;
mod names;
mod say;
mod teeth;

use levertrain_exact::Fraction;

pub use self::facts::*;
pub use self::names::{Case, listed, noun, noun_as};
#[cfg(not(target_arch = "wasm32"))]
pub use crate::base::catalogue::built_in::LANGUAGES;
pub use crate::base::catalogue::{Catalogue, Values};
pub use crate::base::number::{decimal_sign, number};
pub use crate::base::said::{counted, said, word};

pub(crate) use self::facts::{does, joins::Joins};
pub(crate) use self::names::{begun, parted};
pub(crate) use self::say::Speaker;
use self::say::{pace_of, way_of};
use crate::solve::{Combination, State};

/// A combination in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// The state in a word or two.
    pub state: &'static str,
    /// The answer in one short line: ratio and direction, or why there is none.
    pub answer: String,
    /// What each element does, why it drives so or does not, what could be released: a paragraph
    /// each.
    pub sentences: Vec<String>,
}

impl Words {
    /// Describes a combination.
    pub fn of(combination: &Combination<'_>) -> Self {
        Self::told(combination, &Fact::all(combination))
    }

    /// Describes a combination by all there is to say of it, for those who ask that too.
    pub fn told(combination: &Combination<'_>, facts: &[Fact]) -> Self {
        let words = Catalogue::spoken();
        let (state, answer) = match combination.state() {
            State::Driving(_) => ("state-driving", "answer-drives"),
            State::OverApplied(_) => ("state-over-applied", "answer-drives"),
            // With further sources or outputs it takes more than the input to say what turns how.
            State::Neutral if combination.train().scenario().is_branched() => {
                ("state-branched", "answer-branched")
            }
            State::Neutral => ("state-neutral", "answer-neutral"),
            State::OutputHeld => ("state-output-held", "answer-output-held"),
            State::TiedUp => ("state-tied-up", "answer-tied-up"),
        };
        let beside = combination.state().ratio().map(|ratio| {
            let pace = Pace::of(&Fraction::ONE, ratio);
            [pace_of(pace), way_of(ratio.signum() > 0)]
        });
        let mut speaker = Speaker {
            words,
            train: combination.train(),
            sentences: Vec::new(),
        };
        speaker.tell_all(facts);
        Self {
            state: words.plain(state),
            answer: words.write(answer, 0, beside.as_ref().map_or(&[], |values| values)),
            sentences: speaker.sentences,
        }
    }
}

#[cfg(test)]
mod tests;
