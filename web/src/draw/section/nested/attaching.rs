//! Joining every set to what is drawn by one line, so that all hangs together.

use levertrain_core::{Joint, vertices};

use super::Laying;
use super::canvas::{Dart, Holder, Stretch};
use crate::draw::section::dice::Dice;

/// How much dearer a line may be and be taken all the same.
const WHIM: usize = 40;

/// A line that joins a set, or a shaft without gears, to what is drawn.
struct Lead {
    joint: usize,
    /// The vertex whence, or the one that a gear waits for which it comes from.
    from: usize,
    from_gear: bool,
    /// The part it leads to, and the ways off that.
    to: Option<(usize, Vec<Dart>)>,
}

/// The ways off a gear that waits for its line.
pub fn ways_off_gear(faces: &[Vec<Stretch>], joint: usize) -> Option<Vec<Dart>> {
    let mut all = faces.iter().flatten();
    let gear = all.find(|stretch| stretch.of == Holder::Gear(joint))?;
    Some(gear.darts.clone())
}

impl Laying {
    /// Joins one more set, or shaft without gears, to what is drawn; `None` where there is no room, `false` where
    /// nothing was left to join.
    pub(super) fn attach_next(&mut self, dice: &mut Dice) -> Option<bool> {
        let faces = self.faces();
        let leads = self.leads();
        if leads.is_empty() {
            return Some(false);
        }
        let mut best: Option<(usize, Lead, Vec<Dart>)> = None;
        for lead in leads {
            self.set_tolls(&faces, lead.joint);
            let starts = match lead.from_gear {
                true => ways_off_gear(&faces, lead.joint),
                false => self.corner(&faces, lead.from, lead.joint),
            };
            let Some(starts) = starts else { continue };
            let cost = match &lead.to {
                Some((_, goals)) => self.cost_of_way(&starts, goals),
                None => Some(0),
            };
            let Some(cost) = cost else { continue };
            let cost = cost as usize + dice.below(WHIM);
            if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                best = Some((cost, lead, starts));
            }
        }
        let (_, lead, starts) = best?;
        let Lead { joint, from, .. } = lead;
        let (kind, ends) = self.embedding.joints[joint];
        match lead.to {
            Some((part, goals)) if lead.from_gear => {
                self.attach(part, from)?;
                self.connect(joint, from, &starts, Some(&goals))?;
                self.give_gear(joint, from);
            }
            Some((part, goals)) => {
                let is_mesh = matches!(kind, Joint::Mesh { .. });
                let other = ends[0] + ends[1] - from;
                self.attach(part, if is_mesh { from } else { other })?;
                let meshes = self.done[joint];
                self.connect(joint, from, &starts, Some(&goals))?;
                // The other gear of a pair may wait for its own line.
                self.done[joint] = meshes || !is_mesh;
            }
            None => self.connect(joint, from, &starts, None)?,
        }
        Some(true)
    }

    /// All lines by which something could be joined to what is drawn.
    fn leads(&self) -> Vec<Lead> {
        let drawn = self.drawn();
        let mut leads = Vec::new();
        for (joint, &(kind, ends)) in self.embedding.joints.iter().enumerate() {
            if !self.is_open(joint) {
                continue;
            }
            for [own, other] in [ends, [ends[1], ends[0]]] {
                let lead = |from_gear: bool, to| Lead {
                    joint,
                    from: own,
                    from_gear,
                    to,
                };
                if !drawn[own] {
                    // Where one of its gears is already.
                    if matches!(kind, Joint::Mesh { .. }) && self.gear_vertex(joint) == Some(own) {
                        let pins = self.leads_to(own, joint).into_iter();
                        leads.extend(pins.map(|to| lead(true, to)));
                    }
                    continue;
                }
                match kind {
                    Joint::Mesh { coupling, .. } => {
                        let part = self.part_of_mesh(joint, own);
                        if let Some(part) = part.filter(|_| !self.attached[coupling]) {
                            let darts = self.darts_of(part, None);
                            leads.push(lead(false, Some((part, darts))));
                        }
                    }
                    _ if drawn[other] => {}
                    _ => {
                        let leads_to = self.leads_to(other, joint).into_iter();
                        leads.extend(leads_to.map(|to| lead(false, to)));
                    }
                }
            }
        }
        // A shaft without gears waits until nothing else is left.
        if leads.iter().any(|lead| lead.to.is_some()) {
            leads.retain(|lead| lead.to.is_some());
        }
        leads
    }

    /// The parts where a vertex of which nothing is drawn yet can begin, with the ways off them; nothing, where it
    /// has none.
    fn leads_to(&self, vertex: usize, joint: usize) -> Vec<Option<(usize, Vec<Dart>)>> {
        let carrier = self
            .embedding
            .carriers
            .iter()
            .position(|&own| own == Some(vertex));
        if let Some(coupling) = carrier {
            let part = self.part_of_carrier(coupling);
            let darts = |part: usize| (part, self.darts_of(part, Some((vertex, joint))));
            return vec![part.map(darts)];
        }
        let meshes = self.embedding.around[vertex].iter();
        let gears = meshes.filter_map(|&mesh| {
            let part = self.part_of_mesh(mesh, vertex)?;
            Some(Some((part, self.darts_of(part, None))))
        });
        let mut leads: Vec<_> = gears.collect();
        if leads.is_empty() {
            leads.push(None);
        }
        leads
    }

    /// Which vertices something is drawn of.
    pub(super) fn drawn(&self) -> Vec<bool> {
        let mut drawn = vec![false; self.embedding.bodies.len()];
        drawn[..vertices::AXIS].fill(true);
        for holder in self.canvas.holders() {
            if let Holder::Vertex(vertex) = *holder {
                drawn[vertex] = true;
            }
        }
        drawn
    }
}
