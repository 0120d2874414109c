//! Rows of nodes that may still grow.

use std::cmp::Ordering;

use super::chain::Chain;
use super::graph::Graph;

/// Two numbers nearer to each other than this part of them are compared exactly. Rounding of the products of
/// some sixty factors, as they are compared here, stays below its millionth.
const NEAR: f64 = 1e-9;

/// Which of two numbers is the larger, where rounding cannot have changed that.
pub(super) fn far_apart(one: f64, other: f64) -> Option<Ordering> {
    let is_far = (one - other).abs() > NEAR * one.abs().max(other.abs());
    let is_known = one.is_finite() && other.is_finite();
    (is_known && is_far).then(|| one.total_cmp(&other))
}

/// A step from a node to one of a smaller ratio.
#[derive(Debug, Clone, Copy)]
pub(super) struct Link {
    pub from: usize,
    pub to: usize,
    /// Near the larger ratio over the smaller.
    pub step: f64,
}

/// A row that ends with a link: what it was before that, and about how much its steps vary.
#[derive(Debug, Clone, Copy)]
pub(super) struct Partial {
    /// Where it stood as it was one shorter: the link that it ended with, and its place among those.
    pub before: Option<(u32, u32)>,
    pub variation: f64,
}

/// The best rows of some length that end with each link, best first, no two with the same ratios.
type Layer = Vec<Vec<Partial>>;

/// All links, and the rows along them of every length so far.
#[derive(Debug)]
pub(super) struct Rows<'a> {
    pub graph: &'a Graph,
    pub links: Vec<Link>,
    /// The first holds rows of two nodes.
    pub layers: Vec<Layer>,
}

impl Rows<'_> {
    /// The nodes of a row of a layer that ends with a link.
    pub fn nodes(&self, layer: usize, link: usize, partial: Partial) -> Vec<usize> {
        let mut nodes = vec![self.links[link].to, self.links[link].from];
        let (mut layer, mut before) = (layer, partial.before);
        while let (Some((link, place)), Some(shorter)) = (before, layer.checked_sub(1)) {
            nodes.push(self.links[link as usize].from);
            before = self.layers[shorter][link as usize][place as usize].before;
            layer = shorter;
        }
        nodes.reverse();
        nodes
    }

    fn chain(&self, layer: usize, (link, partial): (usize, Partial)) -> Chain {
        Chain::of(self.graph, self.nodes(layer, link, partial))
    }

    /// Puts a row among the best of its length, of which at most `most` are kept; of those with the same ratios only
    /// the preferred one. Whether that may depend on more than what is far apart is decided exactly.
    pub fn put(
        &self,
        layer: usize,
        best: &mut Vec<(usize, Partial)>,
        row: (usize, Partial),
        most: usize,
    ) {
        let apart = |other: &(usize, Partial)| far_apart(row.1.variation, other.1.variation);
        if best.len() == most
            && let Some(last) = best.last()
            && apart(last) == Some(Ordering::Greater)
        {
            return;
        }
        if best.iter().all(|other| apart(other).is_some()) {
            let place = best.partition_point(|other| apart(other) == Some(Ordering::Greater));
            best.insert(place, row);
        } else {
            let own = self.chain(layer, row);
            let near = |other: &(usize, Partial)| apart(other).is_none();
            let alike = best.iter().position(|other| {
                near(other) && self.chain(layer, *other).sounds_like(&own, self.graph)
            });
            if let Some(alike) = alike {
                if self.chain(layer, best[alike]).nodes <= own.nodes {
                    return;
                }
                best.remove(alike);
            }
            let comes_before = |other: &(usize, Partial)| match apart(other) {
                Some(order) => order == Ordering::Greater,
                None => self.chain(layer, *other).preferred(&own) == Ordering::Less,
            };
            let place = best.partition_point(comes_before);
            best.insert(place, row);
        }
        best.truncate(most);
    }
}
