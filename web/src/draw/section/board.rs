//! Who occupies what on the grid, and the cheapest way for a member to reach something.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::grid::{Grid, Node};

/// What a move along the grid costs, in arbitrary units. Crossing another member is worth a
/// long way round: in metal it is impossible.
const ALONG_GAP: u32 = 2;
const ALONG_SET: u32 = 6;
const ACROSS_TRACKS: u32 = 3;
const ACROSS_SETS: u32 = 6;
const BEND: u32 = 4;
const CROSSING: u32 = 300;

/// Who owns a node in one direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Owner {
    Nobody,
    Member(u8),
    Wall,
}

/// The grid with what has been placed on it.
#[derive(Debug, Clone)]
pub struct Board {
    grid: Grid,
    /// Owner of the horizontal and of the vertical way through each node.
    ways: [Vec<Owner>; 2],
    /// Nodes that nothing else may cross either: gears and plate packs.
    solid: Vec<bool>,
}

/// A way found.
#[derive(Debug, Clone)]
pub struct Way {
    /// Its nodes, from where it set off to what it reached.
    pub nodes: Vec<Node>,
    /// Its cost.
    pub cost: u32,
}

/// How a node was reached: horizontally, vertically, or as a start.
const ARRIVALS: usize = 3;
const START: usize = 2;

impl Board {
    /// An empty board.
    pub fn new(grid: Grid) -> Self {
        let ways = [
            vec![Owner::Nobody; grid.nodes()],
            vec![Owner::Nobody; grid.nodes()],
        ];
        Self {
            grid,
            ways,
            solid: vec![false; grid.nodes()],
        }
    }

    /// Lets nothing through a node.
    pub fn wall(&mut self, node: Node) {
        self.ways[0][node] = Owner::Wall;
        self.ways[1][node] = Owner::Wall;
        self.solid[node] = true;
    }

    /// Gives a node to a member alone.
    pub fn own(&mut self, node: Node, member: usize) {
        self.ways[0][node] = Owner::Member(member as u8);
        self.ways[1][node] = Owner::Member(member as u8);
        self.solid[node] = true;
    }

    /// Whether nothing at all is at a node.
    pub fn is_empty(&self, node: Node) -> bool {
        self.ways.iter().all(|way| way[node] == Owner::Nobody)
    }

    /// Lays a member along a way.
    pub fn lay(&mut self, member: usize, nodes: &[Node]) {
        for pair in nodes.windows(2) {
            let way = direction(self.grid.row(pair[0]) == self.grid.row(pair[1]));
            for &node in pair {
                self.ways[way][node] = Owner::Member(member as u8);
            }
        }
    }

    /// How many other members a way crosses.
    pub fn crossings(&self, member: usize, nodes: &[Node]) -> usize {
        let crosses = |node: Node, way: usize| self.foreign(self.ways[1 - way][node], member);
        nodes
            .windows(3)
            .filter(|triple| {
                let way = direction(self.grid.row(triple[0]) == self.grid.row(triple[1]));
                crosses(triple[1], way)
            })
            .count()
    }

    fn foreign(&self, owner: Owner, member: usize) -> bool {
        !matches!(owner, Owner::Nobody) && owner != Owner::Member(member as u8)
    }

    fn move_cost(&self, from: Node, to: Node, horizontal: bool) -> u32 {
        let grid = &self.grid;
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

    /// Least costs for `member` from any of `starts` to every node (Dijkstra).
    pub fn explore(&self, member: usize, starts: &[Node]) -> Exploration {
        let mut found = Exploration {
            costs: vec![u32::MAX; self.grid.nodes() * ARRIVALS],
            before: vec![u32::MAX; self.grid.nodes() * ARRIVALS],
        };
        let mut queue = BinaryHeap::new();
        for &start in starts {
            found.costs[start * ARRIVALS + START] = 0;
            queue.push(Reverse((0, start * ARRIVALS + START)));
        }
        while let Some(Reverse((cost, state))) = queue.pop() {
            if cost > found.costs[state] {
                continue;
            }
            let (node, arrival) = (state / ARRIVALS, state % ARRIVALS);
            for (next, horizontal) in self.grid.neighbours(node) {
                // Leads meet a gear at its ends or at its middle, not along its edges.
                if !horizontal && self.grid.is_set_edge(self.grid.column(node)) {
                    continue;
                }
                let way = direction(horizontal);
                let straight = arrival == way;
                let leaves_crossing = self.foreign(self.ways[1 - way][node], member);
                if self.foreign(self.ways[way][node], member)
                    || self.foreign(self.ways[way][next], member)
                    || (leaves_crossing && !straight)
                {
                    continue;
                }
                let crosses = self.foreign(self.ways[1 - way][next], member);
                if crosses && self.solid[next] {
                    continue;
                }
                let bend = if straight || arrival == START {
                    0
                } else {
                    BEND
                };
                let crossing = if crosses { CROSSING } else { 0 };
                let total = cost + self.move_cost(node, next, horizontal) + bend + crossing;
                let next_state = next * ARRIVALS + way;
                if total < found.costs[next_state] {
                    found.costs[next_state] = total;
                    found.before[next_state] = state as u32;
                    queue.push(Reverse((total, next_state)));
                }
            }
        }
        found
    }

    /// Whether a member may end or turn at a node.
    pub fn may_end(&self, member: usize, node: Node) -> bool {
        self.ways.iter().all(|way| !self.foreign(way[node], member))
    }
}

const fn direction(horizontal: bool) -> usize {
    if horizontal { 0 } else { 1 }
}

/// Least costs to every node.
pub struct Exploration {
    costs: Vec<u32>,
    before: Vec<u32>,
}

impl Exploration {
    /// Least cost of reaching a node; `None` where there is no way.
    pub fn cost(&self, node: Node) -> Option<u32> {
        self.best_state(node).map(|state| self.costs[state])
    }

    fn best_state(&self, node: Node) -> Option<usize> {
        (node * ARRIVALS..(node + 1) * ARRIVALS)
            .filter(|&state| self.costs[state] != u32::MAX)
            .min_by_key(|&state| self.costs[state])
    }

    /// The cheapest way to a node.
    pub fn way(&self, node: Node) -> Option<Way> {
        let mut state = self.best_state(node)?;
        let cost = self.costs[state];
        let mut nodes = vec![node];
        while self.before[state] != u32::MAX {
            state = self.before[state] as usize;
            nodes.push(state / ARRIVALS);
        }
        nodes.reverse();
        Some(Way { nodes, cost })
    }
}
