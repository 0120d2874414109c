//! A row of ranges, each a single swap from the next.

use std::cmp::Ordering;

use levertrain_exact::Fraction;

use super::graph::Graph;

/// Nodes that drive forwards, their ratios falling, each a single swap from the next, or one element alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    /// The nodes, the largest ratio first.
    pub nodes: Vec<usize>,
    /// Each ratio over the next one: above 1, and one less than there are nodes.
    pub steps: Vec<Fraction>,
    /// How much the steps vary in all: of each two neighbours the larger over the smaller, all multiplied. 1 where
    /// all are the same (geometric); and steps that only become smaller, or only larger, vary by the first over
    /// the last, or the last over the first.
    ///
    /// As a sum of logarithms it is how far the step travels from the first to the last, so that a row which
    /// falls steadily (progressive) is not held against a train, and one that goes to and fro is.
    pub variation: Fraction,
}

impl Chain {
    /// The row of these nodes.
    pub fn of(graph: &Graph, nodes: Vec<usize>) -> Self {
        let ratio = |node: &usize| &graph.nodes()[*node].ratio;
        // No ratio is zero.
        let over = |one: &Fraction, other: &Fraction| one.over(other).unwrap_or(Fraction::ONE);
        let pairs = nodes.iter().zip(nodes.iter().skip(1));
        let steps: Vec<Fraction> = pairs
            .map(|(from, to)| over(ratio(from), ratio(to)))
            .collect();
        let changes = steps.iter().zip(steps.iter().skip(1));
        let changes = changes.map(|(one, other)| over(one.max(other), one.min(other)));
        let variation = changes.fold(Fraction::ONE, |product, change| &product * &change);
        Self {
            nodes,
            steps,
            variation,
        }
    }

    /// The largest ratio over the smallest.
    pub fn spread(&self) -> Fraction {
        let product = |product: Fraction, step: &Fraction| &product * step;
        self.steps.iter().fold(Fraction::ONE, product)
    }

    /// Which of two is to be preferred, which comes first then: that with more ranges; of as many, that whose steps vary less; then that of
    /// the larger spread; then the one whose nodes come earlier.
    pub fn preferred(&self, other: &Self) -> Ordering {
        let by_ranges = other.nodes.len().cmp(&self.nodes.len());
        by_ranges
            .then_with(|| self.variation.cmp(&other.variation))
            .then_with(|| other.spread().cmp(&self.spread()))
            .then_with(|| self.nodes.cmp(&other.nodes))
    }

    /// Whether two have the same ratios.
    pub fn sounds_like(&self, other: &Self, graph: &Graph) -> bool {
        let ranks = |chain: &Self| -> Vec<usize> {
            let nodes = chain.nodes.iter();
            nodes.map(|&node| graph.rank(node)).collect()
        };
        ranks(self) == ranks(other)
    }
}
