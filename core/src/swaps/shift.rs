//! The shifts between named ranges.

use levertrain_exact::Fraction;

use super::graph::Graph;
use super::swap::Swap;
use crate::base::short_sort::sort_short_by_key;

/// A shift from one named range to another, both of which drive.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shift {
    /// The index of the range that it begins in.
    pub from: usize,
    /// That of the range that it leads to.
    pub to: usize,
    /// What is released and applied.
    pub swap: Swap,
    /// The ratio before over that after; nothing where they turn the output opposite ways.
    pub step: Option<Fraction>,
    /// Whether no other forward range has a ratio between the two; always where one drives backwards.
    pub is_next: bool,
}

impl Shift {
    /// All of them, in the order of the ranges; of r ranges at most r² − r.
    pub fn all(graph: &Graph) -> Vec<Self> {
        let mut named: Vec<(usize, usize)> = Vec::new();
        for (node, known) in graph.nodes().iter().enumerate() {
            named.extend(known.ranges.iter().map(|&range| (range, node)));
        }
        sort_short_by_key(&mut named, |&range| range);
        let mut shifts = Vec::new();
        for &(from, start) in &named {
            for &(to, end) in &named {
                if from == to {
                    continue;
                }
                let between = |&(_, node): &(usize, usize)| {
                    let rank = graph.rank(node);
                    let (first, last) = (graph.rank(start), graph.rank(end));
                    first.min(last) < rank && rank < first.max(last)
                };
                let ends = [start, end].map(|node| &graph.nodes()[node]);
                let both_forward = ends.iter().all(|node| node.is_forward());
                let step = ends[0].ratio.over(&ends[1].ratio);
                shifts.push(Self {
                    from,
                    to,
                    swap: graph.swap(start, end),
                    step: step.filter(|step| step.signum() > 0),
                    is_next: !both_forward || !named.iter().any(between),
                });
            }
        }
        shifts
    }
}
