//! How long a search takes, before it is made.

use super::walk::Ground;
use crate::base::dice::Dice;

/// How much there is to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// How many candidates there are.
    pub candidates: u128,
    /// About how many boxes are looked at: as many as there would be if no find cut off others, so rather too many.
    pub boxes: f64,
}

/// The mean of some dives, each down one way chosen by dice, of the products of how many ways there were (D. E. Knuth,
/// Estimating the efficiency of backtrack programs, Math. Comp. 29, 1975).
pub(super) fn estimate(ground: &Ground, dives: u32) -> Estimate {
    let mut dice = Dice::new(1);
    let widest = ground.widest();
    let mut all = 0.0;
    for _ in 0..dives {
        let (mut part, mut ways) = (widest.clone(), 1.0);
        loop {
            all += ways;
            let halves = match ground.is_small(&part) {
                true => None,
                false => ground
                    .dividing(&part)
                    .and_then(|set| ground.divided(&part, set)),
            };
            let Some(halves) = halves else { break };
            let mut left: Vec<_> = halves.into_iter().filter(|h| ground.may_hold(h)).collect();
            ways *= left.len() as f64;
            match dice.take(&mut left) {
                Some(next) => part = next,
                None => break,
            }
        }
    }
    Estimate {
        candidates: ground.candidates(&widest.branches),
        boxes: all / f64::from(dives.max(1)),
    }
}
