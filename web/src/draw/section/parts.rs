//! What must be placed in a half-section: where each member of each coupling meets the grid.

use levertrain_core::coupling::{Member, Role};
use levertrain_core::{Body, Train};

/// How a coupling is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Sun, pinions, ring about one axis.
    Set {
        /// Pinions between sun and ring.
        pinion_rows: usize,
    },
    /// A gear on the main axis and one on a parallel axis above it.
    Pair {
        /// Whether the upper gear is internal.
        internal: bool,
        /// Whether the first member is the upper one.
        first_above: bool,
    },
}

/// At which row of its coupling a member stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// Nearest the axis: a sun, or the lower gear of a pair.
    Sun,
    /// Where the pins are: a carrier, or the shaft of a pair's upper gear.
    Pin,
    /// Outermost: a ring.
    Ring,
}

/// A member of a coupling, placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// Index of its coupling.
    pub coupling: usize,
    /// Index among the coupling's members.
    pub member: usize,
    /// What it is part of.
    pub body: Body,
    /// Its row.
    pub level: Level,
}

/// The figures of all couplings, and their parts.
pub fn parts(train: &Train) -> (Vec<Figure>, Vec<Part>) {
    let on_second_axis = second_axis(train);
    let mut figures = Vec::new();
    let mut parts = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        let facts = coupling.facts();
        let (members, bodies) = (facts.members(), train.members(index));
        let profile = facts.profile();
        let figure = if profile.coaxial {
            Figure::Set {
                pinion_rows: facts.pinions().len(),
            }
        } else {
            let above = |body: &Body| matches!(body, Body::Shaft(s) if on_second_axis[*s]);
            let internal = profile.gears.iter().any(|gear| gear.internal);
            let first_above = !internal && bodies.first().is_some_and(above);
            Figure::Pair {
                internal,
                first_above,
            }
        };
        for (member, (fact, &body)) in members.iter().zip(bodies).enumerate() {
            if let Some(level) = level(fact, figure) {
                parts.push(Part {
                    coupling: index,
                    member,
                    body,
                    level,
                });
            }
        }
        figures.push(figure);
    }
    (figures, parts)
}

fn level(member: &Member<'_>, figure: Figure) -> Option<Level> {
    match (member.role, figure) {
        (Role::Sun, _) => Some(Level::Sun),
        (Role::Carrier, _) => Some(Level::Pin),
        (Role::Ring, _) => Some(Level::Ring),
        (Role::Frame, _) => None,
        (Role::Second, Figure::Pair { internal: true, .. }) => Some(Level::Ring),
        (Role::First, Figure::Pair { first_above, .. }) => {
            Some(if first_above { Level::Pin } else { Level::Sun })
        }
        (Role::Second, Figure::Pair { first_above, .. }) => {
            Some(if first_above { Level::Sun } else { Level::Pin })
        }
        (Role::First | Role::Second, Figure::Set { .. }) => None,
    }
}

/// Which shafts stand on a parallel axis: those an odd number of external pairs away from the
/// input.
fn second_axis(train: &Train) -> Vec<bool> {
    let scenario = train.scenario();
    let mut known: Vec<Option<bool>> = vec![None; scenario.shafts.len()];
    known[train.input()] = Some(false);
    // A chain of shafts is at most as long as there are shafts.
    for _ in 0..scenario.shafts.len() {
        for (index, coupling) in scenario.couplings.iter().enumerate() {
            let coaxial = coupling.facts().profile().coaxial;
            spread(&mut known, train.members(index), !coaxial);
        }
        for element in 0..scenario.elements.len() {
            spread(&mut known, &train.ends(element), false);
        }
    }
    known
        .into_iter()
        .map(|side| side.unwrap_or(false))
        .collect()
}

/// Tells the shafts of a group which axis they are on from one that knows; `apart` when the
/// two shafts of the group are on different axes.
fn spread(known: &mut [Option<bool>], bodies: &[Body], apart: bool) {
    let shafts: Vec<usize> = bodies
        .iter()
        .filter_map(|body| match body {
            Body::Shaft(shaft) => Some(*shaft),
            Body::Housing => None,
        })
        .collect();
    let Some((from, side)) = shafts.iter().find_map(|&s| known[s].map(|side| (s, side))) else {
        return;
    };
    for shaft in shafts {
        if shaft != from && known[shaft].is_none() {
            known[shaft] = Some(side != apart);
        }
    }
}
