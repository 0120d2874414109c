//! Of counts with the same ratios those that reach least far; of those that also reach as far, the first of those whose smallest
//! pinions are largest. Each stands for those that it is as good as.
//!
//! They are put in order in runs, as they come, which are then merged, so that a million take no long piece.

use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::cuts::{Cut, GEARS};

/// How many make a run, and how many are merged in a piece.
const RUN: usize = 16_384;

/// Cuts that are being merged.
#[derive(Default)]
pub(super) struct Merging {
    /// What is no run yet.
    loose: Vec<Cut>,
    /// What is left of each run, after the head that stands among all heads.
    runs: Vec<std::vec::IntoIter<Cut>>,
    heads: BinaryHeap<Reverse<Head>>,
    kept: Vec<Cut>,
}

/// The first that is left of a run.
struct Head {
    cut: Cut,
    run: usize,
}

impl Merging {
    /// Takes in what was found.
    pub(super) fn take(&mut self, found: &mut Vec<Cut>) {
        self.loose.append(found);
        if self.loose.len() >= RUN {
            self.close();
        }
    }

    /// Makes a run of what is none.
    fn close(&mut self) {
        let mut run = std::mem::take(&mut self.loose);
        run.shrink_to_fit();
        run.sort_unstable_by(order);
        self.runs.push(run.into_iter());
        self.advance(self.runs.len() - 1);
    }

    fn advance(&mut self, run: usize) {
        let next = self.runs[run].next();
        self.heads
            .extend(next.map(|cut| Reverse(Head { cut, run })));
    }

    /// Goes on for a piece, once all were taken in; what is kept of them, once nothing is left.
    pub(super) fn run(&mut self) -> Option<Vec<Cut>> {
        if !self.loose.is_empty() {
            self.close();
            let left = self.runs.iter().map(|run| run.len());
            self.kept
                .reserve_exact(left.sum::<usize>() + self.heads.len());
            return None;
        }
        for _ in 0..RUN {
            let Some(Reverse(Head { cut, run })) = self.heads.pop() else {
                return Some(std::mem::take(&mut self.kept));
            };
            self.advance(run);
            match self.kept.last_mut() {
                Some(last) if last.k == cut.k && as_good(last, &cut) => last.stands_for += 1,
                _ => self.kept.push(cut),
            }
        }
        None
    }
}

/// Those with the same ratios stand together, the best first. No two cuts have the same teeth.
fn order(a: &Cut, b: &Cut) -> Ordering {
    let ratios = a.k[0].total_cmp(&b.k[0]).then(a.k[1].total_cmp(&b.k[1]));
    ratios
        .then(a.reach.cmp(&b.reach))
        .then(a.teeth.cmp(&b.teeth))
}

impl Ord for Head {
    fn cmp(&self, other: &Self) -> Ordering {
        order(&self.cut, &other.cut)
    }
}

impl PartialOrd for Head {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Head {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Head {}

/// Whether `one` is at least as good as `other`, which has the same ratios: it reaches no farther, and no
/// pinion of it spins faster. Of a set with one row of pinions that follows from the ratio; of others it is
/// only said where gears are in proportion.
fn as_good(one: &Cut, other: &Cut) -> bool {
    let proportional = (1..GEARS).all(|at| {
        let cross = |a: &Cut, b: &Cut| u32::from(a.teeth[0]) * u32::from(b.teeth[at]);
        cross(one, other) == cross(other, one)
    });
    one.reach <= other.reach && proportional
}
