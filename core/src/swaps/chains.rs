//! The best rows of ranges that a train could have.

use super::bounds::Bounds;
use super::chain::Chain;
use super::graph::Graph;
use super::partial::{Link, Partial, Rows};

/// How many rows are looked for.
pub const MOST_CHAINS: usize = 6;
/// How many rows may be looked at on the way: about a second's work, and less than 100 MB.
pub const MOST_WORK: usize = 3_000_000;

/// The best chains within bounds.
///
/// Most ranges come first, then steps that vary least: see [`Chain::preferred`], which leaves no two equal. Of those
/// with the same ratios there is only the first.
///
/// A longest way through a graph is hard to find in general. Here ratios fall, so that no way comes back, and the
/// ways grow one link a time: of those of n + 1 nodes that end with a link, the best end with the best ones of
/// n nodes that end with a link before it. How much the steps vary is multiplied by a factor that only these two
/// links decide, so that what is better stays better; and so do larger spread and earlier nodes. With the best k
/// ways of each link instead of one, the best k in all are found in the same way (derived; the principle of optimality
/// is R. Bellman, Dynamic Programming, 1957). The work is k times the pairs of links that meet in a node,
/// for each range: with n nodes of d links each way up to k·n·d² a range.
#[derive(Debug, Clone)]
pub struct Chains {
    /// Best first. Not more than [`MOST_CHAINS`], and all with as many ranges.
    pub chains: Vec<Chain>,
    /// Whether that is all of it: otherwise there was more to look at than [`MOST_WORK`], and nothing is told.
    pub is_complete: bool,
}

impl Chains {
    /// The best ones of a graph.
    pub fn best(graph: &Graph, bounds: &Bounds) -> Self {
        let too_much = Self {
            chains: Vec::new(),
            is_complete: false,
        };
        let Some(links) = links_of(graph, bounds) else {
            return too_much;
        };
        let mut into: Vec<Vec<usize>> = (0..graph.forward()).map(|_| Vec::new()).collect();
        for (index, link) in links.iter().enumerate() {
            into[link.to].push(index);
        }
        let alone = Partial {
            before: None,
            variation: 1.0,
        };
        let mut work = links.len();
        let mut rows = Rows {
            graph,
            layers: vec![vec![vec![alone]; links.len()]],
            links,
        };
        while rows.layers.len() + 1 < bounds.ranges {
            let Some(longer) = longer(&rows, &into, &mut work) else {
                return too_much;
            };
            if longer.iter().all(Vec::is_empty) {
                break;
            }
            rows.layers.push(longer);
        }
        Self {
            chains: last_of(&rows),
            is_complete: true,
        }
    }
}

/// The single swaps to a smaller ratio within bounds, both driving forwards; nothing where they are too many.
fn links_of(graph: &Graph, bounds: &Bounds) -> Option<Vec<Link>> {
    let forward = graph.forward();
    let ratios: Vec<f64> = graph.nodes()[..forward]
        .iter()
        .map(|node| node.ratio.to_f64())
        .collect();
    let mut links = Vec::new();
    for from in 0..forward {
        for to in graph.singles(from) {
            if to >= forward || graph.rank(to) <= graph.rank(from) {
                continue;
            }
            let [larger, smaller] = [from, to].map(|node| &graph.nodes()[node].ratio);
            let near = ratios[from] / ratios[to];
            if bounds.allow([larger, smaller], near) {
                // Ratios beyond what floating point holds can have a step within it.
                let step = match near.is_finite() {
                    true => near,
                    false => larger.over(smaller).map_or(1.0, |step| step.to_f64()),
                };
                links.push(Link { from, to, step });
            }
        }
        if links.len() > MOST_WORK / MOST_CHAINS {
            return None;
        }
    }
    Some(links)
}

/// The best rows that are one longer than those of the last layer; nothing where that is too much work.
fn longer(rows: &Rows<'_>, into: &[Vec<usize>], work: &mut usize) -> Option<Vec<Vec<Partial>>> {
    let last = rows.layers.last()?;
    let layer = rows.layers.len();
    let mut longer = Vec::with_capacity(rows.links.len());
    for (index, link) in rows.links.iter().enumerate() {
        let mut best = Vec::new();
        for &before in &into[link.from] {
            let [one, other] = [rows.links[before].step, link.step];
            let change = if one > other {
                one / other
            } else {
                other / one
            };
            for (place, shorter) in last[before].iter().enumerate() {
                let row = Partial {
                    before: Some((u32::try_from(before).ok()?, u32::try_from(place).ok()?)),
                    variation: shorter.variation * change,
                };
                rows.put(layer, &mut best, (index, row), MOST_CHAINS);
                *work += 1;
            }
        }
        if *work > MOST_WORK {
            return None;
        }
        longer.push(best.into_iter().map(|(_, row)| row).collect());
    }
    Some(longer)
}

/// The best of all rows of the last layer.
fn last_of(rows: &Rows<'_>) -> Vec<Chain> {
    let layer = rows.layers.len() - 1;
    let mut best = Vec::new();
    for (link, ending) in rows.layers[layer].iter().enumerate() {
        for row in ending {
            rows.put(layer, &mut best, (link, *row), MOST_CHAINS);
        }
    }
    let nodes = best.iter().map(|&(link, row)| rows.nodes(layer, link, row));
    nodes.map(|nodes| Chain::of(rows.graph, nodes)).collect()
}

#[cfg(test)]
mod tests {
    use levertrain_exact::Fraction;

    use super::*;
    use crate::base::element_set::ElementSet;
    use crate::swaps::graph::Node;

    /// All ways to apply six of twelve elements, as if all drove, each at a ratio of its own.
    fn crowded() -> Graph {
        let sets = (0..1_u32 << 12).filter(|bits| bits.count_ones() == 6);
        let node = |(index, bits): (i64, u32)| Node {
            applied: ElementSet::from_bits(bits),
            // Neighbours in the order of the bits are far apart.
            ratio: Fraction::new(1000 + index * 389 % 924, 1000).unwrap_or(Fraction::ONE),
            ranges: Vec::new(),
        };
        let nodes = (0_i64..).zip(sets).map(node).collect();
        Graph::of(nodes, ElementSet::from_bits(0b1111_1111_1111))
    }

    #[test]
    fn what_is_too_much_is_not_told_in_part() {
        let graph = crowded();
        let all = Chains::best(&graph, &Bounds::of_hundredths(101, 200, 32));
        assert!(!all.is_complete && all.chains.is_empty());
        // Larger steps leave fewer ways.
        let some = Chains::best(&graph, &Bounds::of_hundredths(130, 200, 32));
        assert!(some.is_complete && some.chains.len() == MOST_CHAINS);
    }
}
