//! Placing and joining parts of a plan, one task after another.
//!
//! A draft begins with the gears, which never move, and what is kept of an earlier plan. Members
//! are routed along cheapest ways, clutches and brakes are put where their leads are cheapest.

pub mod clutches;

use std::rc::Rc;

use levertrain_core::{Body, Train};
use levertrain_routes::Nodes;

use super::board::{Board, Toll};
use super::grid::Node;
use super::plan::{PackPlace, member};
use super::search::{Sketch, Task};

/// A plan in the making.
pub struct Draft<'a> {
    train: &'a Train,
    before: &'a Sketch,
    board: Board,
    plan: Sketch,
    /// For each member, its pieces that are not joined yet.
    pieces: Vec<Vec<Nodes>>,
    packs: Vec<Option<PackPlace>>,
    supports: Vec<Option<usize>>,
    /// What it costs at least, by the lines that are kept or laid and what they cross.
    cost: u32,
    /// What it may cost at most.
    dearest: u32,
}

impl<'a> Draft<'a> {
    /// What is left of a plan when some tasks are to be done anew.
    pub fn without(
        plan: &'a Sketch,
        train: &'a Train,
        tolls: Vec<Toll>,
        anew: impl Fn(Task) -> bool,
    ) -> Self {
        let grid = plan.gears.grid;
        let members = plan.runs.len();
        let packs: Vec<Option<PackPlace>> = plan
            .packs
            .iter()
            .enumerate()
            .map(|(element, place)| place.filter(|_| !anew(Task::Element(element))))
            .collect();
        let supports: Vec<Option<usize>> = plan
            .supports
            .iter()
            .enumerate()
            .map(|(part, place)| place.filter(|_| !anew(Task::Support(part))))
            .collect();
        let mut draft = Self {
            train,
            before: plan,
            board: plan.gears.board.with_tolls(tolls),
            pieces: plan.gears.pieces.clone(),
            plan: Sketch {
                gears: Rc::clone(&plan.gears),
                runs: vec![Vec::new(); members],
                packs: Vec::new(),
                ends: [None; 2],
                supports: Vec::new(),
                crossings: Vec::new(),
                cost: u32::MAX,
            },
            packs,
            supports,
            cost: 0,
            dearest: u32::MAX,
        };
        for element in 0..draft.packs.len() {
            if let Some(place) = draft.packs[element] {
                draft.put(element, place);
            }
        }
        for column in draft.supports.clone().into_iter().flatten() {
            draft.hold(members - 1, grid.node(column, grid.brake_row()));
        }
        for (end, shaft) in [train.input(), train.output()].into_iter().enumerate() {
            if let Some(node) = plan.ends[end].filter(|_| !anew(Task::Shaft(shaft))) {
                draft.plan.ends[end] = Some(node);
                draft.add(shaft, node);
            }
        }
        for member in 0..members {
            // The housing's runs are its supports.
            if !anew(Task::Shaft(member)) {
                draft.keep(member, &plan.runs[member]);
            }
        }
        let crossings = draft.board.all_crossings();
        draft.cost = draft.board.price(&draft.plan.runs, &crossings);
        draft
    }

    /// Gives a node that is a piece of its own to a member.
    fn hold(&mut self, member: usize, node: Node) {
        self.board.own(node, member);
        self.add(member, node);
    }

    /// Adds a node as a piece of its own.
    fn add(&mut self, member: usize, node: Node) {
        let piece = self.nodes(&[node]);
        self.pieces[member].push(piece);
    }

    fn nodes(&self, nodes: &[Node]) -> Nodes {
        Nodes::of(self.plan.gears.grid.nodes(), nodes)
    }

    /// Puts an element in its place, its leads unjoined.
    fn put(&mut self, element: usize, place: PackPlace) {
        let grid = self.plan.gears.grid;
        let [first, second] = self.train.ends(element).map(|end| member(end, self.train));
        match place {
            PackPlace::Brake { column } => {
                self.hold(first, grid.node(column, grid.brake_row()));
            }
            PackPlace::Clutch {
                column,
                row,
                flipped,
            } => {
                self.board.wall(grid.node(column + 1, row));
                let (left, right) = if flipped {
                    (second, first)
                } else {
                    (first, second)
                };
                self.hold(left, grid.node(column, row));
                self.hold(right, grid.node(column + 2, row));
            }
        }
        self.packs[element] = Some(place);
    }

    /// Keeps a member's runs, but for what leads to nothing any more.
    fn keep(&mut self, member: usize, runs: &[(Node, Node)]) {
        let runs = self.without_loose_ends(member, runs);
        for way in runs.chunk_by(|before, next| before.1 == next.0) {
            let way: Vec<Node> = way[..1]
                .iter()
                .map(|step| step.0)
                .chain(way.iter().map(|step| step.1))
                .collect();
            self.board.lay(member, &way);
            self.merge(member, self.nodes(&way));
        }
        self.plan.runs[member] = runs;
    }

    /// The steps of a member's runs that lead on at both ends.
    fn without_loose_ends(&self, member: usize, runs: &[(Node, Node)]) -> Vec<(Node, Node)> {
        let ends = self.sources(member);
        // For each node how many steps are left there, and their indices, of which one is left in
        // the end, combined.
        let mut left = vec![(0_u32, 0); self.plan.gears.grid.nodes()];
        for (step, &(a, b)) in runs.iter().enumerate() {
            for node in [a, b] {
                left[node].0 += 1;
                left[node].1 ^= step;
            }
        }
        let mut is_left = vec![true; runs.len()];
        for mut node in runs.iter().flat_map(|&(a, b)| [a, b]) {
            while left[node].0 == 1 && !ends.have(node) {
                let step = left[node].1;
                is_left[step] = false;
                let (a, b) = runs[step];
                for node in [a, b] {
                    left[node].0 -= 1;
                    left[node].1 ^= step;
                }
                node = a + b - node;
            }
        }
        let steps = runs.iter().zip(is_left);
        steps
            .filter(|(_, is_left)| *is_left)
            .map(|(&step, _)| step)
            .collect()
    }

    /// Makes one piece of some nodes and all pieces they touch; it comes first.
    fn merge(&mut self, member: usize, mut nodes: Nodes) {
        let way = nodes.clone();
        self.pieces[member].retain(|piece| {
            let touches = piece.meet(&way);
            if touches {
                nodes.take_in(piece);
            }
            !touches
        });
        self.pieces[member].insert(0, nodes);
    }

    /// Does tasks in their order; `None` where one finds no room, or all cost more than `dearest`.
    pub fn finish(mut self, tasks: &[Task], dearest: u32) -> Option<Sketch> {
        self.dearest = dearest;
        for &task in tasks {
            if self.cost > dearest {
                return None;
            }
            match task {
                Task::Shaft(shaft) => self.join(shaft)?,
                Task::Element(element) => match self.train.ends(element) {
                    // A brake that lies within a carrier stays there: outside, it was in the way.
                    [Body::Shaft(shaft), Body::Housing] if !self.lay_flat(element) => {
                        self.hang_brake(element, shaft)?;
                    }
                    _ => self.fit_clutch(element)?,
                },
                Task::Support(part) => self.support(part)?,
            }
        }
        // Elements placed after their shaft was joined may have started a piece of their own.
        let shafts = self.pieces.len() - 1;
        for shaft in 0..shafts {
            self.join_pieces(shaft)?;
        }
        self.plan.packs = self.packs;
        self.plan.supports = self.supports;
        self.plan.crossings = self.board.all_crossings();
        self.plan.cost = self.board.price(&self.plan.runs, &self.plan.crossings);
        (self.plan.cost <= dearest).then_some(self.plan)
    }

    /// Whether an element lay between two leads in the plan before.
    fn lay_flat(&self, element: usize) -> bool {
        self.before.packs[element].is_some_and(|place| place.is_flat())
    }

    /// All that belongs to a member.
    fn sources(&self, member: usize) -> Nodes {
        let mut nodes = self.nodes(&[]);
        self.pieces[member]
            .iter()
            .for_each(|piece| nodes.take_in(piece));
        nodes
    }

    /// How much more it may cost; anything, where ways cost less than they are found for.
    fn left(&self) -> u32 {
        match self.board.is_free() {
            true => self.dearest.saturating_sub(self.cost),
            false => u32::MAX,
        }
    }

    /// Lays a member along a way; `None` where the draft costs too much then.
    fn lay(&mut self, member: usize, way: Vec<Node>) -> Option<()> {
        self.board.lay(member, &way);
        self.cost += self.board.price_of_way(&way);
        self.plan.runs[member].extend(way.windows(2).map(|pair| (pair[0], pair[1])));
        self.merge(member, self.nodes(&way));
        (self.cost <= self.dearest).then_some(())
    }

    fn join(&mut self, shaft: usize) -> Option<()> {
        let last = self.plan.gears.grid.columns() - 1;
        for (end, own, column) in [(0, self.train.input(), 0), (1, self.train.output(), last)] {
            if shaft == own && self.plan.ends[end].is_none() {
                self.plan.ends[end] = Some(self.reach_end(shaft, column)?);
            }
        }
        self.join_pieces(shaft)
    }

    fn join_pieces(&mut self, shaft: usize) -> Option<()> {
        while self.pieces[shaft].len() > 1 {
            let (first, others) = self.pieces[shaft].split_first()?;
            let mut goals = self.nodes(&[]);
            others.iter().for_each(|other| goals.take_in(other));
            let mut found = self.board.search(shaft, first.clone());
            found.spread_to(&goals, self.left());
            let (_, nearest) = goals
                .all()
                .into_iter()
                .filter_map(|node| Some((found.cost(node)?, node)))
                .min()?;
            let way = found.way(nearest)?;
            self.lay(shaft, way)?;
        }
        Some(())
    }

    /// Leads a member that is part of the housing up to it.
    fn support(&mut self, part: usize) -> Option<()> {
        let housing = self.pieces.len() - 1;
        let nodes = self.plan.gears.parts[part].nodes(&self.plan.gears.grid);
        let nodes = self.nodes(&nodes);
        let column = self.rise(housing, &nodes, None)?;
        self.supports[part] = Some(column);
        Some(())
    }

    /// The gap that an element was put in by choice.
    fn chosen_gap(&self, element: usize) -> Option<u32> {
        self.train.scenario().elements[element].gap()
    }

    /// Leads a member to the row that brakes hang on; the column where it arrives, in this gap where there
    /// is one.
    fn rise(&mut self, member: usize, sources: &Nodes, gap: Option<u32>) -> Option<usize> {
        let grid = self.plan.gears.grid;
        let row = grid.brake_row();
        let brakes = self
            .packs
            .iter()
            .flatten()
            .filter_map(PackPlace::brake_column);
        let taken: Vec<usize> = brakes
            .chain(self.supports.iter().flatten().copied())
            .collect();
        // Neighbours keep a column between them, and off the edges.
        let within = gap.map_or(0..grid.columns(), |gap| {
            let start = grid.gap_start(gap as usize);
            start..start + grid.gap_columns
        });
        let free = |column: &usize| {
            within.contains(column) && taken.iter().all(|other| other.abs_diff(*column) > 1)
        };
        let mut columns = (1..grid.columns() - 1).filter(free);
        let column = if sources.are_none() {
            columns.next()?
        } else {
            let ends: Vec<usize> = columns
                .filter(|&column| self.board.may_end(member, grid.node(column, row)))
                .collect();
            let goals: Vec<Node> = ends.iter().map(|&column| grid.node(column, row)).collect();
            let goals = self.nodes(&goals);
            let mut found = self.board.search(member, sources.clone());
            found.spread_to(&goals, self.left());
            let (_, column) = ends
                .into_iter()
                .filter_map(|column| Some((found.cost(grid.node(column, row))?, column)))
                .min()?;
            let way = found.way(grid.node(column, row))?;
            self.lay(member, way)?;
            column
        };
        self.hold_at(member, grid.node(column, row));
        Some(column)
    }

    /// Gives a node at the end of a way to a member alone.
    fn hold_at(&mut self, member: usize, node: Node) {
        self.board.own(node, member);
        self.merge(member, self.nodes(&[node]));
    }

    /// Brings a shaft to the first or last column, near the axis where that is cheap.
    fn reach_end(&mut self, shaft: usize, column: usize) -> Option<Node> {
        let grid = self.plan.gears.grid;
        let sources = self.sources(shaft);
        if sources.are_none() {
            let node = (0..grid.inner_rows)
                .map(|row| grid.node(column, row))
                .find(|&node| self.board.is_empty(node))?;
            self.board.own(node, shaft);
            self.add(shaft, node);
            return Some(node);
        }
        // An end further out is worth a detour towards the axis.
        let away = |row: usize| 6 * row as u32;
        let ends: Vec<(usize, Node)> = (0..grid.brake_row())
            .map(|row| (row, grid.node(column, row)))
            .filter(|&(_, node)| self.board.may_end(shaft, node))
            .collect();
        let way = {
            let mut found = self.board.search(shaft, sources);
            let end = cheapest(u32::MAX, |most| {
                found.spread(most);
                let costs = ends
                    .iter()
                    .filter_map(|&(row, node)| Some((found.cost(node)? + away(row), node)));
                costs.min()
            })?;
            found.way(end)?
        };
        let end = *way.last()?;
        self.lay(shaft, way)?;
        Some(end)
    }

    fn hang_brake(&mut self, element: usize, held: usize) -> Option<()> {
        let column = self.rise(held, &self.sources(held), self.chosen_gap(element))?;
        self.packs[element] = Some(PackPlace::Brake { column });
        Some(())
    }
}

/// The cheapest thing there is, by what is known once everything within a cost has been found: what
/// costs no more is known exactly then. Perhaps nothing where all cost more than `left`.
fn cheapest<T>(left: u32, mut within: impl FnMut(u32) -> Option<(u32, T)>) -> Option<T> {
    const FIRST: u32 = 40;
    let mut most = FIRST;
    loop {
        match within(most) {
            Some((cost, thing)) if cost <= most => return Some(thing),
            _ if most > left => return None,
            // What was found with a dearer way is no dearer than that.
            Some((cost, _)) if most < u32::MAX / 2 => most = cost.min(2 * most),
            None if most < u32::MAX / 2 => most *= 2,
            found => return found.map(|(_, thing)| thing),
        }
    }
}
