//! Placing and joining parts of a plan, one task after another.
//!
//! A draft begins with the gears, which never move, and what is kept of an earlier plan. Members
//! are routed along cheapest ways, clutches and brakes are put where their leads are cheapest.

use std::rc::Rc;

use levertrain_core::short_sort::sort_short_by_key;
use levertrain_core::{Body, Train};

use super::board::{Board, Toll};
use super::grid::Node;
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
    /// What it costs at least, by the lines that are kept or laid and what they cross.
    cost: u32,
}

impl<'a> Draft<'a> {
    /// What is left of a plan when some tasks are to be done anew.
    pub fn without(
        plan: &Sketch,
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
        let crossings = draft.board.all_crossings();
        draft.cost = draft.board.price(&draft.plan.runs, &crossings);
        draft
    }

    /// Gives a node that is a piece of its own to a member.
    fn hold(&mut self, member: usize, node: Node) {
        self.board.own(node, member);
        self.pieces[member].push(vec![node]);
    }

    /// Puts an element in its place, its leads unjoined.
    fn put(&mut self, element: usize, place: PackPlace) {
        let grid = self.plan.gears.grid;
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
        sort_short_by_key(&mut nodes, |&node| node);
        nodes.dedup();
        rest.insert(0, nodes);
        self.pieces[member] = rest;
    }

    /// Does tasks in their order; `None` where one finds no room, or all cost more than `dearest`.
    pub fn finish(mut self, tasks: &[Task], dearest: u32) -> Option<Sketch> {
        for &task in tasks {
            if self.cost > dearest {
                return None;
            }
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
        (self.plan.cost <= dearest).then_some(self.plan)
    }

    fn sources(&self, shaft: usize) -> Vec<Node> {
        let mut nodes: Vec<Node> = self.pieces[shaft].iter().flatten().copied().collect();
        sort_short_by_key(&mut nodes, |&node| node);
        nodes
    }

    /// Lays a member along a way.
    fn lay(&mut self, member: usize, way: Vec<Node>) {
        self.board.lay(member, &way);
        self.cost += self.board.crossed(&way);
        self.plan.runs[member].extend(way.windows(2).map(|pair| (pair[0], pair[1])));
        self.merge(member, way);
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
            let mut goals = vec![false; self.plan.gears.grid.nodes()];
            others.iter().flatten().for_each(|&node| goals[node] = true);
            let mut found = self.board.search(shaft, first);
            found.spread_to(&goals);
            let (_, nearest) = others
                .iter()
                .flatten()
                .filter_map(|&node| Some((found.cost(node)?, node)))
                .min()?;
            let way = found.way(nearest)?;
            self.lay(shaft, way);
        }
        Some(())
    }

    /// Leads a member that is part of the housing up to it.
    fn support(&mut self, part: usize) -> Option<()> {
        let housing = self.pieces.len() - 1;
        let nodes = self.plan.gears.parts[part].nodes(&self.plan.gears.grid);
        let column = self.rise(housing, &nodes)?;
        self.supports[part] = Some(column);
        Some(())
    }

    /// Leads a member to the row that brakes hang on; the column where it arrives.
    fn rise(&mut self, member: usize, sources: &[Node]) -> Option<usize> {
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
            let mut found = self.board.search(member, sources);
            found.spread_to(&goals);
            let (_, column) = ends
                .into_iter()
                .filter_map(|column| Some((found.cost(grid.node(column, row))?, column)))
                .min()?;
            let way = found.way(grid.node(column, row))?;
            self.lay(member, way);
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
        let grid = self.plan.gears.grid;
        let sources = self.sources(shaft);
        if sources.is_empty() {
            let node = (0..grid.inner_rows)
                .map(|row| grid.node(column, row))
                .find(|&node| self.board.is_empty(node))?;
            self.board.own(node, shaft);
            self.pieces[shaft].push(vec![node]);
            return Some(node);
        }
        // An end further out is worth a detour towards the axis.
        let away = |row: usize| 6 * row as u32;
        let ends: Vec<(usize, Node)> = (0..grid.brake_row())
            .map(|row| (row, grid.node(column, row)))
            .filter(|&(_, node)| self.board.may_end(shaft, node))
            .collect();
        let way = {
            let mut found = self.board.search(shaft, &sources);
            let end = cheapest(|most| {
                found.spread(most);
                let costs = ends
                    .iter()
                    .filter_map(|&(row, node)| Some((found.cost(node)? + away(row), node)));
                costs.min()
            })?;
            found.way(end)?
        };
        let end = *way.last()?;
        self.lay(shaft, way);
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
        let grid = self.plan.gears.grid;
        let reach = |shaft: usize| {
            let sources = self.sources(shaft);
            (!sources.is_empty()).then(|| self.board.search(shaft, &sources))
        };
        let mut from = [first, second].map(reach);
        let places = self.clutch_places();
        let place = cheapest(|most| {
            for found in from.iter_mut().flatten() {
                found.spread(most);
            }
            // A shaft with nothing placed yet starts here.
            let cost = |end: usize, node: Node| match &from[end] {
                Some(found) => found.cost(node),
                None => Some(0),
            };
            let costs = places.iter().filter_map(|&(toll, ends, place)| {
                Some((cost(0, ends[0])? + cost(1, ends[1])? + toll, place))
            });
            costs.min_by_key(|&(cost, _)| cost)
        })?;
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
                let mut goals = vec![false; grid.nodes()];
                goals[node] = true;
                let mut found = self.board.search(shaft, &sources);
                found.spread_to(&goals);
                let way = found.way(node)?;
                self.lay(shaft, way);
            }
        }
        Some(())
    }

    /// Where a clutch may lie: what that costs beside the leads, the nodes where
    /// they end, and the place.
    fn clutch_places(&self) -> Vec<(u32, [Node; 2], PackPlace)> {
        let grid = self.plan.gears.grid;
        let mut places = Vec::new();
        for gap in 0..=grid.sets {
            let start = grid.gap_start(gap);
            let toll = self.board.toll_of_gap(gap);
            for row in [grid.low_row(), grid.high_row()] {
                // One column stays free at either side of the gap for leads that pass.
                for column in start + 1..start + grid.gap_columns - 3 {
                    let nodes = [0, 1, 2].map(|step| grid.node(column + step, row));
                    if !nodes.iter().all(|&node| self.board.is_empty(node)) {
                        continue;
                    }
                    let [left, _, right] = nodes;
                    for (flipped, ends) in [(false, [left, right]), (true, [right, left])] {
                        let place = PackPlace::Clutch {
                            column,
                            row,
                            flipped,
                        };
                        places.push((toll, ends, place));
                    }
                }
            }
        }
        places
    }

    fn is_own(&self, shaft: usize, node: Node) -> bool {
        self.pieces[shaft].iter().any(|piece| piece.contains(&node))
    }
}

/// The cheapest thing there is, by what is known once everything within a cost has been found: what
/// costs no more is known exactly then.
fn cheapest<T>(mut within: impl FnMut(u32) -> Option<(u32, T)>) -> Option<T> {
    const FIRST: u32 = 40;
    let mut most = FIRST;
    loop {
        match within(most) {
            Some((cost, thing)) if cost <= most => return Some(thing),
            // What was found with a dearer way is no dearer than that.
            Some((cost, _)) if most < u32::MAX / 2 => most = cost.min(2 * most),
            None if most < u32::MAX / 2 => most *= 2,
            found => return found.map(|(_, thing)| thing),
        }
    }
}
