//! Going through all candidates, box by box.

use std::cmp::Ordering;
use std::sync::Arc;

use super::ask::Criterion;
use super::cuts::Cut;
use super::front::Front;
use super::goals::{Goals, least_unevenness};
use super::limits::FINDS;
use super::measures::{Maker, counted};
use super::quotient::Quotient;
use super::tree::{Branch, Tree};

/// A box with no more candidates than these is gone through one by one, where nothing else is said.
pub(super) const ONE_BY_ONE: usize = 256;

/// All that does not change while a search goes on.
pub(super) struct Ground {
    pub trees: Vec<Arc<Tree>>,
    /// The ratio of each wanted range.
    pub quotients: Vec<Quotient>,
    pub goals: Goals,
    /// Sets of which something must be alike.
    pub alike: Vec<Alike>,
    pub maker: Maker,
    /// A box with no more candidates than these is gone through one by one.
    pub one_by_one: usize,
}

/// Sets that must be alike in something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Alike {
    /// In what.
    pub size: Size,
    /// Which of the sets that are looked for.
    pub sets: Vec<usize>,
}

/// What sets can be alike in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Size {
    /// Teeth of their rings.
    Ring,
    /// How far the axes of a pair are apart.
    Distance,
}

impl Size {
    /// Of a cut.
    pub(super) fn of(self, cut: &Cut) -> u16 {
        match self {
            Self::Ring => cut.reach,
            Self::Distance => cut.distance,
        }
    }

    /// Least and greatest of a branch.
    fn within(self, branch: &Branch) -> [u16; 2] {
        match self {
            Self::Ring => branch.reach,
            Self::Distance => branch.distance,
        }
    }
}

/// A box: a branch of each set's tree.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Box {
    pub branches: Vec<u32>,
    /// Between which values the ratio of each wanted range is.
    pub bounds: Vec<[f64; 2]>,
}

/// What has become of candidates. Those of merged cuts count as they would alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Cut off, as no candidate of their box can be what was asked for.
    pub outside: u128,
    /// Cut off, as a find beats whatever there could be in their box.
    pub beaten: u128,
    /// Tried one by one.
    pub tried: u128,
    /// How many boxes were looked at.
    pub boxes: u64,
}

impl Counts {
    /// Adds what another part of the search has gone through.
    pub(super) fn add(&mut self, other: &Self) {
        self.outside += other.outside;
        self.beaten += other.beaten;
        self.tried += other.tried;
        self.boxes += other.boxes;
    }
}

impl Ground {
    pub(super) fn branch(&self, set: usize, at: u32) -> &Branch {
        &self.trees[set].branches[at as usize]
    }

    /// How many candidates there are in a box.
    pub(super) fn candidates(&self, branches: &[u32]) -> u128 {
        let sets = branches.iter().enumerate();
        sets.map(|(set, &at)| u128::from(self.branch(set, at).stands_for))
            .product()
    }

    /// The bounds of one ratio in a box.
    fn bounds_of(&self, quotient: &Quotient, branches: &[u32]) -> [f64; 2] {
        let mut ends = [[0.0; 2]; super::limits::RATIOS];
        for (end, variable) in ends.iter_mut().zip(&quotient.variables) {
            *end = self.branch(variable.set, branches[variable.set]).k[variable.row];
        }
        quotient.bounds(&ends[..quotient.variables.len()])
    }

    /// The box of everything.
    pub(super) fn widest(&self) -> Box {
        self.box_of(vec![0; self.trees.len()])
    }

    /// The box of these branches, one for each set, if there are such.
    pub(super) fn at(&self, branches: Vec<u32>) -> Option<Box> {
        let fits = |(at, tree): (&u32, &Arc<Tree>)| (*at as usize) < tree.branches.len();
        let all_fit = branches.iter().zip(&self.trees).all(fits);
        (branches.len() == self.trees.len() && all_fit).then(|| self.box_of(branches))
    }

    fn box_of(&self, branches: Vec<u32>) -> Box {
        let bounds = self.quotients.iter();
        Box {
            bounds: bounds.map(|q| self.bounds_of(q, &branches)).collect(),
            branches,
        }
    }

    /// Whether something in a box may be what was asked for.
    pub(super) fn may_hold(&self, part: &Box) -> bool {
        let goals = self.goals.all.iter();
        let mut goals = goals.map(|goal| (goal.bounds(&part.bounds), goal.wider()));
        goals.all(|([low, high], [least, most])| low <= most && least <= high)
            && self.sizes_may_agree(part)
    }

    fn sizes_may_agree(&self, part: &Box) -> bool {
        self.alike.iter().all(|Alike { size, sets }| {
            let sizes = sets
                .iter()
                .map(|&set| size.within(self.branch(set, part.branches[set])));
            let common = sizes.fold([0, u16::MAX], |[low, high], [least, most]| {
                [low.max(least), high.min(most)]
            });
            common[0] <= common[1]
        })
    }

    /// The best that there could be in a box, in all that counts.
    pub(super) fn at_best(&self, part: &Box, into: &mut Vec<f64>) {
        into.clear();
        for criterion in &self.maker.best {
            into.push(counted(match criterion {
                Criterion::Error => self.least_error(&part.bounds),
                Criterion::Steps => least_unevenness(&self.goals.steps, &part.bounds),
                Criterion::Size => {
                    let sets = part.branches.iter().enumerate();
                    let reaches = sets.map(|(set, &at)| self.branch(set, at).reach[0]);
                    reaches.max().unwrap_or(0).into()
                }
                // Whatever is there may be without loss, or at rest.
                Criterion::Efficiency | Criterion::PinionSpeed => 0.0,
            }));
        }
    }

    pub(super) fn least_error(&self, ratios: &[[f64; 2]]) -> f64 {
        let goals = self.goals.all.iter();
        let errors = goals.filter_map(|goal| {
            let wanted = goal.wanted?;
            let ends = goal.bounds(ratios).map(|end| end / wanted);
            let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            Some((low - 1.0).max(1.0 - high).max(0.0))
        });
        errors.fold(0.0, f64::max)
    }

    /// The set that is best divided next, which has parts: that in which the ratios differ most of a goal that is not
    /// certain yet and depends on few undivided sets. Goals that depend on few sets are so decided first, and cut
    /// off most.
    pub(super) fn dividing(&self, part: &Box) -> Option<usize> {
        let mut weights = vec![0.0_f64; part.branches.len()];
        for goal in &self.goals.all {
            let ([low, high], [least, most]) = (goal.bounds(&part.bounds), goal.wider());
            if least <= low && high <= most {
                continue;
            }
            let variables = || {
                let ranges = goal.powers.iter();
                ranges.flat_map(|&(at, _)| &self.quotients[at].variables)
            };
            let width = |set: usize, row: usize| {
                let [low, high] = self.branch(set, part.branches[set]).k[row];
                high / low - 1.0
            };
            let open = variables().filter(|v| width(v.set, v.row) > 0.0).count();
            for variable in variables() {
                let weight = width(variable.set, variable.row) / (open * open).max(1) as f64;
                weights[variable.set] = weights[variable.set].max(weight);
            }
        }
        let sets = || (0..part.branches.len()).filter(|&set| self.parts(part, set).is_some());
        let heaviest = |by: &dyn Fn(usize) -> f64| {
            sets().fold(None, |best: Option<usize>, set| match best {
                Some(best) if by(best) >= by(set) => Some(best),
                _ => Some(set),
            })
        };
        let set = heaviest(&|set| weights[set])?;
        if weights[set] > 0.0 {
            return Some(set);
        }
        // All goals are certain: what is left to decide is how good it is.
        heaviest(&|set| {
            let branch = self.branch(set, part.branches[set]);
            let widths = [branch.k[0], branch.k[1], branch.reach.map(f64::from)];
            widths
                .iter()
                .map(|[low, high]| high / low - 1.0)
                .fold(0.0, f64::max)
        })
    }

    fn parts(&self, part: &Box, set: usize) -> Option<[u32; 2]> {
        self.branch(set, part.branches[set]).parts
    }

    /// The two parts of a box along a set.
    pub(super) fn divided(&self, part: &Box, set: usize) -> Option<[Box; 2]> {
        let parts = self.parts(part, set)?;
        Some(parts.map(|at| {
            let mut half = part.clone();
            half.branches[set] = at;
            for (bounds, quotient) in half.bounds.iter_mut().zip(&self.quotients) {
                if quotient
                    .variables
                    .iter()
                    .any(|variable| variable.set == set)
                {
                    *bounds = self.bounds_of(quotient, &half.branches);
                }
            }
            half
        }))
    }

    /// How many cuts there are to combine in a box.
    fn combinations(&self, part: &Box) -> usize {
        let sets = part.branches.iter().enumerate();
        let counts = sets.map(|(set, &at)| {
            let branch = self.branch(set, at);
            (branch.to - branch.from) as usize
        });
        counts.fold(1, usize::saturating_mul)
    }

    /// Whether a box is gone through one by one.
    pub(super) fn is_small(&self, part: &Box) -> bool {
        self.combinations(part) <= self.one_by_one
    }
}

/// Puts what is better at best in what counts first before other things.
pub(super) fn more_promising(one: &[f64], other: &[f64]) -> Ordering {
    let mut orders = one
        .iter()
        .zip(other)
        .map(|(one, other)| one.total_cmp(other));
    orders
        .find(|order| order.is_ne())
        .unwrap_or(Ordering::Equal)
}

/// A walk over boxes that are left, deepest first.
pub(super) struct Walk {
    pub boxes: Vec<Box>,
    pub front: Front,
    pub counts: Counts,
    at_best: Vec<f64>,
}

impl Walk {
    pub(super) fn new(boxes: Vec<Box>) -> Self {
        Self {
            boxes,
            front: Front::default(),
            counts: Counts::default(),
            at_best: Vec::new(),
        }
    }

    /// Looks at the next box; false where there is none left.
    pub(super) fn step(&mut self, ground: &Ground) -> bool {
        let Some(part) = self.boxes.pop() else {
            return false;
        };
        self.counts.boxes += 1;
        let candidates = ground.candidates(&part.branches);
        // What was found since it was put there may beat it.
        ground.at_best(&part, &mut self.at_best);
        if self.front.beats(&self.at_best) {
            self.counts.beaten += candidates;
            return true;
        }
        let halves = match ground.is_small(&part) {
            true => None,
            false => ground
                .dividing(&part)
                .and_then(|set| ground.divided(&part, set)),
        };
        let Some(halves) = halves else {
            ground.go_through(&part, &mut self.front);
            self.counts.tried += candidates;
            return true;
        };
        let mut left: Vec<(Vec<f64>, Box)> = Vec::with_capacity(2);
        for half in halves {
            if !ground.may_hold(&half) {
                self.counts.outside += ground.candidates(&half.branches);
                continue;
            }
            ground.at_best(&half, &mut self.at_best);
            left.push((self.at_best.clone(), half));
        }
        // The more promising half comes first, for what it holds to cut off the other.
        left.sort_by(|(a, _), (b, _)| more_promising(b, a));
        self.boxes.extend(left.into_iter().map(|(_, half)| half));
        true
    }

    /// Whether there are more finds than are kept.
    pub(super) fn is_full(&self) -> bool {
        self.front.finds().len() > FINDS
    }
}
