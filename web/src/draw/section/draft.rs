//! Placing and joining parts of a plan, one task after another.
//!
//! A draft begins with the gears, which never move, and what is kept of an earlier plan. Members
//! are routed along cheapest ways, clutches and brakes are put where their leads are cheapest.

use levertrain_core::{Body, Train};

use super::board::{Board, Exploration, Toll, Way};
use super::grid::{Node, SET_COLUMNS};
use super::plan::{PackPlace, member};
use super::search::{Sketch, Task};

/// A plan in the making.
pub struct Draft<'a> {
    train: &'a Train,
    board: Board,
    plan: Sketch,
    /// For each member, its pieces that are not joined yet.
    pieces: Vec<Vec<Vec<Node>>>,
    packs: Vec<Option<PackPlace>>,
    supports: Vec<Option<usize>>,
}

impl<'a> Draft<'a> {
    /// What is left of a plan when some tasks are to be done anew.
    pub fn without(
        plan: &Sketch,
        train: &'a Train,
        tolls: Vec<Toll>,
        anew: impl Fn(Task) -> bool,
    ) -> Self {
        let grid = plan.grid;
        let mut board = Board::new(grid, tolls);
        for set in 0..grid.sets {
            for row in grid.sun_row()..=grid.ring_row() {
                for column in 0..SET_COLUMNS {
                    board.wall(grid.node(grid.set_start(set) + column, row));
                }
            }
        }
        let members = plan.runs.len();
        let mut pieces: Vec<Vec<Vec<Node>>> = vec![Vec::new(); members];
        for part in &plan.parts {
            let nodes = part.nodes(&grid);
            let member = member(part.body, train);
            nodes.iter().for_each(|&node| board.own(node, member));
            pieces[member].push(nodes);
        }
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
            board,
            plan: Sketch {
                runs: vec![Vec::new(); members],
                ends: [None; 2],
                ..plan.clone()
            },
            pieces,
            packs,
            supports,
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
                draft.pieces[shaft].push(vec![node]);
            }
        }
        for member in 0..members {
            // The housing's runs are its supports.
            if !anew(Task::Shaft(member)) {
                draft.keep(member, &plan.runs[member]);
            }
        }
        draft
    }

    /// Gives a node that is a piece of its own to a member.
    fn hold(&mut self, member: usize, node: Node) {
        self.board.own(node, member);
        self.pieces[member].push(vec![node]);
    }

    /// Puts an element in its place, its leads unjoined.
    fn put(&mut self, element: usize, place: PackPlace) {
        let grid = self.plan.grid;
        let [first, second] = self.train.ends(element).map(|end| member(end, self.train));
        match place {
            PackPlace::Brake { column } => {
                let held = first.min(second);
                self.hold(held, grid.node(column, grid.brake_row()));
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
        let mut runs = runs.to_vec();
        let ends: Vec<Node> = self.pieces[member].iter().flatten().copied().collect();
        loop {
            let before = runs.len();
            let all = runs.clone();
            let leads_on = |node: Node| {
                let here = all.iter().filter(|(a, b)| *a == node || *b == node);
                here.count() > 1 || ends.contains(&node)
            };
            runs.retain(|&(a, b)| leads_on(a) && leads_on(b));
            if runs.len() == before {
                break;
            }
        }
        for &(a, b) in &runs {
            self.board.lay(member, &[a, b]);
            self.merge(member, vec![a, b]);
        }
        self.plan.runs[member] = runs;
    }

    /// Makes one piece of some nodes and all pieces they touch; it comes first.
    fn merge(&mut self, member: usize, mut nodes: Vec<Node>) {
        let pieces = std::mem::take(&mut self.pieces[member]);
        let (touched, mut rest): (Vec<_>, Vec<_>) = pieces
            .into_iter()
            .partition(|piece| nodes.iter().any(|node| piece.contains(node)));
        nodes.extend(touched.into_iter().flatten());
        nodes.sort_unstable();
        nodes.dedup();
        rest.insert(0, nodes);
        self.pieces[member] = rest;
    }

    /// Does tasks in their order; `None` where one finds no room.
    pub fn finish(mut self, tasks: &[Task]) -> Option<Sketch> {
        for &task in tasks {
            match task {
                Task::Shaft(shaft) => self.join(shaft)?,
                Task::Element(element) => match self.train.ends(element) {
                    [Body::Housing, _] | [_, Body::Housing] => self.hang_brake(element)?,
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
        Some(self.plan)
    }

    fn sources(&self, shaft: usize) -> Vec<Node> {
        let mut nodes: Vec<Node> = self.pieces[shaft].iter().flatten().copied().collect();
        nodes.sort_unstable();
        nodes
    }

    /// Lays a member along a way.
    fn lay(&mut self, member: usize, way: &Way) {
        self.board.lay(member, &way.nodes);
        self.plan.runs[member].extend(way.nodes.windows(2).map(|pair| (pair[0], pair[1])));
        self.merge(member, way.nodes.clone());
    }

    fn join(&mut self, shaft: usize) -> Option<()> {
        let last = self.plan.grid.columns() - 1;
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
            let mut goals = vec![false; self.plan.grid.nodes()];
            others.iter().flatten().for_each(|&node| goals[node] = true);
            let found = self.board.explore(shaft, first, &goals);
            let (_, nearest) = others
                .iter()
                .flatten()
                .filter_map(|&node| Some((found.cost(node)?, node)))
                .min()?;
            let way = found.way(nearest)?;
            self.lay(shaft, &way);
        }
        Some(())
    }

    /// Leads a member that is part of the housing up to it.
    fn support(&mut self, part: usize) -> Option<()> {
        let housing = self.pieces.len() - 1;
        let nodes = self.plan.parts[part].nodes(&self.plan.grid);
        let column = self.rise(housing, &nodes)?;
        self.supports[part] = Some(column);
        Some(())
    }

    /// Leads a member to the row that brakes hang on; the column where it arrives.
    fn rise(&mut self, member: usize, sources: &[Node]) -> Option<usize> {
        let grid = self.plan.grid;
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
        let free = |column: &usize| taken.iter().all(|other| other.abs_diff(*column) > 1);
        let mut columns = (1..grid.columns() - 1).filter(free);
        let column = if sources.is_empty() {
            columns.next()?
        } else {
            let ends: Vec<usize> = columns
                .filter(|&column| self.board.may_end(member, grid.node(column, row)))
                .collect();
            let mut goals = vec![false; grid.nodes()];
            ends.iter()
                .for_each(|&column| goals[grid.node(column, row)] = true);
            let found = self.board.explore(member, sources, &goals);
            let (_, column) = ends
                .into_iter()
                .filter_map(|column| Some((found.cost(grid.node(column, row))?, column)))
                .min()?;
            let way = found.way(grid.node(column, row))?;
            self.lay(member, &way);
            column
        };
        self.hold_at(member, grid.node(column, row));
        Some(column)
    }

    /// Gives a node at the end of a way to a member alone.
    fn hold_at(&mut self, member: usize, node: Node) {
        self.board.own(node, member);
        self.merge(member, vec![node]);
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
            self.pieces[shaft].push(vec![node]);
            return Some(node);
        }
        let found = self.board.explore(shaft, &sources, &[]);
        // An end further out is worth a detour towards the axis.
        let away = |row: usize| 6 * row as u32;
        let (_, end) = (0..grid.brake_row())
            .map(|row| (row, grid.node(column, row)))
            .filter(|&(_, node)| self.board.may_end(shaft, node))
            .filter_map(|(row, node)| Some((found.cost(node)? + away(row), node)))
            .min()?;
        let way = found.way(end)?;
        self.lay(shaft, &way);
        Some(end)
    }

    fn hang_brake(&mut self, element: usize) -> Option<()> {
        let [first, second] = self.train.ends(element).map(|end| member(end, self.train));
        let held = first.min(second);
        let column = self.rise(held, &self.sources(held))?;
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
            (!sources.is_empty()).then(|| self.board.explore(shaft, &sources, &[]))
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
                            .map(|(a, b)| a + b + self.board.toll_of_gap(gap))
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
        let PackPlace::Clutch { column, row, .. } = place else {
            return None;
        };
        let before = [first, second].map(|shaft| self.sources(shaft));
        self.put(element, place);
        let [left, right] = [column, column + 2].map(|column| grid.node(column, row));
        for (shaft, sources) in [first, second].into_iter().zip(before) {
            let own = [left, right]
                .into_iter()
                .find(|node| self.is_own(shaft, *node));
            if let Some(node) = own.filter(|_| !sources.is_empty()) {
                let way = self.board.explore(shaft, &sources, &[]).way(node)?;
                self.lay(shaft, &way);
            }
        }
        Some(())
    }

    fn is_own(&self, shaft: usize, node: Node) -> bool {
        self.pieces[shaft].iter().any(|piece| piece.contains(&node))
    }
}
