//! Who occupies what on the grid, and the cheapest way for a member to reach something.

use super::grid::{Grid, Node};

/// What a move along the grid costs, in arbitrary units. Crossing another member is worth a
/// long way round: in metal it is impossible.
const ALONG_GAP: u16 = 2;
const ALONG_SET: u16 = 6;
const ACROSS_TRACKS: u16 = 3;
const ACROSS_SETS: u16 = 6;
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
    tolls: Vec<Toll>,
    /// What a step from each node along its row costs, and one outwards along its column; none
    /// where there is no way.
    steps: [Vec<Option<u16>>; 2],
}

/// What it costs beyond the way to use the room about a set, so that ways differ: passing under it,
/// over it, and a clutch in the gap before it.
#[derive(Debug, Clone, Copy, Default)]
pub struct Toll {
    pub under: u16,
    pub over: u16,
    pub before: u16,
}

/// A way found.
#[derive(Debug, Clone)]
pub struct Way {
    /// Its nodes, from where it set off to what it reached.
    pub nodes: Vec<Node>,
}

/// A place where one member passes through another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crossing {
    /// Where.
    pub node: Node,
    /// The member that runs along the axis there, and the one across.
    pub members: [usize; 2],
}

/// How a node was reached: horizontally, vertically, or as a start.
const ARRIVALS: usize = 3;
const START: usize = 2;

impl Board {
    /// An empty board.
    pub fn new(grid: Grid, tolls: Vec<Toll>) -> Self {
        let ways = [
            vec![Owner::Nobody; grid.nodes()],
            vec![Owner::Nobody; grid.nodes()],
        ];
        let nodes = 0..grid.nodes();
        let along = |node: Node| {
            let column = grid.column(node);
            let toll = tolls
                .get(grid.set_at(column))
                .filter(|_| grid.in_set(column));
            let toll = toll.map_or(0, |toll| {
                if grid.row(node) < grid.sun_row() {
                    toll.under
                } else {
                    toll.over
                }
            });
            let on = column + 1 < grid.columns();
            on.then(|| move_cost(&grid, node, node + 1, true) + toll)
        };
        let across = |node: Node| {
            // Leads meet a gear at its ends or at its middle, not along its edges; and the shafts
            // that come in and go out run straight there.
            let column = grid.column(node);
            let at_end = column == 0 || column + 1 == grid.columns();
            let on = grid.row(node) < grid.brake_row() && !grid.is_set_edge(column) && !at_end;
            on.then(|| move_cost(&grid, node, node + grid.columns(), false))
        };
        Self {
            steps: [
                nodes.clone().map(along).collect(),
                nodes.map(across).collect(),
            ],
            grid,
            ways,
            solid: vec![false; grid.nodes()],
            tolls,
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

    /// Where two members cross: the one along the axis, the one across.
    pub fn all_crossings(&self) -> Vec<Crossing> {
        let crossing = |node: Node| match (self.ways[0][node], self.ways[1][node]) {
            (Owner::Member(along), Owner::Member(across)) if along != across => Some(Crossing {
                node,
                members: [along, across].map(usize::from),
            }),
            _ => None,
        };
        (0..self.grid.nodes()).filter_map(crossing).collect()
    }

    /// What a plan's lines cost; the way from the axis to an end counts, too.
    pub fn price(&self, runs: &[Vec<(Node, Node)>], crossings: &[Crossing]) -> u32 {
        let mut price = CROSSING * crossings.len() as u32;
        for run in runs {
            for (at, &(a, b)) in run.iter().enumerate() {
                let horizontal = self.grid.row(a) == self.grid.row(b);
                price += u32::from(move_cost(&self.grid, a, b, horizontal));
                let bends = run[at + 1..].iter().filter(|&&(c, d)| {
                    let meets = a == c || a == d || b == c || b == d;
                    meets && horizontal != (self.grid.row(c) == self.grid.row(d))
                });
                price += BEND * bends.count() as u32;
            }
        }
        price
    }

    fn foreign(&self, owner: Owner, member: usize) -> bool {
        !matches!(owner, Owner::Nobody) && owner != Owner::Member(member as u8)
    }

    /// What it costs to put a clutch in the gap before a set, or after the last.
    pub fn toll_of_gap(&self, gap: usize) -> u32 {
        u32::from(self.tolls[gap].before)
    }

    /// Least costs for `member` from any of `starts` to every node, up to the first that is a
    /// goal; no goals, no end (Dijkstra, with a bucket a cost; R. B. Dial, "Algorithm 360", Communications of the
    /// ACM 12, 1969).
    pub fn explore(&self, member: usize, starts: &[Node], goals: &[bool]) -> Exploration {
        let mut found = Exploration {
            costs: vec![u32::MAX; self.grid.nodes() * ARRIVALS],
            before: vec![u32::MAX; self.grid.nodes() * ARRIVALS],
        };
        let mut queue = Buckets::new();
        for &start in starts {
            found.costs[start * ARRIVALS + START] = 0;
            queue.push(0, start * ARRIVALS + START);
        }
        while let Some((cost, state)) = queue.pop() {
            if cost > found.costs[state] {
                continue;
            }
            if goals.get(state / ARRIVALS) == Some(&true) {
                break;
            }
            let (node, arrival) = (state / ARRIVALS, state % ARRIVALS);
            let width = self.grid.columns();
            let moves = [
                (0, Some(node), node + 1),
                (0, node.checked_sub(1), node.wrapping_sub(1)),
                (1, Some(node), node + width),
                (1, node.checked_sub(width), node.wrapping_sub(width)),
            ];
            for (way, step, next) in moves {
                let Some(step) = step.and_then(|from| self.steps[way][from]) else {
                    continue;
                };
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
                let total = cost + u32::from(step) + bend + crossing;
                let next_state = next * ARRIVALS + way;
                if total < found.costs[next_state] {
                    found.costs[next_state] = total;
                    found.before[next_state] = state as u32;
                    queue.push(total, next_state);
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

/// States by cost. No step costs as much as there are buckets, so each holds one cost at a time.
struct Buckets {
    /// The entry of each bucket that was put in last.
    last: [Option<u32>; Self::COUNT],
    /// States, each with the entry that was in its bucket before it.
    entries: Vec<(u32, Option<u32>)>,
    cost: usize,
    waiting: usize,
}

impl Buckets {
    const COUNT: usize = 512;

    const fn new() -> Self {
        Self {
            last: [None; Self::COUNT],
            entries: Vec::new(),
            cost: 0,
            waiting: 0,
        }
    }

    fn push(&mut self, cost: u32, state: usize) {
        let last = &mut self.last[cost as usize % Self::COUNT];
        self.entries.push((state as u32, *last));
        *last = Some(self.entries.len() as u32 - 1);
        self.waiting += 1;
    }

    /// One of the states of least cost.
    fn pop(&mut self) -> Option<(u32, usize)> {
        self.waiting = self.waiting.checked_sub(1)?;
        loop {
            let last = &mut self.last[self.cost % Self::COUNT];
            if let Some(entry) = *last {
                let (state, before) = self.entries[entry as usize];
                *last = before;
                return Some((self.cost as u32, state as usize));
            }
            self.cost += 1;
        }
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
        let mut nodes = vec![node];
        while self.before[state] != u32::MAX {
            state = self.before[state] as usize;
            nodes.push(state / ARRIVALS);
        }
        nodes.reverse();
        Some(Way { nodes })
    }
}
