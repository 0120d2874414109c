//! The order in which the sets of a train decide their motions.

use levertrain_exact::Motions;

use super::walk_stage::SetStage;
use crate::solve::Combination;
use crate::train::{Body, speed_terms};
use crate::words::Joins;

/// Most groups of sets that are tried for one that is decided; beyond, all that are left are told together.
const MOST_TRIED: usize = 2000;

/// What is known so far, and what is still to be told.
pub(super) struct Order<'a, 'b> {
    combination: &'b Combination<'a>,
    /// The motions that what was told so far allows.
    motions: Motions,
    left: Vec<usize>,
    /// The groups of bodies that power has reached.
    reached: Vec<usize>,
}

/// Sets that are decided next.
pub(super) struct Group {
    /// The sets, each by its index among the couplings.
    pub couplings: Vec<usize>,
    /// The bodies whose speeds were known before.
    pub known: Vec<Body>,
}

impl<'a, 'b> Order<'a, 'b> {
    pub(super) fn of(combination: &'b Combination<'a>) -> Self {
        Self {
            combination,
            motions: Motions::free(combination.train().scenario().shafts.len()),
            left: Vec::new(),
            reached: Vec::new(),
        }
    }

    /// The shafts whose speeds are decided by what was told.
    pub(super) fn known(&self) -> Vec<usize> {
        let turning = self.motions.turning(self.combination.train().input());
        let shafts = 0..self.combination.train().scenario().shafts.len();
        shafts.filter(|&shaft| turning.determines(shaft)).collect()
    }

    pub(super) fn apply(&mut self, element: usize) {
        let terms = self.combination.train().slip_terms(element);
        if let Some(narrowed) = self.motions.constrained(terms) {
            self.motions = narrowed;
        }
    }

    pub(super) fn add(&mut self, coupling: usize) {
        self.motions = self.with(&[coupling]);
    }

    /// What is told in stages from now on.
    pub(super) fn begin(&mut self, working: Vec<usize>, joins: &Joins<'_>) {
        self.left = working;
        self.reached = vec![joins.group(Body::Shaft(self.combination.train().input()))];
    }

    /// Power goes on from the members through which it leaves a set.
    pub(super) fn reach(&mut self, set: &SetStage, joins: &Joins<'_>) {
        let bodies = self.combination.train().members(set.coupling);
        let driven = set.driven();
        self.reached
            .extend(driven.map(|member| joins.group(bodies[member])));
    }

    /// The smallest group of sets left whose motion is decided by what is known; of several such, the
    /// first that power has reached. Sets that carry no torque are among it only where others take them.
    pub(super) fn next(&mut self, idle: &[usize]) -> Option<Group> {
        if self.left.is_empty() {
            return None;
        }
        let known = self.known().into_iter().map(Body::Shaft);
        let known = known.chain([Body::Housing]).collect();
        let all: Vec<usize> = self.left.iter().chain(idle).copied().collect();
        let mut left = MOST_TRIED;
        let found = self.smallest(&self.left, &mut left);
        let found = found.or_else(|| self.smallest(&all, &mut left));
        let couplings = found.unwrap_or(all);
        self.motions = self.with(&couplings);
        self.left.retain(|at| !couplings.contains(at));
        Some(Group { couplings, known })
    }

    fn smallest(&self, among: &[usize], left: &mut usize) -> Option<Vec<usize>> {
        for size in 1..=among.len() {
            let mut found = Vec::new();
            self.groups(among, size, &mut Vec::new(), left, &mut found);
            if *left == 0 {
                return None;
            }
            let reached = found.iter().position(|group| self.is_reached(group));
            if !found.is_empty() {
                return Some(found.swap_remove(reached.unwrap_or(0)));
            }
        }
        None
    }

    /// All groups of a size that are decided.
    fn groups(
        &self,
        among: &[usize],
        size: usize,
        chosen: &mut Vec<usize>,
        left: &mut usize,
        found: &mut Vec<Vec<usize>>,
    ) {
        if chosen.len() == size {
            *left = left.saturating_sub(1);
            if *left > 0 && self.is_decided(chosen) {
                found.push(chosen.clone());
            }
            return;
        }
        for (place, &coupling) in among.iter().enumerate() {
            chosen.push(coupling);
            self.groups(&among[place + 1..], size, chosen, left, found);
            chosen.pop();
            if *left == 0 {
                return;
            }
        }
    }

    /// Whether all members turn as fast as they do in the end, once the equations of these sets hold.
    fn is_decided(&self, couplings: &[usize]) -> bool {
        let train = self.combination.train();
        let turning = self.with(couplings).turning(train.input());
        let mut bodies = couplings.iter().flat_map(|&at| train.members(at));
        bodies.all(|&body| match body {
            Body::Housing => true,
            Body::Shaft(shaft) => turning.determines(shaft) || !self.combination.determines(body),
        })
    }

    /// Whether power that has been told goes into one of these sets by a body that has been reached.
    fn is_reached(&self, couplings: &[usize]) -> bool {
        let train = self.combination.train();
        let joins = Joins::of(train, self.combination.applied());
        let mut bodies = couplings.iter().flat_map(|&at| train.members(at));
        bodies.any(|&body| self.reached.contains(&joins.group(body)))
    }

    fn with(&self, couplings: &[usize]) -> Motions {
        let train = self.combination.train();
        let mut motions = self.motions.clone();
        for &coupling in couplings {
            for row in &train.gearing(coupling).mesh_rows {
                let bodies = train.members(coupling).iter().copied();
                let terms = speed_terms(bodies.zip(row.iter().copied()));
                if let Some(narrowed) = motions.constrained(&terms) {
                    motions = narrowed;
                }
            }
        }
        motions
    }
}
