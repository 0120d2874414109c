//! Bettering a plan in which shafts cross after a change, in steps: the drawing is there meanwhile.
//!
//! At first some rounds move other things too, as few as may be; then a plan is made from nothing, and taken
//! if fewer shafts cross in it. Where a train was opened whose shafts cross and need not, it is drawn after an
//! embedding, if this engine knows how.

use std::task::Poll;

use levertrain_core::Train;

use super::dice::Dice;
use super::plan::Plan;
use super::planning::{BEGIN_NEST, Bettering, Planning, Times};
use super::search::Sketch;

/// Rounds of moving other things too.
const ROUNDS: usize = 40;

/// A plan that is being bettered.
#[derive(Debug)]
pub struct Mending {
    /// Of what is bettered; nothing where a plan is made from nothing alone.
    best: Option<Sketch>,
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
            best: Some(sketch),
            planning: Planning::unhurried(train),
        }
    }

    /// Of a train that is drawn with so many crossings and can be without; `None` where this engine knows no
    /// more than has been tried.
    pub(super) fn by_embedding(crossings: usize, train: &Train) -> Option<Self> {
        BEGIN_NEST.get()?;
        Some(Self {
            crossings,
            bettering: None,
            best: None,
            planning: Planning::nesting(train),
        })
    }

    /// The first plan that is found from nothing, and what betters that.
    pub(super) fn from_nothing(train: &Train) -> (Plan, Option<Self>) {
        let mut planning = Planning::unhurried(train);
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
                best: Some(sketch),
                planning,
            };
            return (plan, Some(mending));
        }
    }

    /// Takes one more step, which is short. After the last the plan, if it is better.
    pub(super) fn advance(&mut self, train: &Train) -> Poll<Option<Plan>> {
        if let (Some(rounds), Some(best)) = (&mut self.bettering, &mut self.best) {
            if best.crossings.len() <= rounds.fewest {
                return Poll::Ready(best.clone().whole());
            }
            let (fewest, dice) = (rounds.fewest, &mut rounds.dice);
            rounds.left = rounds.left.saturating_sub(1);
            let more = rounds.bettering.try_one(best, fewest, train, dice);
            if !more || rounds.left == 0 {
                self.bettering = None;
            }
            return Poll::Pending;
        }
        let Some(fresh) = self.planning.advance(train) else {
            return Poll::Pending;
        };
        let best = self.best.as_ref();
        let ours = best.map_or(self.crossings, |best| best.crossings.len());
        Poll::Ready(match self.crossings {
            usize::MAX => Some(fresh),
            _ if fresh.crossings.len() < ours => Some(fresh),
            before => {
                let better = best.filter(|_| ours < before).cloned();
                better.and_then(Sketch::whole)
            }
        })
    }
}
