//! The search for all combinations that are nodes, in pieces.

use levertrain_exact::Fraction;

use super::graph::{Graph, Node};
use crate::base::element_set::ElementSet;
use crate::solve::settle::{Duty, Verdict};
use crate::train::Train;

/// What is known yet of the nodes of a train.
///
/// All sets of elements that anybody can apply are gone through, 2ⁿ of n: in one piece where they can be
/// walked together, or piece by piece, as settling one-way clutches takes its time for each.
#[derive(Debug, Clone)]
pub struct Search {
    train: Train,
    /// What anybody can apply.
    choosable: ElementSet,
    /// The set that comes next; none where all are done.
    next: Option<ElementSet>,
    done: usize,
    found: Vec<(ElementSet, Fraction)>,
}

impl Search {
    /// A search that has found nothing yet.
    pub fn new(train: &Train) -> Self {
        let all: ElementSet = (0..train.scenario().elements.len()).collect();
        Self {
            choosable: all.minus(train.one_ways()),
            train: train.clone(),
            next: Some(ElementSet::NONE),
            done: 0,
            found: Vec::new(),
        }
    }

    /// Looks at some more sets; whether any are left.
    pub fn advance(&mut self, sets: usize) -> bool {
        let mut piece = Vec::new();
        while piece.len() < sets
            && let Some(set) = self.next
        {
            piece.push(set);
            self.next = after(set, self.choosable);
        }
        self.done += piece.len();
        let is_range = ranges_of(&self.train);
        let found = &mut self.found;
        if self.train.one_ways().is_empty() {
            let mut names = piece.iter();
            self.train
                .for_each_of(piece.iter().copied(), Duty::Drive, |combination| {
                    let Some(&applied) = names.next() else { return };
                    let is_node = combination.surplus() == 0 || is_range(applied);
                    if let (true, Some(ratio)) = (is_node, combination.state().ratio()) {
                        found.push((applied, ratio.clone()));
                    }
                });
        } else {
            for applied in piece {
                let node = settled(&self.train, applied, is_range(applied));
                found.extend(node.map(|ratio| (applied, ratio)));
            }
        }
        self.next.is_some()
    }

    /// How many sets are done, and how many there are.
    pub fn progress(&self) -> (usize, usize) {
        (self.done, 1 << self.choosable.len())
    }

    /// The train.
    pub fn train(&self) -> &Train {
        &self.train
    }

    /// The graph of what is known yet.
    pub fn graph(&self) -> Graph {
        let ranges = 0..self.train.scenario().ranges.len();
        let nodes = self.found.iter().map(|(applied, ratio)| Node {
            applied: *applied,
            ratio: ratio.clone(),
            ranges: ranges
                .clone()
                .filter(|&range| self.train.range(range) == *applied)
                .collect(),
        });
        Graph::of(nodes.collect(), self.choosable)
    }
}

/// The ratio of a combination of a train with one-way clutches, where it is a node.
fn settled(train: &Train, applied: ElementSet, is_range: bool) -> Option<Fraction> {
    // What lock beside the applied elements may do what these do: only those have to be needed.
    if !is_range && train.solve(applied).surplus() > 0 {
        return None;
    }
    let settled = train.settle(applied, Duty::Drive);
    let is_sure = settled.verdict == Verdict::Settled;
    settled
        .combination
        .state()
        .ratio()
        .filter(|_| is_sure)
        .cloned()
}

/// Whether a set is what a named range applies.
fn ranges_of(train: &Train) -> impl Fn(ElementSet) -> bool + use<> {
    let ranges = 0..train.scenario().ranges.len();
    let ranges: Vec<ElementSet> = ranges.map(|range| train.range(range)).collect();
    move |applied| ranges.contains(&applied)
}

/// The subset of `all` that follows `set` in ascending order of bits.
fn after(set: ElementSet, all: ElementSet) -> Option<ElementSet> {
    // What is not in `all` counts as set, so that a carry goes past it.
    let next = set.bits().wrapping_sub(all.bits()) & all.bits();
    (next != 0).then(|| ElementSet::from_bits(next))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_subsets_come_in_order_and_once() {
        let all = ElementSet::from_bits(0b1101);
        let mut sets = Vec::new();
        let mut next = Some(ElementSet::NONE);
        while let Some(set) = next {
            sets.push(set.bits());
            next = after(set, all);
        }
        let expected: Vec<u32> = (0..16).filter(|bits| bits & !0b1101 == 0).collect();
        assert_eq!(sets, expected);
        assert_eq!(after(ElementSet::NONE, ElementSet::NONE), None);
    }
}
