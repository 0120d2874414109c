//! Making room: columns and rows with nothing in them are put between those that are in use.
//!
//! Whatever is drawn keeps its shape. Rows between those of the sets cannot be put in; clutches stay three columns
//! wide.

use super::canvas::{Canvas, Holder, Spot};
use super::widened::Widened;
use super::{Laying, edge};
use crate::draw::section::grid::Node;
use crate::draw::section::plan::PackPlace;
use crate::draw::section::search::Sketch;

impl Laying {
    /// Puts all in use so many columns apart.
    pub(super) fn space(&mut self, free: usize) -> Option<()> {
        let [columns, rows] = self.in_use();
        let widened = Widened::of(self.grid, &columns, &rows, free);
        let canvas = self.redrawn(&widened)?;
        let bare = Sketch::on(&self.train, widened.to, &self.turned);
        let mut board = bare.gears.board.clone();
        for (spot, holder) in canvas.holders().iter().enumerate() {
            match canvas.node(&widened.to, spot) {
                Some(node) if *holder != Holder::Nobody => board.wall(node),
                _ => {}
            }
        }
        for pack in self.packs.iter_mut().flatten() {
            match pack {
                PackPlace::Brake { column } => *column = widened.columns[*column],
                PackPlace::Clutch { column, row, .. } => {
                    *column = widened.columns[*column];
                    *row = widened.rows[*row];
                }
            }
        }
        let supports = self.supports.iter_mut().flatten();
        supports.for_each(|column| *column = widened.columns[*column]);
        let ends = self.ends.iter_mut().flatten();
        ends.for_each(|node| *node = widened.node(*node));
        self.canvas = canvas;
        self.board = board;
        self.grid = widened.to;
        Some(())
    }

    /// The columns that lines go along or clutches begin and end at, and the rows that lines go along.
    fn in_use(&self) -> [Vec<bool>; 2] {
        let grid = self.grid;
        let (mut columns, mut rows) = (vec![false; grid.columns()], vec![false; grid.rows()]);
        for (a, b) in self.canvas.all_steps() {
            let nodes = [a, b].map(|spot| self.canvas.node(&grid, spot));
            for node in nodes.into_iter().flatten() {
                if self.canvas.is_along(a, b) {
                    rows[grid.row(node)] = true;
                } else {
                    columns[grid.column(node)] = true;
                }
            }
        }
        for [left, _, right] in self.clutches() {
            columns[grid.column(left)] = true;
            columns[grid.column(right)] = true;
        }
        [columns, rows]
    }

    /// The nodes of all clutches.
    fn clutches(&self) -> Vec<[Node; 3]> {
        let packs = self.packs.iter().flatten();
        let nodes = packs.filter_map(|pack| pack.nodes(&self.grid).try_into().ok());
        nodes.collect()
    }

    /// All that is drawn on a canvas with more room.
    fn redrawn(&self, widened: &Widened) -> Option<Canvas> {
        let grid = self.grid;
        let mut canvas = edge(&widened.to, &self.embedding)?;
        let moved: Vec<Option<Spot>> = (0..self.canvas.holders().len())
            .map(|spot| {
                let node = self.canvas.node(&grid, spot)?;
                Some(canvas.spot(&widened.to, widened.node(node)))
            })
            .collect();
        let clutches = self.clutches();
        let is_middle = |spot: Spot| {
            let node = self.canvas.node(&grid, spot);
            clutches.iter().any(|nodes| Some(nodes[1]) == node)
        };
        for (old, new) in moved.iter().enumerate() {
            let (Some(new), holder) = (*new, self.canvas.holder(old)) else {
                continue;
            };
            if holder == Holder::Nobody || is_middle(old) {
                continue;
            }
            canvas.hold(new, holder);
            if let Some(joint) = self.canvas.joint_at(old) {
                canvas.join_at(new, joint);
            }
        }
        for (a, b) in self.canvas.all_steps() {
            if is_middle(a) || is_middle(b) {
                continue;
            }
            let joint = self.canvas.link(a, b);
            match (moved[a], moved[b]) {
                (Some(one), Some(other)) => {
                    canvas.line([one, other], self.canvas.holder(a), joint);
                }
                // The edge of the half-plane is as near as before.
                (Some(one), None) => {
                    let other = canvas.beside(one, &self.canvas, a, b);
                    canvas.step(one, other, joint);
                }
                (None, Some(other)) => {
                    let one = canvas.beside(other, &self.canvas, b, a);
                    canvas.step(one, other, joint);
                }
                (None, None) => {}
            }
        }
        for nodes in clutches {
            let [left, middle, right] = nodes.map(|node| self.spot(node));
            let (joint, holder) = (self.canvas.joint_at(middle)?, self.canvas.holder(right));
            let (left, right) = (moved[left]?, moved[right]?);
            let [middle, lead] = [left + 1, left + 2];
            canvas.hold(middle, Holder::Wall);
            canvas.join_at(middle, joint);
            canvas.step(left, middle, None);
            canvas.step(middle, lead, None);
            // Its lead goes on to where it was.
            canvas.hold(lead, holder);
            canvas.line([lead, right], holder, None);
        }
        Some(canvas)
    }

    /// The steps of each member.
    pub(super) fn runs(&self) -> Vec<Vec<(Node, Node)>> {
        let members = self.train.scenario().shafts.len() + 1;
        let mut runs = vec![Vec::new(); members];
        let grid = self.grid;
        let is_gear = |node: Node| {
            let rows = grid.sun_row()..=grid.ring_row();
            grid.in_set(grid.column(node)) && rows.contains(&grid.row(node))
        };
        for (a, b) in self.canvas.all_steps() {
            let nodes = [a, b].map(|spot| self.canvas.node(&grid, spot));
            let holders = [a, b].map(|spot| self.canvas.holder(spot));
            let [Some(one), Some(other)] = nodes else {
                continue;
            };
            let [Holder::Vertex(vertex), Holder::Vertex(_)] = holders else {
                continue;
            };
            let within = is_gear(one) && is_gear(other);
            if let Some(member) = self.member(vertex).filter(|_| !within) {
                runs[member].push((one, other));
            }
        }
        runs
    }
}
