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
    /// Owner of the line along the row and of that across it, as numbers.
    ways: Vec<[u8; 2]>,
    /// Nodes where nothing may be crossed.
    solid: Vec<bool>,
}

const NOBODY: u8 = u8::MAX;
const WALL: u8 = u8::MAX - 1;

impl Owner {
    const fn number(self) -> u8 {
        match self {
            Self::Nobody => NOBODY,
            Self::Wall => WALL,
            Self::Member(member) => member,
        }
    }

    const fn of(number: u8) -> Self {
        match number {
            NOBODY => Self::Nobody,
            WALL => Self::Wall,
            member => Self::Member(member),
        }
    }
}

impl Lines {
    /// A grid of so many nodes with nothing on it.
    pub fn none(nodes: usize) -> Self {
        Self {
            ways: vec![[NOBODY; 2]; nodes],
            solid: vec![false; nodes],
        }
    }

    /// How many nodes there are.
    pub(crate) const fn nodes(&self) -> usize {
        self.solid.len()
    }

    /// The owners of the lines along and across the row at a node.
    pub fn owners(&self, node: Node) -> [Owner; 2] {
        self.ways[node].map(Owner::of)
    }

    /// Whether nothing at all is at a node.
    pub fn is_empty(&self, node: Node) -> bool {
        self.ways[node] == [NOBODY; 2]
    }

    /// Gives a line along the row (0) or across it (1) an owner.
    pub fn lay(&mut self, way: usize, node: Node, owner: Owner) {
        self.ways[node][way] = owner.number();
    }

    /// Gives a node to one owner alone.
    pub fn fill(&mut self, node: Node, owner: Owner) {
        self.ways[node] = [owner.number(); 2];
        self.solid[node] = true;
    }

    /// Whether another's line runs along the row (0) or across it (1) at a node.
    pub(crate) fn foreign(&self, node: Node, member: u8) -> [bool; 2] {
        self.ways[node].map(|owner| owner != NOBODY && owner != member)
    }

    pub(crate) fn is_solid(&self, node: Node) -> bool {
        self.solid[node]
    }
}
