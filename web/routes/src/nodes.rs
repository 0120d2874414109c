//! Sets of nodes.

use crate::Node;

const BITS: usize = u64::BITS as usize;

/// Some of the nodes of a grid, a bit each: what is asked of them most takes a few words then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nodes(Vec<u64>);

impl Nodes {
    /// None of so many nodes.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn none(of: usize) -> Self {
        Self(vec![0; of.div_ceil(BITS)])
    }

    /// These of so many nodes.
    pub fn of(of: usize, nodes: &[Node]) -> Self {
        let mut all = Self::none(of);
        nodes.iter().for_each(|&node| all.add(node));
        all
    }

    /// Adds one.
    pub fn add(&mut self, node: Node) {
        self.0[node / BITS] |= 1 << (node % BITS);
    }

    /// Adds all that are in other ones of the same grid.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn take_in(&mut self, others: &Self) {
        for (word, other) in self.0.iter_mut().zip(&others.0) {
            *word |= other;
        }
    }

    /// Whether any is in other ones of the same grid, too.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn meet(&self, others: &Self) -> bool {
        self.0.iter().zip(&others.0).any(|(a, b)| a & b != 0)
    }

    /// Whether a node is among them.
    pub fn have(&self, node: Node) -> bool {
        self.0[node / BITS] & 1 << (node % BITS) != 0
    }

    /// Whether there is none.
    pub fn are_none(&self) -> bool {
        self.0.iter().all(|&word| word == 0)
    }

    /// All of them, in order.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn all(&self) -> Vec<Node> {
        let mut nodes = Vec::new();
        for (at, &word) in self.0.iter().enumerate() {
            let mut left = word;
            while left != 0 {
                nodes.push(at * BITS + left.trailing_zeros() as usize);
                left &= left - 1;
            }
        }
        nodes
    }
}
