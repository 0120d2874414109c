//! A plan that is not whole yet, and what of it is tried another way.
//!
//! Some shafts and elements are taken away and put back in another order (large neighbourhood search;
//! P. Shaw, "Using constraint programming and local search methods to solve vehicle routing
//! problems", 1998), mostly such as cross. Room about the sets costs a toll as the dice fall, so that
//! shafts find other ways past them.

use std::rc::Rc;

use levertrain_core::coupling::Coupling;
use levertrain_core::{Body, Train};
use levertrain_routes::Nodes;

use super::board::{Board, Crossing, Toll};
use super::dice::Dice;
use super::grid::{Grid, Node, SET_COLUMNS};
use super::parts::{Figure, Part, parts};
use super::plan::{PackPlace, Plan, member};

/// Rounds of bettering a plan.
const ROUNDS: usize = 150;
/// Work allowed, in nodes times tasks times rounds: a large train opens nearly as fast as a small.
const WORK: usize = 2_000_000;

/// What never moves: the gears on their grid.
#[derive(Debug)]
pub struct Gears {
    pub grid: Grid,
    pub figures: Vec<Figure>,
    pub parts: Vec<Part>,
    /// The grid with nothing but the gears on it.
    pub board: Board,
    /// For each member, its gears' nodes.
    pub pieces: Vec<Vec<Nodes>>,
}

/// A plan in which something may be missing yet.
#[derive(Debug, Clone)]
pub struct Sketch {
    pub gears: Rc<Gears>,
    pub runs: Vec<Vec<(Node, Node)>>,
    pub packs: Vec<Option<PackPlace>>,
    pub ends: [Option<Node>; 2],
    /// For each part that is held to the housing, the column where it comes up to it.
    pub supports: Vec<Option<usize>>,
    pub crossings: Vec<Crossing>,
    /// What it costs; less is better.
    pub cost: u32,
}

/// Something to place or join.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Task {
    /// Join all that belongs to a shaft.
    Shaft(usize),
    /// Place an element.
    Element(usize),
    /// Hold a part to the housing.
    Support(usize),
}

/// The ways to put sets with two suns in, their own way first: each of the first few turned or not, unless
/// that was chosen.
pub fn ways_round(train: &Train) -> Vec<Vec<bool>> {
    const FEW: usize = 2;
    let couplings = &train.scenario().couplings;
    let chosen = couplings.iter().map(|coupling| coupling.facts().turned());
    let chosen: Vec<Option<bool>> = chosen.collect();
    let mut ways = vec![
        chosen
            .iter()
            .map(|way| way.unwrap_or(false))
            .collect::<Vec<_>>(),
    ];
    let suns = |coupling: &Coupling| {
        let members = coupling.facts().members();
        members.iter().filter(|member| member.role.is_sun()).count()
    };
    let of_two = (0..couplings.len()).filter(|&at| suns(&couplings[at]) == 2);
    let of_two = of_two.filter(|&at| chosen[at].is_none());
    for coupling in of_two.take(FEW) {
        for way in 0..ways.len() {
            let mut turned = ways[way].clone();
            turned[coupling] = true;
            ways.push(turned);
        }
    }
    ways
}

impl Gears {
    fn of(train: &Train, grid: Grid, turned: &[bool]) -> Self {
        let scenario = train.scenario();
        let mut board = Board::new(grid);
        for set in 0..grid.sets {
            for row in grid.sun_row()..=grid.ring_row() {
                for column in 0..SET_COLUMNS {
                    board.wall(grid.node(grid.set_start(set) + column, row));
                }
            }
        }
        let (figures, parts) = parts(train, turned);
        let mut pieces = vec![Vec::new(); scenario.shafts.len() + 1];
        for part in &parts {
            let nodes = part.nodes(&grid);
            let member = member(part.body, train);
            nodes.iter().for_each(|&node| board.own(node, member));
            pieces[member].push(Nodes::of(grid.nodes(), &nodes));
        }
        Self {
            grid,
            figures,
            parts,
            board,
            pieces,
        }
    }
}

impl Sketch {
    /// Nothing but the gears.
    pub fn bare(train: &Train, room: usize, turned: &[bool]) -> Self {
        let grid = Grid {
            sets: train.scenario().couplings.len(),
            gap_columns: 7 + 3 * room,
            inner_rows: 3 + 2 * room,
            outer_rows: 2 + 2 * room,
        };
        Self::on(train, grid, turned)
    }

    /// Nothing but the gears on a grid of any size.
    pub fn on(train: &Train, grid: Grid, turned: &[bool]) -> Self {
        let scenario = train.scenario();
        let gears = Gears::of(train, grid, turned);
        Self {
            supports: vec![None; gears.parts.len()],
            runs: vec![Vec::new(); gears.pieces.len()],
            gears: Rc::new(gears),
            packs: vec![None; scenario.elements.len()],
            ends: [None; 2],
            crossings: Vec::new(),
            cost: u32::MAX,
        }
    }

    /// The plan, once everything is there.
    pub fn whole(self) -> Option<Plan> {
        let [input, output] = self.ends;
        Some(Plan {
            grid: self.gears.grid,
            figures: self.gears.figures.clone(),
            parts: self.gears.parts.clone(),
            runs: self.runs,
            packs: self.packs.into_iter().collect::<Option<_>>()?,
            ends: [input?, output?],
            supports: self.supports.into_iter().flatten().collect(),
            crossings: self.crossings,
        })
    }

    /// How bad it is: what crosses counts before all else.
    pub fn badness(&self) -> (usize, u32) {
        (self.crossings.len(), self.cost)
    }

    /// Everything there is to do.
    pub fn tasks(&self) -> Vec<Task> {
        let held = |part: &usize| self.gears.parts[*part].body == Body::Housing;
        let shafts = (0..self.runs.len() - 1).map(Task::Shaft);
        let supports = (0..self.supports.len()).filter(held).map(Task::Support);
        shafts
            .chain((0..self.packs.len()).map(Task::Element))
            .chain(supports)
            .collect()
    }

    pub fn rounds(&self) -> usize {
        (WORK / (self.gears.grid.nodes() * self.tasks().len())).clamp(4, ROUNDS)
    }

    /// Tolls as the dice fall: none as often as not.
    pub fn tolls(&self, dice: &mut Dice) -> Vec<Toll> {
        const HIGH: u16 = 200;
        let any = dice.below(2) == 0;
        let mut toll = || if any && dice.below(2) == 0 { HIGH } else { 0 };
        let sets = 0..=self.gears.grid.sets;
        sets.map(|_| Toll {
            under: toll(),
            over: toll(),
            before: toll(),
        })
        .collect()
    }

    /// Some tasks to do anew: shafts that cross if any do, some others, and elements on them.
    pub fn taken_away(&self, train: &Train, all: &[Task], dice: &mut Dice) -> Vec<Task> {
        let shafts = self.runs.len() - 1;
        let mut chosen = vec![false; shafts + 1];
        let mut last = dice.below(shafts);
        if let Some(at) = self.crossings.len().checked_sub(1) {
            last = self.crossings[dice.below(at + 1)].members[dice.below(2)];
        }
        chosen[last] = true;
        for _ in 0..1 + dice.below(4) {
            // What it crosses, or is joined to by a clutch, is most likely in its way.
            let crossed = self.crossings.iter().map(|crossing| crossing.members);
            let joined =
                (0..self.packs.len()).map(|at| train.ends(at).map(|end| member(end, train)));
            let pairs = crossed.chain(joined);
            let near: Vec<usize> = pairs
                .filter_map(|[a, b]| match last {
                    _ if last == a => Some(b),
                    _ if last == b => Some(a),
                    _ => None,
                })
                .filter(|&near| near < shafts)
                .collect();
            last = match near.len() {
                count if count > 0 && dice.below(4) > 0 => near[dice.below(count)],
                _ => dice.below(shafts),
            };
            chosen[last] = true;
        }
        let anew = |task: &Task| match *task {
            Task::Shaft(shaft) => chosen[shaft],
            Task::Element(element) => {
                let on = train.ends(element).map(|end| chosen[member(end, train)]);
                dice.below(10) < if on.contains(&true) { 6 } else { 1 }
            }
            Task::Support(_) => chosen[shafts] || dice.below(4) == 0,
        };
        all.iter().copied().filter(anew).collect()
    }
}
