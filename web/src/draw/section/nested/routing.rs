//! Laying one line.

use levertrain_core::{Joint, vertices};
use levertrain_routes::{Nodes, Search};

use super::canvas::{Dart, Holder};
use super::{Laying, flat_of};
use crate::draw::section::board::Board;
use crate::draw::section::grid::Node;
use crate::draw::section::plan::PackPlace;

/// Whoever looks for a way owns nothing: nothing that is drawn may be passed through.
const STRANGER: usize = 253;

/// A way from one dart's spot to another's, through free nodes.
pub struct Way {
    pub cost: u32,
    pub from: Dart,
    pub nodes: Vec<Node>,
    /// Nothing, where it ends in the open.
    pub to: Option<Dart>,
}

impl Laying {
    /// Draws a joint from one of some darts of `vertex` to one of the goals; without goals, to a clutch or
    /// a beginning of what it leads to.
    pub(super) fn connect(
        &mut self,
        joint: usize,
        vertex: usize,
        starts: &[Dart],
        goals: Option<&[Dart]>,
    ) -> Option<()> {
        let (kind, ends) = self.embedding.joints[joint];
        let other = ends[0] + ends[1] - vertex;
        self.done[joint] = true;
        if let Some(element) = flat_of((kind, ends)) {
            return self.fit(joint, element, [vertex, other], [Some(starts), goals]);
        }
        let way = match goals {
            Some(goals) => self.way(starts, goals)?,
            None => self.beginning(starts)?,
        };
        // A line to the edge of the half-plane is of what it leads to; one to a gear, of the gear's shaft.
        let is_edge = vertex < vertices::AXIS;
        let is_mesh = matches!(kind, Joint::Mesh { .. });
        let of = if is_edge && !is_mesh { other } else { vertex };
        self.lay(of, &way.nodes);
        let (first, last) = (*way.nodes.first()?, *way.nodes.last()?);
        let near = [self.spot(first), way.from.from];
        let far = way.to.map(|to| [self.spot(last), to.from]);
        // Where it goes over from one vertex to the other; at a mesh that is within the coupling.
        let link = if of == vertex { far } else { Some(near) };
        for pair in [Some(near), far].into_iter().flatten() {
            let goes_over = link == Some(pair) && !is_mesh;
            self.canvas
                .step(pair[0], pair[1], goes_over.then_some(joint));
        }
        self.note(kind, of, if is_edge { first } else { last }, far)
    }

    /// Notes where what hangs from the housing, or leads to an end, has its place.
    fn note(&mut self, kind: Joint, of: usize, edge: Node, far: Option<[usize; 2]>) -> Option<()> {
        let column = self.grid.column(edge);
        match kind {
            Joint::Element(element) => self.packs[element] = Some(PackPlace::Brake { column }),
            Joint::Input => self.ends[0] = Some(edge),
            Joint::Output => self.ends[1] = Some(edge),
            Joint::Held(coupling) => {
                let part = self.part_of_carrier(coupling)?;
                self.supports[part] = Some(column);
            }
            Joint::Mesh { coupling, .. } if of == vertices::HOUSING => {
                let [_, gear] = far?;
                let node = self.canvas.node(&self.grid, gear)?;
                let is_it = |part: usize| {
                    let part = &self.parts[part];
                    part.coupling == coupling && part.nodes(&self.grid).contains(&node)
                };
                let part = (0..self.parts.len()).find(|&part| is_it(part))?;
                self.supports[part] = Some(column);
            }
            _ => {}
        }
        Some(())
    }

    /// Where some darts lead.
    fn targets(&self, darts: &[Dart]) -> Nodes {
        let spots = darts.iter().filter_map(|&dart| self.canvas.target(dart));
        let nodes = spots.filter_map(|spot| self.canvas.node(&self.grid, spot));
        let free: Vec<Node> = nodes.filter(|&node| self.board.is_empty(node)).collect();
        Nodes::of(self.grid.nodes(), &free)
    }

    /// A search for ways off some darts.
    pub(super) fn search<'b>(&self, board: &'b Board, darts: &[Dart]) -> Search<'b> {
        board.search(STRANGER, self.targets(darts))
    }

    /// The cheapest way there is.
    fn way(&self, starts: &[Dart], goals: &[Dart]) -> Option<Way> {
        let board = self.tolled();
        let mut found = self.search(&board, starts);
        let far = self.targets(goals);
        found.spread_to(&far, u32::MAX);
        let reached = far.all().into_iter();
        let (cost, last) = reached
            .filter_map(|node| Some((found.cost(node)?, node)))
            .min()?;
        let nodes = found.way(last)?;
        Some(Way {
            cost,
            from: self.dart_to(starts, *nodes.first()?)?,
            to: self.dart_to(goals, last),
            nodes,
        })
    }

    /// The cheapest way to a free node.
    pub(super) fn way_to(&self, starts: &[Dart], goal: Node) -> Option<Way> {
        let board = self.tolled();
        let mut found = self.search(&board, starts);
        found.spread_to(&Nodes::of(self.grid.nodes(), &[goal]), u32::MAX);
        let nodes = found.way(goal)?;
        Some(Way {
            cost: found.cost(goal)?,
            from: self.dart_to(starts, *nodes.first()?)?,
            to: None,
            nodes,
        })
    }

    /// Where a shaft without gears begins: as near to the axis as there is room, or in the middle of it.
    fn beginning(&self, starts: &[Dart]) -> Option<Way> {
        let free = self.targets(starts).all();
        let lowest = free.iter().map(|&node| self.grid.row(node)).min()?;
        let row = free
            .into_iter()
            .filter(|&node| self.grid.row(node) == lowest);
        let row: Vec<Node> = row.collect();
        let node = row[row.len() / 2];
        Some(Way {
            cost: 0,
            from: self.dart_to(starts, node)?,
            nodes: vec![node],
            to: None,
        })
    }

    /// What a line costs.
    pub(super) fn cost_of_way(&self, starts: &[Dart], goals: &[Dart]) -> Option<u32> {
        Some(self.way(starts, goals)?.cost)
    }

    fn dart_to(&self, darts: &[Dart], node: Node) -> Option<Dart> {
        let spot = self.spot(node);
        let mut leading = darts.iter().copied();
        leading.find(|&dart| self.canvas.target(dart) == Some(spot))
    }

    /// Takes the nodes of a way for a vertex.
    pub(super) fn lay(&mut self, vertex: usize, nodes: &[Node]) {
        for &node in nodes {
            self.board.wall(node);
            let spot = self.spot(node);
            self.canvas.hold(spot, Holder::Vertex(vertex));
        }
        for pair in nodes.windows(2) {
            let [a, b] = [pair[0], pair[1]].map(|node| self.spot(node));
            self.canvas.step(a, b, None);
        }
    }
}
