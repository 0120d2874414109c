//! Finding teeth for wanted ratios, completely.
//!
//! [`Ask`] says what is wanted of a [`Train`]; a [`Search`] goes through all tooth counts within its bounds and keeps
//! the [`Find`]s that no other beats. Nothing within the bounds is missed:
//!
//! 1. The counts of a set that keep the tooth rules are listed one by one (`cutting.rs`). Those with the same tooth
//!    ratios are told by one that is as good in every criterion.
//! 2. A candidate is a cut of each set; a box is a branch of each set's tree of cuts (`tree.rs`). All branches of a set
//!    together hold all its cuts, and a branch is divided into two that together hold what it holds, so that
//!    the boxes that are left, tried or cut off always hold all candidates.
//! 3. The ratio of a range is a quotient of polynomials that are multilinear in the sets' tooth ratios
//!    ([`crate::Working`]). Over a box it has its extremes at corners wherever the denominator keeps its sign
//!    (`quotient.rs`); where it does not, nothing is concluded. A box is cut off only when a goal's window lies outside
//!    those bounds, rounded outwards, or when a find is better than the bounds of all that counts.
//! 4. What is left is tried one by one in doubles, with windows a little wider (`kernel.rs`), and decided by the exact
//!    train (`measures.rs`).
//!
//! That is branch and bound (A. H. Land, A. G. Doig, Econometrica 28, 1960) with bounds from the corners, as interval
//! methods for global optimisation have them (R. E. Moore, 1966; both from memory).
//!
//! One-way clutches are taken to lock as they do with the teeth that the train has: a candidate in which they would
//! lock otherwise is no find. The order of the finds and the finds themselves are the same however the search is
//! divided.

mod ask;
mod asked;
mod bench;
mod checkpoint;
mod checks;
mod contradictions;
mod cuts;
mod cutting;
mod estimate;
mod front;
mod goals;
mod kernel;
pub mod limits;
mod measures;
mod merging;
mod news;
mod one_by_one;
mod preparation;
mod quotient;
mod report;
mod shards;
mod sharing;
mod stock;
mod task;
mod tree;
mod walk;

pub use ask::{Ask, Criterion, Limits, Near, Rules, TOLERANCE, Wanted};
pub(crate) use bench::{Bench, BenchPreparation, Fit, Polynomials};
pub(crate) use checkpoint::other_search;
pub use estimate::{Estimate, Estimating};
pub use measures::{Find, Measures};
pub use news::{Heard, ListedFind};
pub use preparation::Preparation;
pub(crate) use quotient::Quotient;
pub(crate) use report::teeth_of;
pub use report::{FindReport, FindSets, SearchReport};
pub(crate) use shards::{Digest, check_format};
pub use shards::{ShardMark, ShardMerge};
pub use task::SearchTask;
pub use walk::Counts;

use std::sync::Arc;

use crate::base::problem::Problem;
use crate::model::scenario::Scenario;
use crate::train::Train;
use checkpoint::task_of;
use report::Told;
use walk::{Ground, Walk};

/// A search that can be gone on with in pieces.
pub struct Search {
    ground: Arc<Ground>,
    walk: Walk,
    /// How many candidates it is to go through.
    all: u128,
    /// Tells the train and what is asked from others.
    task: Digest,
    /// Which shard it is, from 0, and of how many.
    shard: (usize, usize),
    /// Finds that it was told of and that are still to be measured.
    told: Vec<Told>,
}

/// How many boxes a search is divided into for shards, whatever their number.
const PIECES: usize = 1024;

impl Search {
    /// A search for what is asked of a train.
    ///
    /// # Errors
    /// Every problem of what is asked: ranges and sets that are not there, bounds that contradict each other, a set
    /// that has no tooth counts within them, a ratio that none of them gives, with what they do give, and wanted ratios, steps and
    /// a spread that exclude each other.
    pub fn new(train: &Train, ask: &Ask) -> Result<Self, Vec<Problem>> {
        Preparation::new(train, ask)?.finish()
    }

    /// Of all candidates of a box.
    fn over(ground: Arc<Ground>, part: walk::Box) -> Self {
        Self {
            all: ground.candidates(&part.branches),
            walk: Walk::new(vec![part]),
            task: task_of(&ground),
            shard: (0, 1),
            told: Vec::new(),
            ground,
        }
    }

    /// The same for one of `count` shards, from 0: together they cover all candidates, each once.
    ///
    /// # Errors
    /// Those of [`Search::new`].
    pub fn shard(
        train: &Train,
        ask: &Ask,
        which: usize,
        count: usize,
    ) -> Result<Self, Vec<Problem>> {
        Preparation::shard(train, ask, which, count)?.finish()
    }

    fn shard_of(ground: Arc<Ground>, which: usize, count: usize) -> Self {
        let mut walk = Walk::new(Vec::new());
        let (boxes, outside) = pieces(&ground);
        let mut own: Vec<walk::Box> = boxes
            .into_iter()
            .skip(which)
            .step_by(count.max(1))
            .collect();
        own.reverse();
        walk.boxes = own;
        if which == 0 {
            walk.counts.outside = outside;
        }
        let left = walk.boxes.iter();
        let left: u128 = left.map(|each| ground.candidates(&each.branches)).sum();
        Self {
            all: left + walk.counts.outside,
            walk,
            task: task_of(&ground),
            shard: (which, count),
            told: Vec::new(),
            ground,
        }
    }

    /// Goes on for so many boxes at most; true once nothing is left, or there are more finds than are kept: to go on
    /// then would take ever longer, for a list that nobody reads.
    pub fn run(&mut self, boxes: usize) -> bool {
        for _ in 0..boxes {
            if self.is_full() {
                return true;
            }
            if let Some(told) = self.told.pop() {
                self.measure(&told);
            } else if !self.walk.step(&self.ground) {
                return true;
            }
        }
        self.told.is_empty() && self.walk.boxes.is_empty()
    }

    /// Has it go through boxes one by one that have so many candidates at most: all, where that is more than there are. What
    /// is found is the same; it is for benchmarks, and for tests of just that.
    #[must_use]
    pub fn one_by_one(mut self, candidates: usize) -> Self {
        if let Some(ground) = Arc::get_mut(&mut self.ground) {
            ground.one_by_one = candidates;
        }
        self
    }

    /// Merges the files of shards of this search.
    pub fn merge(&self) -> ShardMerge {
        ShardMerge::new(checkpoint::FORMAT, Some(self.task.text()))
    }

    /// Which shard of which search it is, and what has become of its candidates: outside, beaten, tried, and how many boxes it took.
    pub fn mark(&self) -> ShardMark {
        let Counts {
            outside,
            beaten,
            tried,
            boxes,
        } = self.counts();
        let counts = [outside, beaten, tried, boxes.into()];
        ShardMark::new(
            checkpoint::FORMAT,
            self.task.text(),
            self.shard,
            &counts,
            self.is_full(),
        )
    }

    /// How many candidates this search is to go through: all, or those of its shard.
    pub fn own_candidates(&self) -> u128 {
        self.all
    }

    /// How many candidates there are within the bounds, each with its counts and rules.
    pub fn candidates(&self) -> u128 {
        self.ground.candidates(&vec![0; self.ground.trees.len()])
    }

    /// What has become of candidates so far.
    pub fn counts(&self) -> Counts {
        self.walk.counts
    }

    /// Whether there are more finds than are kept ([`limits::FINDS`]): then fewer criteria are of more use.
    pub fn is_full(&self) -> bool {
        self.walk.is_full()
    }

    /// The finds so far, those first that are best in what counts first.
    pub fn finds(&self) -> Vec<Find> {
        let finds = self.walk.front.finds();
        finds.map(|find| Find::clone(find)).collect()
    }

    /// How often the finds have become others.
    pub fn changes(&self) -> u64 {
        self.walk.front.changes()
    }

    /// The teeth that the train has, measured as finds are, where all wanted ranges drive with them.
    pub fn present(&self) -> Option<Find> {
        self.ground.maker.present(&self.ground.goals)
    }

    /// Has it keep what it finds from now on, to be handed on by [`Search::fresh`].
    pub fn hands_on(&mut self) {
        self.walk.front.hands_on();
    }

    /// What it has found since this was last asked, and may be beaten by now: for other parts of the same search.
    pub fn fresh(&mut self) -> Vec<FindSets> {
        let fresh = self.walk.front.fresh();
        let stencils = self.stencils();
        fresh.iter().map(|find| stencils.sets(find)).collect()
    }

    /// Takes in what another part of the same search has found, so that it cuts off here, too.
    pub fn tell(&mut self, find: Find) {
        self.walk.front.take(find);
    }

    /// The scenario with the teeth of a find.
    pub fn scenario(&self, find: &Find) -> Scenario {
        self.ground.maker.scenario(&find.cuts)
    }

    /// The sets that are looked for, by their place in the scenario: those on which a wanted ratio depends, but for
    /// those that keep their teeth.
    pub fn sets(&self) -> &[usize] {
        &self.ground.maker.sets
    }

    /// How much there is to do, by so many dives: a thousand take some tens of milliseconds.
    pub fn estimate(&self, dives: u32) -> Estimate {
        let mut estimating = self.estimating();
        estimating.dive(dives);
        estimating.estimate()
    }

    /// The same in pieces.
    pub fn estimating(&self) -> Estimating {
        Estimating::new(Arc::clone(&self.ground))
    }
}

/// The widest box divided into about [`PIECES`], and how many candidates fell off.
fn pieces(ground: &Ground) -> (Vec<walk::Box>, u128) {
    let mut boxes = std::collections::VecDeque::from([ground.widest()]);
    let (mut done, mut outside) = (Vec::new(), 0);
    while boxes.len() + done.len() < PIECES {
        let Some(part) = boxes.pop_front() else { break };
        let set = ground.dividing(&part);
        match set.and_then(|set| ground.divided(&part, set)) {
            None => done.push(part),
            Some(halves) => {
                for half in halves {
                    match ground.may_hold(&half) {
                        true => boxes.push_back(half),
                        false => outside += ground.candidates(&half.branches),
                    }
                }
            }
        }
    }
    done.extend(boxes);
    // Those first of which most is hoped: what they hold cuts off others, and each shard has as many of them.
    let mut hopes: Vec<(Vec<f64>, walk::Box)> = done
        .into_iter()
        .map(|part| {
            let mut at_best = Vec::new();
            ground.at_best(&part, &mut at_best);
            (at_best, part)
        })
        .collect();
    hopes.sort_by(|(a, _), (b, _)| walk::more_promising(a, b));
    let boxes = hopes.into_iter().map(|(_, part)| part).collect();
    (boxes, outside)
}
