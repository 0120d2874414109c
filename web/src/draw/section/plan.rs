//! Placing and joining everything on the grid: the plan of a half-section.
//!
//! Members are routed one after another along cheapest ways, clutches and brakes are put where
//! their leads are cheapest. The result depends on the order, so a fixed number of shuffled
//! orders is tried and the cheapest plan kept; the shuffle is the same every time.

use std::collections::HashSet;

use levertrain_core::{Body, Train};

use super::board::{Board, Exploration, Way};
use super::dice::Dice;
use super::grid::{Grid, Node, SET_COLUMNS};
use super::parts::{Figure, Part, parts};

/// Orders tried. More find few better plans on trains of this size.
const ORDERS: usize = 64;
/// Work allowed, in nodes times orders, so that a large train opens as fast as a small one.
const WORK: usize = 60_000;

/// Where everything is on the grid.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The grid.
    pub grid: Grid,
    /// How each coupling is drawn.
    pub figures: Vec<Figure>,
    /// The members of the couplings.
    pub parts: Vec<Part>,
    /// For each shaft, the steps between neighbouring nodes that it runs along.
    pub runs: Vec<Vec<(Node, Node)>>,
    /// Where each element is.
    pub packs: Vec<PackPlace>,
    /// Where the input comes in and the output goes out.
    pub ends: [Node; 2],
    /// How many times members cross.
    pub crossings: usize,
    cost: u32,
}

/// Where an element is on the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PackPlace {
    /// A brake hangs from the housing over this column.
    Brake {
        /// The column.
        column: usize,
    },
    /// A clutch lies between two leads.
    Clutch {
        /// Column of the left lead; the right one is two further.
        column: usize,
        /// Row of both.
        row: usize,
        /// Whether the left lead is the element's second end.
        flipped: bool,
    },
}

#[derive(Debug, Clone, Copy)]
enum Task {
    /// Join all that belongs to a shaft.
    Shaft(usize),
    /// Place an element.
    Element(usize),
}

impl Plan {
    /// Plans the half-section of a train.
    pub fn of(train: &Train) -> Self {
        let scenario = train.scenario();
        let elements = scenario.elements.len();
        let shafts = scenario.shafts.len();
        let mut tasks: Vec<Task> = (0..shafts).map(Task::Shaft).collect();
        tasks.extend((0..elements).map(Task::Element));
        // A grid with more rows and columns always has room in the end.
        for room in 1.. {
            let grid = Grid {
                sets: scenario.couplings.len(),
                gap_columns: 7 + 3 * room,
                inner_rows: 3 + 2 * room,
                outer_rows: 2 + 2 * room,
            };
            let orders = (WORK / grid.nodes()).clamp(4, ORDERS);
            let mut dice = Dice::new();
            let mut best: Option<Self> = None;
            for order in 0..orders {
                if order > 0 {
                    dice.shuffle(&mut tasks);
                }
                let limit = best.as_ref().map_or(u32::MAX, |plan| plan.cost);
                let attempt = Attempt::new(train, grid, limit, &mut dice, order > 0);
                best = attempt.run(&tasks).or(best);
            }
            if let Some(best) = best {
                return best;
            }
        }
        unreachable!("the grid grows until everything has room")
    }
}

/// One order being tried.
struct Attempt<'a> {
    train: &'a Train,
    board: Board,
    plan: Plan,
    /// For each shaft, its pieces that are not joined yet, as sets of nodes.
    pieces: Vec<Vec<HashSet<Node>>>,
    packs: Vec<Option<PackPlace>>,
    /// The cost of the best plan so far: an attempt that reaches it is given up.
    limit: u32,
}

impl<'a> Attempt<'a> {
    /// Puts the gears down. With `vary`, some may be left on one side only, so that the orders
    /// tried differ in more than their order.
    fn new(train: &'a Train, grid: Grid, limit: u32, dice: &mut Dice, vary: bool) -> Self {
        let (figures, parts) = parts(train);
        let shafts = train.scenario().shafts.len();
        let mut board = Board::new(grid);
        let mut pieces = vec![Vec::new(); shafts];
        for set in 0..grid.sets {
            for row in grid.sun_row()..=grid.ring_row() {
                for column in 0..SET_COLUMNS {
                    board.wall(grid.node(grid.set_start(set) + column, row));
                }
            }
        }
        for part in &parts {
            let Body::Shaft(shaft) = part.body else {
                continue;
            };
            let nodes = part.nodes(&grid);
            let left_out = match if vary { dice.below(4) } else { 0 } {
                1 if nodes.len() > 1 => nodes.first(),
                2 if nodes.len() > 1 => nodes.last(),
                _ => None,
            };
            let kept = nodes.iter().filter(|&node| Some(node) != left_out);
            let nodes: HashSet<Node> = kept.copied().collect();
            nodes.iter().for_each(|&node| board.own(node, shaft));
            pieces[shaft].push(nodes);
        }
        let plan = Plan {
            grid,
            figures,
            parts,
            runs: vec![Vec::new(); shafts],
            packs: Vec::new(),
            ends: [0; 2],
            crossings: 0,
            cost: 0,
        };
        let packs = vec![None; train.scenario().elements.len()];
        Self {
            train,
            board,
            plan,
            pieces,
            packs,
            limit,
        }
    }

    fn run(mut self, tasks: &[Task]) -> Option<Plan> {
        for &task in tasks {
            match task {
                Task::Shaft(shaft) => self.join(shaft)?,
                Task::Element(element) => match self.train.ends(element) {
                    [_, Body::Housing] => self.hang_brake(element)?,
                    _ => self.fit_clutch(element)?,
                },
            }
        }
        // Elements placed after their shaft was joined may have started a piece of their own.
        for shaft in 0..self.pieces.len() {
            self.join_pieces(shaft)?;
        }
        self.plan.packs = self.packs.into_iter().collect::<Option<_>>()?;
        Some(self.plan)
    }

    fn sources(&self, shaft: usize) -> Vec<Node> {
        let mut nodes: Vec<Node> = self.pieces[shaft].iter().flatten().copied().collect();
        nodes.sort_unstable();
        nodes
    }

    /// Lays a shaft along a way; `None` when that makes the plan too dear.
    fn lay(&mut self, shaft: usize, way: &Way) -> Option<()> {
        let crossings = self.board.crossings(shaft, &way.nodes);
        self.plan.crossings += crossings;
        self.plan.cost += way.cost;
        self.board.lay(shaft, &way.nodes);
        self.plan.runs[shaft].extend(way.nodes.windows(2).map(|pair| (pair[0], pair[1])));
        let (touched, mut rest): (Vec<_>, Vec<_>) = std::mem::take(&mut self.pieces[shaft])
            .into_iter()
            .partition(|piece| way.nodes.iter().any(|node| piece.contains(node)));
        let mut joined: HashSet<Node> = way.nodes.iter().copied().collect();
        touched.into_iter().for_each(|piece| joined.extend(piece));
        rest.insert(0, joined);
        self.pieces[shaft] = rest;
        (self.plan.cost < self.limit).then_some(())
    }

    fn join(&mut self, shaft: usize) -> Option<()> {
        if shaft == self.train.input() {
            self.plan.ends[0] = self.reach_end(shaft, 0)?;
        }
        if shaft == self.train.output() {
            self.plan.ends[1] = self.reach_end(shaft, self.plan.grid.columns() - 1)?;
        }
        self.join_pieces(shaft)
    }

    fn join_pieces(&mut self, shaft: usize) -> Option<()> {
        while self.pieces[shaft].len() > 1 {
            let mut from: Vec<Node> = self.pieces[shaft][0].iter().copied().collect();
            from.sort_unstable();
            let found = self.board.explore(shaft, &from);
            let others = self.pieces[shaft][1..].iter().flatten();
            let (_, nearest) = others
                .filter_map(|&node| Some((found.cost(node)?, node)))
                .min()?;
            let way = found.way(nearest)?;
            self.lay(shaft, &way)?;
        }
        Some(())
    }

    /// Brings a shaft to the first or last column, near the axis where that is cheap.
    fn reach_end(&mut self, shaft: usize, column: usize) -> Option<Node> {
        let grid = self.plan.grid;
        let sources = self.sources(shaft);
        if sources.is_empty() {
            let node = (0..grid.inner_rows)
                .map(|row| grid.node(column, row))
                .find(|&node| self.board.is_empty(node))?;
            self.board.own(node, shaft);
            self.pieces[shaft].push(HashSet::from([node]));
            return Some(node);
        }
        let found = self.board.explore(shaft, &sources);
        // An end further out is worth a detour towards the axis.
        let away = |row: usize| 6 * row as u32;
        let (_, end) = (0..grid.brake_row())
            .map(|row| (row, grid.node(column, row)))
            .filter(|&(_, node)| self.board.may_end(shaft, node))
            .filter_map(|(row, node)| Some((found.cost(node)? + away(row), node)))
            .min()?;
        let way = found.way(end)?;
        self.lay(shaft, &way)?;
        Some(end)
    }

    fn hang_brake(&mut self, element: usize) -> Option<()> {
        let [Body::Shaft(shaft), _] = self.train.ends(element) else {
            return None;
        };
        let grid = self.plan.grid;
        let row = grid.brake_row();
        let taken: Vec<usize> = self
            .packs
            .iter()
            .flatten()
            .filter_map(PackPlace::brake_column)
            .collect();
        // Neighbouring brakes keep a column between them, and off the edges.
        let free = |column: &usize| taken.iter().all(|other| other.abs_diff(*column) > 1);
        let columns = (1..grid.columns() - 1).filter(free);
        let sources = self.sources(shaft);
        let column = if sources.is_empty() {
            let column = columns.into_iter().next()?;
            self.pieces[shaft].push(HashSet::from([grid.node(column, row)]));
            column
        } else {
            let found = self.board.explore(shaft, &sources);
            let (_, column) = columns
                .filter_map(|column| Some((found.cost(grid.node(column, row))?, column)))
                .min()?;
            let way = found.way(grid.node(column, row))?;
            self.lay(shaft, &way)?;
            column
        };
        self.board.own(grid.node(column, row), shaft);
        self.packs[element] = Some(PackPlace::Brake { column });
        Some(())
    }

    fn fit_clutch(&mut self, element: usize) -> Option<()> {
        let [Body::Shaft(first), Body::Shaft(second)] = self.train.ends(element) else {
            return None;
        };
        let grid = self.plan.grid;
        let reach = |shaft: usize| {
            let sources = self.sources(shaft);
            (!sources.is_empty()).then(|| self.board.explore(shaft, &sources))
        };
        let (from_first, from_second) = (reach(first), reach(second));
        let cost = |found: &Option<Exploration>, shaft: usize, node: Node| {
            if !self.board.may_end(shaft, node) {
                return None;
            }
            // A shaft with nothing placed yet starts here.
            found.as_ref().map_or(Some(0), |found| found.cost(node))
        };
        let mut best: Option<(u32, PackPlace)> = None;
        for gap in 0..=grid.sets {
            let start = grid.gap_start(gap);
            for row in [grid.low_row(), grid.high_row()] {
                // One column stays free at either side of the gap for leads that pass.
                for column in start + 1..start + grid.gap_columns - 3 {
                    let [left, body, right] = [0, 1, 2].map(|step| grid.node(column + step, row));
                    if ![left, body, right]
                        .iter()
                        .all(|&node| self.board.is_empty(node))
                    {
                        continue;
                    }
                    for flipped in [false, true] {
                        let (at_first, at_second) = if flipped {
                            (right, left)
                        } else {
                            (left, right)
                        };
                        let Some(total) = cost(&from_first, first, at_first)
                            .zip(cost(&from_second, second, at_second))
                            .map(|(a, b)| a + b)
                        else {
                            continue;
                        };
                        if best.is_none_or(|(least, _)| total < least) {
                            best = Some((
                                total,
                                PackPlace::Clutch {
                                    column,
                                    row,
                                    flipped,
                                },
                            ));
                        }
                    }
                }
            }
        }
        let (_, place) = best?;
        let PackPlace::Clutch {
            column,
            row,
            flipped,
        } = place
        else {
            return None;
        };
        self.board.wall(grid.node(column + 1, row));
        let (left, right) = if flipped {
            (second, first)
        } else {
            (first, second)
        };
        self.board.own(grid.node(column, row), left);
        self.board.own(grid.node(column + 2, row), right);
        self.lead(left, grid.node(column, row))?;
        self.lead(right, grid.node(column + 2, row))?;
        self.packs[element] = Some(place);
        Some(())
    }

    /// Leads a shaft to one side of a clutch.
    fn lead(&mut self, shaft: usize, node: Node) -> Option<()> {
        let sources = self.sources(shaft);
        if sources.is_empty() {
            self.pieces[shaft].push(HashSet::from([node]));
            return Some(());
        }
        let way = self.board.explore(shaft, &sources).way(node)?;
        self.lay(shaft, &way)
    }
}

impl PackPlace {
    fn brake_column(&self) -> Option<usize> {
        match *self {
            Self::Brake { column } => Some(column),
            Self::Clutch { .. } => None,
        }
    }
}
