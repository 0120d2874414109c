//! How long a search takes, before it is made.

use std::sync::Arc;

use super::walk::{Box, Ground};
use crate::base::dice::Dice;

/// How much there is to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// How many candidates there are.
    pub candidates: u128,
    /// About how many boxes are looked at: as many as there would be if no find cut off others, so rather too many.
    pub boxes: f64,
}

/// Finds out how much there is to do, in pieces: the mean of some dives, each down one way chosen by dice, of the products of
/// how many ways there were (D. E. Knuth, Estimating the efficiency of backtrack programs, Math. Comp. 29, 1975).
pub struct Estimating {
    ground: Arc<Ground>,
    dice: Dice,
    widest: Box,
    /// The sum over all dives.
    all: f64,
    dives: u32,
}

impl Estimating {
    pub(super) fn new(ground: Arc<Ground>) -> Self {
        Self {
            dice: Dice::new(1),
            widest: ground.widest(),
            ground,
            all: 0.0,
            dives: 0,
        }
    }

    /// So many dives more.
    pub fn dive(&mut self, dives: u32) {
        self.dives += dives;
        let ground = &self.ground;
        for _ in 0..dives {
            let (mut part, mut ways) = (self.widest.clone(), 1.0);
            loop {
                self.all += ways;
                let halves = match ground.is_small(&part) {
                    true => None,
                    false => ground
                        .dividing(&part)
                        .and_then(|set| ground.divided(&part, set)),
                };
                let Some(halves) = halves else { break };
                let mut left: Vec<_> = halves.into_iter().filter(|h| ground.may_hold(h)).collect();
                ways *= left.len() as f64;
                match self.dice.take(&mut left) {
                    Some(next) => part = next,
                    None => break,
                }
            }
        }
    }

    /// What is known so far.
    pub fn estimate(&self) -> Estimate {
        Estimate {
            candidates: self.ground.candidates(&self.widest.branches),
            boxes: self.all / f64::from(self.dives.max(1)),
        }
    }
}
