//! Who occupies what on the grid, and what it costs a member to go where.

use levertrain_routes::{Ground, NO_WAY, Nodes, Owner, Search};

use super::grid::{Grid, Node, SET_COLUMNS};

/// What a move along the grid costs, in arbitrary units. Crossing another member is worth a
/// long way round: in metal it is impossible.
const ALONG_GAP: u16 = 2;
const ALONG_SET: u16 = 6;
const ACROSS_TRACKS: u16 = 3;
const ACROSS_SETS: u16 = 6;
const BEND: u16 = 4;
const CROSSING: u16 = 300;

/// The grid with what has been placed on it.
#[derive(Debug, Clone)]
pub struct Board {
    grid: Grid,
    tolls: Vec<Toll>,
    ground: Ground,
}

/// What it costs beyond the way to use the room about a set, so that ways differ: passing under it,
/// over it, and a clutch in the gap before it.
#[derive(Debug, Clone, Copy, Default)]
pub struct Toll {
    pub under: u16,
    pub over: u16,
    pub before: u16,
}

/// A place where one member passes through another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crossing {
    /// Where.
    pub node: Node,
    /// The member that runs along the axis there, and the one across.
    pub members: [usize; 2],
}

impl Board {
    /// An empty board.
    pub fn new(grid: Grid) -> Self {
        let along = |node: Node| {
            if grid.column(node) + 1 < grid.columns() {
                move_cost(&grid, node, node + 1, true)
            } else {
                NO_WAY
            }
        };
        let across = |node: Node| {
            // Leads meet a gear at its ends or at its middle, not along its edges; and the shafts
            // that come in and go out run straight there.
            let column = grid.column(node);
            let at_end = column == 0 || column + 1 == grid.columns();
            if grid.row(node) < grid.brake_row() && !grid.is_set_edge(column) && !at_end {
                move_cost(&grid, node, node + grid.columns(), false)
            } else {
                NO_WAY
            }
        };
        let steps = (0..grid.nodes()).map(|node| [along(node), across(node)]);
        Self {
            ground: Ground::new(grid.columns(), steps, BEND, CROSSING),
            grid,
            tolls: vec![Toll::default(); grid.sets + 1],
        }
    }

    /// The same board where other tolls are due, one for each set and for the gap after the last.
    pub fn with_tolls(&self, tolls: Vec<Toll>) -> Self {
        let mut board = self.clone();
        let grid = self.grid;
        for (set, toll) in tolls.iter().enumerate().take(grid.sets) {
            for row in 0..grid.rows() {
                let toll = if row < grid.sun_row() {
                    toll.under
                } else {
                    toll.over
                };
                for column in 0..SET_COLUMNS {
                    board
                        .ground
                        .toll(grid.node(grid.set_start(set) + column, row), toll);
                }
            }
        }
        board.tolls = tolls;
        board
    }

    /// Lets nothing through a node.
    pub fn wall(&mut self, node: Node) {
        self.ground.fill(node, Owner::Wall);
    }

    /// Gives a node to a member alone.
    pub fn own(&mut self, node: Node, member: usize) {
        self.ground.fill(node, Owner::Member(member as u8));
    }

    /// Has every way through a node cost more.
    pub fn toll_about(&mut self, node: Node, toll: u16) {
        self.ground.toll_about(node, toll);
    }

    /// Whether a step leads from a node to a neighbour.
    pub fn leads(&self, from: Node, to: Node) -> bool {
        let way = direction(self.grid.row(from) == self.grid.row(to));
        self.ground.leads(from.min(to), way)
    }

    /// Whether nothing at all is at a node.
    pub fn is_empty(&self, node: Node) -> bool {
        self.ground.is_empty(node)
    }

    /// Lays a member along a way.
    pub fn lay(&mut self, member: usize, nodes: &[Node]) {
        for pair in nodes.windows(2) {
            let way = direction(self.grid.row(pair[0]) == self.grid.row(pair[1]));
            for &node in pair {
                self.ground.lay(way, node, Owner::Member(member as u8));
            }
        }
    }

    /// Where two members cross: the one along the axis, the one across.
    pub fn all_crossings(&self) -> Vec<Crossing> {
        let nodes = self.ground.crossings().into_iter();
        nodes
            .filter_map(|node| match self.ground.owners(node) {
                [Owner::Member(along), Owner::Member(across)] => Some(Crossing {
                    node,
                    members: [along, across].map(usize::from),
                }),
                _ => None,
            })
            .collect()
    }

    /// What a way costs that is laid, without tolls.
    pub fn price_of_way(&self, way: &[Node]) -> u32 {
        let mut price = 0;
        let mut before = None;
        for pair in way.windows(2) {
            let (step, horizontal) = self.step(pair[0], pair[1]);
            price += step;
            if before.is_some_and(|before| before != horizontal) {
                price += u32::from(BEND);
            }
            before = Some(horizontal);
        }
        let is_crossing = |&&node: &&Node| {
            let [along, across] = self.ground.owners(node);
            along != across && ![along, across].contains(&Owner::Nobody)
        };
        price + u32::from(CROSSING) * way.iter().filter(is_crossing).count() as u32
    }

    /// What a step costs, and whether it goes along its row.
    fn step(&self, from: Node, to: Node) -> (u32, bool) {
        let horizontal = self.grid.row(from) == self.grid.row(to);
        (
            move_cost(&self.grid, from, to, horizontal).into(),
            horizontal,
        )
    }

    /// What a plan's lines cost; the way from the axis to an end counts, too.
    pub fn price(&self, runs: &[Vec<(Node, Node)>], crossings: &[Crossing]) -> u32 {
        let mut price = u32::from(CROSSING) * crossings.len() as u32;
        // How many steps along and across its row meet at each node of a member's.
        let mut meeting = vec![[0_u32; 2]; self.grid.nodes()];
        for run in runs {
            for &(a, b) in run {
                let (step, horizontal) = self.step(a, b);
                price += step;
                for node in [a, b] {
                    meeting[node][direction(horizontal)] += 1;
                }
            }
            for node in run.iter().flat_map(|&(a, b)| [a, b]) {
                let [along, across] = std::mem::take(&mut meeting[node]);
                price += u32::from(BEND) * along * across;
            }
        }
        price
    }

    /// What it costs to put a clutch in the gap before a set, or after the last.
    pub fn toll_of_gap(&self, gap: usize) -> u32 {
        u32::from(self.tolls[gap].before)
    }

    /// Whether no tolls are due: then ways cost what they are found for.
    pub fn is_free(&self) -> bool {
        self.tolls
            .iter()
            .all(|toll| toll.under + toll.over + toll.before == 0)
    }

    /// A search for the cheapest ways of `member` from any of `starts`.
    pub fn search(&self, member: usize, starts: Nodes) -> Search<'_> {
        Search::new(&self.ground, member as u8, starts)
    }

    /// Whether a member may end or turn at a node.
    pub fn may_end(&self, member: usize, node: Node) -> bool {
        let own = Owner::Member(member as u8);
        let owners = self.ground.owners(node);
        owners
            .iter()
            .all(|&owner| owner == Owner::Nobody || owner == own)
    }
}

fn move_cost(grid: &Grid, from: Node, to: Node, horizontal: bool) -> u16 {
    if horizontal {
        let set = grid.in_set(grid.column(from)) || grid.in_set(grid.column(to));
        return if set { ALONG_SET } else { ALONG_GAP };
    }
    let sets = grid.sun_row()..=grid.ring_row();
    if sets.contains(&grid.row(from)) && sets.contains(&grid.row(to)) {
        ACROSS_SETS
    } else {
        ACROSS_TRACKS
    }
}

const fn direction(horizontal: bool) -> usize {
    if horizontal { 0 } else { 1 }
}
