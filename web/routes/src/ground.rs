//! The grid, with what has been laid on it.

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

/// In place of what a step costs, which is never nothing.
pub const NO_WAY: u16 = 0;

/// A grid: what it costs to go about it, and the lines through each node.
#[derive(Debug, Clone)]
pub struct Ground {
    columns: usize,
    bend: u16,
    crossing: u16,
    /// No step costs more.
    dearest: u16,
    cells: Vec<Cell>,
}

/// All there is to know of a node, in one place: a search looks at nodes far apart.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cell {
    /// What a step along the row costs, and one across it to the next row, the same both ways.
    pub(crate) steps: [u16; 2],
    /// Owner of the line along the row and of that across it, as numbers.
    owners: [u8; 2],
    /// Whether nothing may be crossed.
    pub(crate) solid: bool,
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

impl Cell {
    /// Whether another's line runs along the row (0) or across it (1).
    pub(crate) fn foreign(&self, member: u8) -> [bool; 2] {
        self.owners.map(|owner| owner != NOBODY && owner != member)
    }
}

impl Ground {
    /// A grid of so many columns with nothing on it. A step from each node along its row costs the
    /// first, one along its column to the next row the other; [`NO_WAY`] where there is none.
    pub fn new(
        columns: usize,
        steps: impl Iterator<Item = [u16; 2]>,
        bend: u16,
        crossing: u16,
    ) -> Self {
        let cell = |steps| Cell {
            steps,
            owners: [NOBODY; 2],
            solid: false,
        };
        let cells: Vec<Cell> = steps.map(cell).collect();
        let costs = cells.iter().flat_map(|cell| cell.steps);
        Self {
            columns,
            bend,
            crossing,
            dearest: costs.max().unwrap_or(NO_WAY),
            cells,
        }
    }

    pub(crate) const fn columns(&self) -> usize {
        self.columns
    }

    pub(crate) const fn bend(&self) -> u32 {
        self.bend as u32
    }

    pub(crate) const fn crossing(&self) -> u32 {
        self.crossing as u32
    }

    /// What going on from a node costs at most.
    pub(crate) fn dearest(&self) -> u32 {
        u32::from(self.dearest) + self.bend() + self.crossing()
    }

    pub(crate) fn cells(&self) -> &[Cell] {
        &self.cells
    }

    /// Has a step from a node along its row cost more.
    pub fn toll(&mut self, node: Node, toll: u16) {
        let step = &mut self.cells[node].steps[0];
        *step += toll;
        self.dearest = self.dearest.max(*step);
    }

    /// Whether a step leads from a node along its row (0), or across it to the next one (1).
    pub fn leads(&self, node: Node, way: usize) -> bool {
        self.cells[node].steps[way] != NO_WAY
    }

    /// Has every step to a node and off it cost more.
    pub fn toll_about(&mut self, node: Node, toll: u16) {
        let west = node.checked_sub(1).map(|at| (at, 0));
        let south = node.checked_sub(self.columns).map(|at| (at, 1));
        for (at, way) in [Some((node, 0)), Some((node, 1)), west, south]
            .into_iter()
            .flatten()
        {
            let step = &mut self.cells[at].steps[way];
            if *step != NO_WAY {
                *step = step.saturating_add(toll);
                self.dearest = self.dearest.max(*step);
            }
        }
    }

    /// The owners of the lines along and across the row at a node.
    pub fn owners(&self, node: Node) -> [Owner; 2] {
        self.cells[node].owners.map(Owner::of)
    }

    /// Whether nothing at all is at a node.
    pub fn is_empty(&self, node: Node) -> bool {
        self.cells[node].owners == [NOBODY; 2]
    }

    /// Gives a line along the row (0) or across it (1) an owner.
    pub fn lay(&mut self, way: usize, node: Node, owner: Owner) {
        self.cells[node].owners[way] = owner.number();
    }

    /// Gives a node to one owner alone.
    pub fn fill(&mut self, node: Node, owner: Owner) {
        let cell = &mut self.cells[node];
        cell.owners = [owner.number(); 2];
        cell.solid = true;
    }

    /// The nodes where a line crosses another's.
    // Not inlined, as `Search::new`.
    #[inline(never)]
    pub fn crossings(&self) -> Vec<Node> {
        let crosses = |(node, cell): (Node, &Cell)| {
            let [along, across] = cell.owners;
            (along != across && along < WALL && across < WALL).then_some(node)
        };
        self.cells.iter().enumerate().filter_map(crosses).collect()
    }
}
