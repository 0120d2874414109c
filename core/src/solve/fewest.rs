//! The fewest equations that hold a shaft still.
//!
//! A search over sets of independent equations from the last one down. Each narrows motions that
//! are known already, and looks at all single equations and pairs at once that could complete it:
//! with the shaft held, one that holds already completes it alone, and two that have become
//! multiples of each other do so together. Sets are extended only while they can beat the best,
//! which at first is the whole set less all that can be left out one by one.

use levertrain_exact::{Fraction, Motions, Terms};

/// Up to this size, of all smallest sets the one with the lowest bits is found; of larger ones
/// whichever comes first.
const LOWEST_UP_TO: u32 = 4;

/// A smallest set of `equations`, as bits, that keeps `shaft` still in all of `motions`; `None`
/// where all of them together do not.
pub(super) fn fewest_holding(motions: &Motions, shaft: usize, equations: &[Terms]) -> Option<u32> {
    let mut expressions = vec![vec![(shaft, 1)]];
    expressions.extend_from_slice(equations);
    let motions = motions.seen_in(&expressions);
    let mut search = Search {
        best: (1 << equations.len()) - 1,
        values: (0..expressions.len()).map(|row| vec![(row, 1)]).collect(),
    };
    if !search.holds(&motions, search.best) {
        return None;
    }
    for equation in (0..equations.len()).rev() {
        let fewer = search.best & !(1 << equation);
        if search.holds(&motions, fewer) {
            search.best = fewer;
        }
    }
    search.extend(&motions, 0, equations.len());
    Some(search.best)
}

struct Search {
    best: u32,
    /// The shaft's speed and then each equation, in the motions seen in these.
    values: Vec<Terms>,
}

impl Search {
    fn holds(&self, motions: &Motions, set: u32) -> bool {
        let mut motions = motions.clone();
        for equation in (0..self.values.len() - 1).filter(|equation| set >> equation & 1 == 1) {
            if let Some(narrowed) = motions.constrained(&self.values[equation + 1]) {
                motions = narrowed;
            }
        }
        motions.constrained(&self.values[0]).is_none()
    }

    fn record(&mut self, set: u32) {
        let (count, best) = (set.count_ones(), self.best.count_ones());
        if count < best || count == best && set < self.best {
            self.best = set;
        }
    }

    /// Looks at the sets that are `chosen`, which left `motions`, and some before `end`.
    fn extend(&mut self, motions: &Motions, chosen: u32, end: usize) {
        let Some(held) = motions.constrained(&self.values[0]) else {
            self.record(chosen);
            return;
        };
        let open = Rows(motions.values(&self.values));
        let held = Rows(held.values(&self.values));
        for one in (0..end).filter(|one| held.is_zero(one + 1) && !open.is_zero(one + 1)) {
            self.record(chosen | 1 << one);
        }
        let size = chosen.count_ones();
        if size + 2 > self.best.count_ones() {
            return;
        }
        for two in (0..end).filter(|two| !held.is_zero(two + 1)) {
            for one in (0..two).filter(|one| !held.is_zero(one + 1)) {
                if held.are_multiples(one + 1, two + 1) && !open.are_multiples(one + 1, two + 1) {
                    self.record(chosen | 1 << one | 1 << two);
                }
            }
        }
        for next in 0..end {
            let best = self.best.count_ones();
            if size + 3 > best || size + 3 == best && best > LOWEST_UP_TO {
                return;
            }
            if let Some(narrowed) = motions.constrained(&self.values[next + 1]) {
                self.extend(&narrowed, chosen | 1 << next, next);
            }
        }
    }
}

/// Values of expressions, motion by motion.
struct Rows(Vec<Vec<Fraction>>);

impl Rows {
    fn is_zero(&self, row: usize) -> bool {
        self.0.iter().all(|motion| motion[row].is_zero())
    }

    /// Whether two rows, neither of which is zero, are multiples of each other.
    fn are_multiples(&self, one: usize, two: usize) -> bool {
        let Some(first) = self.0.iter().find(|motion| !motion[one].is_zero()) else {
            return false;
        };
        self.0.iter().all(|motion| {
            motion[one].is_zero() == motion[two].is_zero()
                && &first[one] * &motion[two] == &first[two] * &motion[one]
        })
    }
}
