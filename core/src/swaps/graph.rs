//! All combinations that drive, and the single swaps between them.

use std::cmp::Ordering;

use levertrain_exact::Fraction;

use super::search::Search;
use super::swap::Swap;
use crate::base::element_set::ElementSet;
use crate::base::short_sort::sort_short_by_key;
use crate::train::Train;

/// A combination that drives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Node {
    /// What is applied; one-way clutches lock by themselves.
    pub applied: ElementSet,
    /// Input speed over output speed.
    pub ratio: Fraction,
    /// The named ranges that it is, by their indices.
    pub ranges: Vec<usize>,
}

impl Node {
    /// Whether it drives forwards.
    pub fn is_forward(&self) -> bool {
        self.ratio.signum() > 0
    }
}

/// All nodes of a train, in the order of their ratios. Swaps are found from the sets when they are asked for.
#[derive(Debug, Clone)]
pub struct Graph {
    /// Those that drive forwards first, the largest ratio first of each; of one ratio those with fewest elements first,
    /// and then in the order of the elements.
    nodes: Vec<Node>,
    /// Of each node how many other ratios come before its own.
    ranks: Vec<usize>,
    /// The applied elements of all nodes as bits, ascending, with the node.
    places: Vec<(u32, usize)>,
    choosable: ElementSet,
}

impl Graph {
    /// All nodes of a train.
    pub fn of_train(train: &Train) -> Self {
        let mut search = Search::new(train);
        while search.advance(usize::MAX) {}
        search.graph()
    }

    /// The graph of these nodes, which come in ascending order of their bits; somebody can apply the elements of
    /// `choosable`.
    pub(super) fn of(found: Vec<Node>, choosable: ElementSet) -> Self {
        // Sorted by places: sorting is code for every type that it is used on.
        let mut order: Vec<usize> = (0..found.len()).collect();
        order.sort_unstable_by(|&one, &other| in_order(&found[one], &found[other]));
        let bits = found.iter().map(|node| node.applied.bits());
        let mut places: Vec<(u32, usize)> = bits.map(|bits| (bits, 0)).collect();
        for (index, &place) in order.iter().enumerate() {
            places[place].1 = index;
        }
        let nodes: Vec<Node> = order.iter().map(|&place| found[place].clone()).collect();
        let mut ranks: Vec<usize> = Vec::with_capacity(nodes.len());
        for (index, node) in nodes.iter().enumerate() {
            let before = index.checked_sub(1).map(|before| &nodes[before]);
            let rank = match (before, ranks.last()) {
                (Some(before), Some(&rank)) if before.ratio == node.ratio => rank,
                (_, Some(&rank)) => rank + 1,
                _ => 0,
            };
            ranks.push(rank);
        }
        Self {
            nodes,
            ranks,
            places,
            choosable,
        }
    }

    /// The nodes, in the order of their ratios.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// How many of them, the first ones, drive forwards.
    pub fn forward(&self) -> usize {
        self.nodes.partition_point(Node::is_forward)
    }

    /// The node of a combination.
    pub fn node_of(&self, applied: ElementSet) -> Option<usize> {
        let place = self
            .places
            .binary_search_by_key(&applied.bits(), |place| place.0);
        place.ok().map(|place| self.places[place].1)
    }

    /// How many other ratios come before that of a node: of one ratio all have the same.
    pub(super) fn rank(&self, node: usize) -> usize {
        self.ranks[node]
    }

    /// What leads from one node to another.
    pub fn swap(&self, from: usize, to: usize) -> Swap {
        Swap::between(self.nodes[from].applied, self.nodes[to].applied)
    }

    /// The nodes that a single swap leads to, or one element alone, in ascending order.
    ///
    /// For each element that could go, or none, and each that could come, or none, one look-up: of n elements
    /// at most (n/2 + 1)² of them.
    pub fn singles(&self, node: usize) -> Vec<usize> {
        let applied = self.nodes[node].applied;
        let going = applied.iter().map(Some).chain([None]);
        let coming = || self.choosable.minus(applied).iter().map(Some).chain([None]);
        let sets = going.flat_map(|gone| coming().map(move |come| (gone, come)));
        let sets = sets.filter(|change| *change != (None, None));
        let sets = sets.map(|(gone, come)| {
            let left = gone.map_or(applied, |gone| applied.without(gone));
            come.map_or(left, |come| left.with(come))
        });
        let mut singles: Vec<usize> = sets.filter_map(|set| self.node_of(set)).collect();
        sort_short_by_key(&mut singles, |&node| node);
        singles
    }
}

/// Forwards before backwards, the largest ratio first, then fewest elements, then their order.
fn in_order(one: &Node, other: &Node) -> Ordering {
    let backward = |node: &Node| !node.is_forward();
    let by_way = backward(one).cmp(&backward(other));
    let by_ratio = || other.ratio.abs().cmp(&one.ratio.abs());
    let size = |node: &Node| (node.applied.len(), node.applied);
    by_way
        .then_with(by_ratio)
        .then_with(|| size(one).cmp(&size(other)))
}
