//! Bettering a plan in which shafts cross after a change, in steps: the drawing is there meanwhile.
//!
//! At first some rounds move other things too, as few as may be; then a plan is made from nothing, and taken
//! if fewer shafts cross in it.

use levertrain_core::Train;

use super::dice::Dice;
use super::plan::Plan;
use super::planning::{Bettering, Planning, Times};
use super::search::Sketch;

/// Rounds of moving other things too.
const ROUNDS: usize = 40;

/// A plan that is being bettered.
#[derive(Debug)]
pub struct Mending {
    best: Sketch,
    /// How many crossings there were when it began.
    crossings: usize,
    /// Moves other things too, while anything is to be kept.
    bettering: Option<Rounds>,
    planning: Planning,
}

#[derive(Debug)]
struct Rounds {
    /// As many crossings as are worth no longer search.
    fewest: usize,
    left: usize,
    bettering: Bettering,
    dice: Dice,
}

impl Mending {
    /// Of a plan that keeps what it can and has more than `fewest` crossings.
    pub(super) fn of(sketch: Sketch, fewest: usize, train: &Train) -> Self {
        Self {
            crossings: sketch.crossings.len(),
            bettering: Some(Rounds {
                fewest,
                left: ROUNDS,
                bettering: Bettering::of(0, &sketch, Times::Exactly(1)),
                dice: Dice::new(),
            }),
            best: sketch,
            planning: Planning::of(train),
        }
    }

    /// The first plan that is found from nothing, and what betters that.
    pub(super) fn from_nothing(train: &Train) -> (Plan, Option<Self>) {
        let mut planning = Planning::of(train);
        loop {
            if let Some(plan) = planning.advance(train) {
                return (plan, None);
            }
            let Some(sketch) = planning.draft().cloned() else {
                continue;
            };
            let Some(plan) = sketch.clone().whole() else {
                continue;
            };
            let mending = Self {
                // Whatever costs less is better.
                crossings: usize::MAX,
                bettering: None,
                best: sketch,
                planning,
            };
            return (plan, Some(mending));
        }
    }

    /// Takes one more step, which is short. After the last the plan, if it is better.
    pub(super) fn advance(&mut self, train: &Train) -> Option<Option<Plan>> {
        if let Some(rounds) = &mut self.bettering {
            if self.best.crossings.len() <= rounds.fewest {
                return Some(self.best.clone().whole());
            }
            let (fewest, dice) = (rounds.fewest, &mut rounds.dice);
            rounds.left = rounds.left.saturating_sub(1);
            let more = rounds
                .bettering
                .try_one(&mut self.best, fewest, train, dice);
            if !more || rounds.left == 0 {
                self.bettering = None;
            }
            return None;
        }
        let fresh = self.planning.advance(train)?;
        let ours = self.best.crossings.len();
        Some(match self.crossings {
            usize::MAX => Some(fresh),
            _ if fresh.crossings.len() < ours => Some(fresh),
            before => self.best.clone().whole().filter(|_| ours < before),
        })
    }
}
