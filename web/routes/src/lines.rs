//! What has been laid on the grid.

use crate::Node;

/// Who a line through a node belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Owner {
    /// There is none.
    Nobody,
    /// One of the members that are laid out.
    Member(u8),
    /// Nothing may come through.
    Wall,
}

/// The lines through each node.
#[derive(Debug, Clone)]
pub struct Lines {
    /// Owner of the line along the row (0) and of that across it (1).
    ways: [Vec<Owner>; 2],
    /// Nodes where nothing may be crossed.
    solid: Vec<bool>,
}

/// What is in a member's way at a node.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Obstacle(u8);

impl Obstacle {
    const SOLID: u8 = 4;

    /// Whether another's line runs along the row (0) or across it (1).
    pub(crate) const fn runs(self, way: usize) -> bool {
        self.0 & 1 << way != 0
    }

    pub(crate) const fn is_solid(self) -> bool {
        self.0 & Self::SOLID != 0
    }
}

impl Lines {
    /// A grid of so many nodes with nothing on it.
    #[inline(never)]
    pub fn none(nodes: usize) -> Self {
        Self {
            ways: [vec![Owner::Nobody; nodes], vec![Owner::Nobody; nodes]],
            solid: vec![false; nodes],
        }
    }

    /// The owners of the lines along and across the row at a node.
    pub fn owners(&self, node: Node) -> [Owner; 2] {
        [self.ways[0][node], self.ways[1][node]]
    }

    /// Whether nothing at all is at a node.
    pub fn is_empty(&self, node: Node) -> bool {
        self.owners(node) == [Owner::Nobody; 2]
    }

    /// Gives a line along the row (0) or across it (1) an owner.
    pub fn lay(&mut self, way: usize, node: Node, owner: Owner) {
        self.ways[way][node] = owner;
    }

    /// Gives a node to one owner alone.
    pub fn fill(&mut self, node: Node, owner: Owner) {
        self.ways[0][node] = owner;
        self.ways[1][node] = owner;
        self.solid[node] = true;
    }

    /// What is in a member's way. Not inlined: it is to stay as fast as this crate is compiled.
    #[inline(never)]
    pub(crate) fn obstacles(&self, member: u8) -> Vec<Obstacle> {
        let [along, across] = &self.ways;
        let foreign = |owner| owner != Owner::Nobody && owner != Owner::Member(member);
        let nodes = along.iter().zip(across).zip(&self.solid);
        let obstacle = |((&along, &across), &solid)| {
            let solid = if solid { Obstacle::SOLID } else { 0 };
            Obstacle(u8::from(foreign(along)) | u8::from(foreign(across)) << 1 | solid)
        };
        nodes.map(obstacle).collect()
    }
}
