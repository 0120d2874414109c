//! Sets and pairs on the canvas: their parts, the ways off them, and drawing one.

use levertrain_core::coupling::{Member, Role};
use levertrain_core::{Embedding, Joint, Train};

use super::Laying;
use super::canvas::{Dart, EAST, Holder, NORTH, SOUTH, WEST};
use crate::draw::section::grid::SET_COLUMNS;
use crate::draw::section::parts::{Level, Part};

/// Which sets with two suns are turned round; `None` where that was chosen otherwise.
pub fn turned(train: &Train, embedding: &Embedding) -> Option<Vec<bool>> {
    let couplings = train.scenario().couplings.iter().enumerate();
    couplings
        .map(|(at, coupling)| {
            let facts = coupling.facts();
            let chosen = facts.turned();
            let Some([first, second]) = suns(at, &facts.members(), embedding) else {
                return Some(chosen.unwrap_or(false));
            };
            // Clockwise from above the right one comes first, and nothing lies between the two.
            let count = embedding.around[embedding.carriers[at]?].len();
            let is_turned = (first + 1) % count == second && (count > 2 || first < second);
            chosen
                .is_none_or(|chosen| chosen == is_turned)
                .then_some(is_turned)
        })
        .collect()
}

/// Where around its carrier the meshes of two suns come; `None` of a coupling with another number.
fn suns(at: usize, members: &[Member<'_>], embedding: &Embedding) -> Option<[usize; 2]> {
    let around = &embedding.around[embedding.carriers[at]?];
    let suns = (0..members.len()).filter(|&member| members[member].role.is_sun());
    let places = suns.filter_map(|member| {
        let mesh = Joint::Mesh {
            coupling: at,
            member,
        };
        let is_it = |&joint: &usize| embedding.joints[joint].0 == mesh;
        around.iter().position(is_it)
    });
    places.collect::<Vec<_>>().try_into().ok()
}

impl Laying {
    /// The gear of a vertex at a mesh.
    pub(super) fn part_of_mesh(&self, joint: usize, vertex: usize) -> Option<usize> {
        let (Joint::Mesh { coupling, member }, ends) = self.embedding.joints[joint] else {
            return None;
        };
        // Of a pair both ends are gears, of a set the second.
        let member = match self.embedding.carriers[coupling] {
            Some(_) if ends[1] == vertex => member,
            Some(_) => return None,
            None if ends[1] == vertex => member,
            None => self.other_gear(coupling, member)?,
        };
        self.part(coupling, member)
    }

    fn other_gear(&self, coupling: usize, second: usize) -> Option<usize> {
        let mut parts = self.parts.iter();
        let other = parts.find(|part| part.coupling == coupling && part.member != second);
        other.map(|part| part.member)
    }

    fn part(&self, coupling: usize, member: usize) -> Option<usize> {
        let is_own = |part: &Part| part.coupling == coupling && part.member == member;
        self.parts.iter().position(is_own)
    }

    pub(super) fn part_of_carrier(&self, coupling: usize) -> Option<usize> {
        let members = self.train.scenario().couplings[coupling].facts().members();
        let member = members
            .iter()
            .position(|member| member.role == Role::Carrier)?;
        self.part(coupling, member)
    }

    /// The ways off a part; off a carrier only on the side where a joint belongs.
    pub(super) fn darts_of(&self, part: usize, at: Option<(usize, usize)>) -> Vec<Dart> {
        let part = &self.parts[part];
        let side = at.and_then(|(vertex, joint)| self.side_of(part.coupling, vertex, joint));
        let mut darts = Vec::new();
        for node in part.nodes(&self.grid) {
            for direction in [EAST, NORTH, WEST, SOUTH] {
                let dart = Dart {
                    from: self.spot(node),
                    direction,
                };
                let on_side = side.is_none_or(|side| direction == side);
                if on_side && self.is_free(dart) {
                    darts.push(dart);
                }
            }
        }
        darts
    }

    /// On which side of a carrier a joint lies: between a ring above and a sun below it matters.
    fn side_of(&self, coupling: usize, carrier: usize, joint: usize) -> Option<usize> {
        let around = &self.embedding.around[carrier];
        let own = |at: usize| match self.embedding.joints[at].0 {
            Joint::Mesh {
                coupling: of,
                member,
            } if of == coupling => {
                let members = self.train.scenario().couplings[of].facts().members();
                Some(members[member].role == Role::Ring)
            }
            _ => None,
        };
        let all = || around.iter().filter_map(|&at| own(at));
        if !(all().any(|ring| ring) && all().any(|ring| !ring)) {
            return None;
        }
        let place = around.iter().position(|&at| at == joint)?;
        let back =
            (1..around.len()).map(|step| around[(place + around.len() - step) % around.len()]);
        // Clockwise the right side comes after the ring.
        back.into_iter()
            .find_map(own)
            .map(|ring| if ring { EAST } else { WEST })
    }

    /// Draws the coupling of a part, which joins it to what is drawn as part of a vertex.
    pub(super) fn attach(&mut self, by: usize, vertex: usize) -> Option<()> {
        let coupling = self.parts[by].coupling;
        self.attached[coupling] = true;
        let grid = self.grid;
        let start = grid.set_start(coupling);
        let last = start + SET_COLUMNS - 1;
        let (low, high) = (grid.sun_row(), grid.ring_row());
        for row in low..=high {
            for column in start..=last {
                let spot = self.spot(grid.node(column, row));
                self.canvas.hold(spot, Holder::Wall);
                if row < high && [start, last].contains(&column) {
                    let above = self.spot(grid.node(column, row + 1));
                    self.canvas.step(spot, above, None);
                }
                if column < last && [low, high].contains(&row) {
                    self.canvas.step(spot, spot + 1, None);
                }
            }
        }
        let others = (0..self.parts.len())
            .filter(|&part| part != by && self.parts[part].coupling == coupling);
        // The one that joins it first.
        let parts: Vec<usize> = std::iter::once(by).chain(others).collect();
        let mut drawn = self.drawn();
        for &at in &parts {
            let part = self.parts[at];
            let mesh = self.mesh_of(&part);
            let of = match part.level {
                _ if at == by => vertex,
                _ if mesh.is_none() => self.embedding.carriers[coupling]?,
                _ => {
                    let (_, ends) = self.embedding.joints[mesh?];
                    match self.embedding.carriers[coupling] {
                        Some(_) => ends[1],
                        None if self.part_of_mesh(mesh?, ends[1]) == Some(at) => ends[1],
                        None => ends[0],
                    }
                }
            };
            // Whoever has a carrier begins there.
            let begins = mesh.is_none() || !self.embedding.carriers.contains(&Some(of));
            let pending = at != by && (drawn[of] || !begins);
            let holder = match mesh.filter(|_| pending) {
                Some(mesh) => Holder::Gear(mesh),
                None => Holder::Vertex(of),
            };
            drawn[of] |= !pending;
            for node in part.nodes(&grid) {
                let spot = self.spot(node);
                self.canvas.hold(spot, holder);
            }
            // A mesh is done once both are drawn.
            if let Some(mesh) =
                mesh.filter(|_| at != by || self.embedding.carriers[coupling].is_some())
            {
                self.done[mesh] = !pending;
            }
        }
        self.mark(coupling, &parts);
        Some(())
    }

    /// Has what is between the parts of a coupling stand for their meshes.
    fn mark(&mut self, coupling: usize, parts: &[usize]) {
        let grid = self.grid;
        let start = grid.set_start(coupling);
        for column in [start, start + SET_COLUMNS - 1] {
            // The last part below, and its row.
            let mut below: Option<(usize, usize)> = None;
            for row in grid.sun_row()..=grid.ring_row() {
                let node = grid.node(column, row);
                let is_here = |part: &&usize| self.parts[**part].nodes(&grid).contains(&node);
                let Some(&upper) = parts.iter().find(is_here) else {
                    continue;
                };
                if let Some((row, lower)) = below
                    && let Some(mesh) = [lower, upper]
                        .into_iter()
                        .find_map(|part| self.mesh_of(&self.parts[part]))
                {
                    let spot = self.spot(grid.node(column, row + 1));
                    self.canvas.join_at(spot, mesh);
                }
                below = Some((row, upper));
            }
        }
        let suns = self.embedding.joints.iter();
        let mut suns = suns
            .enumerate()
            .filter(|(_, joint)| joint.0 == Joint::Suns(coupling));
        if let Some((joint, _)) = suns.next() {
            let spot = self.spot(grid.node(start + 1, grid.sun_row()));
            self.canvas.join_at(spot, joint);
        }
    }

    /// The joint that a gear's mesh is; of a pair both gears have one.
    fn mesh_of(&self, part: &Part) -> Option<usize> {
        if part.level == Level::Pin && self.embedding.carriers[part.coupling].is_some() {
            return None;
        }
        let is_pair = self.embedding.carriers[part.coupling].is_none();
        let mut joints = self.embedding.joints.iter();
        joints.position(|(joint, _)| match *joint {
            Joint::Mesh { coupling, member } => {
                coupling == part.coupling && (is_pair || member == part.member)
            }
            _ => false,
        })
    }

    /// The vertex that a gear belongs to that is not led to it yet.
    pub(super) fn gear_vertex(&self, joint: usize) -> Option<usize> {
        let (Joint::Mesh { .. }, ends) = self.embedding.joints[joint] else {
            return None;
        };
        let holds = |vertex: &usize| {
            let part = self.part_of_mesh(joint, *vertex);
            let nodes = part.map(|part| self.parts[part].nodes(&self.grid));
            nodes.is_some_and(|nodes| {
                let spot = self.spot(nodes[0]);
                self.canvas.holder(spot) == Holder::Gear(joint)
            })
        };
        ends.into_iter().find(holds)
    }

    /// A gear that has been led to its vertex is part of it.
    pub(super) fn give_gear(&mut self, joint: usize, vertex: usize) {
        for holder in self.canvas.holders_mut() {
            if *holder == Holder::Gear(joint) {
                *holder = Holder::Vertex(vertex);
            }
        }
    }
}
