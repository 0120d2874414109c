//! What must be placed in a half-section: where each member of each coupling meets the grid.

use levertrain_core::coupling::{CouplingKind, Member, Mount, Partner, Plane, Profile, Role};
use levertrain_core::{Body, Train};

use super::grid::{Grid, Node, SET_COLUMNS};

/// How a coupling is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// Sun, pinions, ring about one axis.
    Set {
        /// Pinions between sun and ring.
        pinion_rows: usize,
    },
    /// A sun and a ring, or two suns, in two planes, each on its step of the pinions between.
    Stepped {
        /// Where the first sun and its step are; the others are on the other side.
        sun: Side,
        /// Whether its step is the larger one.
        sun_larger: bool,
        /// Teeth of the smaller step over those of the larger.
        smaller: f64,
        /// Whether the other step meshes with a sun as well.
        second_sun: bool,
    },
    /// Two suns side by side, short pinions on the one, long ones on the other that reach over
    /// both, and the ring around these.
    TwoSuns {
        /// Where the sun with the short pinions is.
        small: Side,
    },
    /// A gear on the main axis and one on a parallel axis above it.
    Pair {
        /// Whether the upper gear is internal.
        internal: bool,
        /// Whether the first member is the upper one.
        first_above: bool,
        /// Teeth of the gear on the main axis over those of both.
        share: f64,
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

/// Which part of the width of its coupling a gear takes up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The half at the input's end.
    Left,
    /// The other half.
    Right,
    /// All of it.
    Whole,
}

impl Side {
    /// The side across.
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Whole => Self::Whole,
        }
    }
}

impl From<Plane> for Side {
    fn from(plane: Plane) -> Self {
        match plane {
            Plane::Near => Self::Left,
            Plane::Far => Self::Right,
            Plane::Whole => Self::Whole,
        }
    }
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
    /// Where leads meet it: at both ends and the middle, or at one end only.
    pub side: Side,
}

impl Part {
    /// The nodes of the grid it takes up.
    pub fn nodes(&self, grid: &Grid) -> Vec<Node> {
        let row = match self.level {
            Level::Sun => grid.sun_row(),
            Level::Pin => grid.pin_row(),
            Level::Ring => grid.ring_row(),
        };
        let start = grid.set_start(self.coupling);
        let columns = match self.side {
            Side::Left => start..start + 1,
            Side::Right => start + SET_COLUMNS - 1..start + SET_COLUMNS,
            Side::Whole => start..start + SET_COLUMNS,
        };
        columns.map(|column| grid.node(column, row)).collect()
    }
}

/// The figures of all couplings, and their parts. A set with two suns may be put in either way
/// round, which `turned` says of each coupling.
pub fn parts(train: &Train, turned: &[bool]) -> (Vec<Figure>, Vec<Part>) {
    let on_second_axis = second_axis(train);
    let mut figures = Vec::new();
    let mut parts = Vec::new();
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        let facts = coupling.facts();
        let (members, bodies) = (facts.members(), train.members(index));
        let profile = facts.profile();
        let first_side = if turned[index] {
            Side::Right
        } else {
            Side::Left
        };
        let figure = if profile.coaxial {
            set_figure(facts, &profile, first_side)
        } else {
            let above = |body: &Body| matches!(body, Body::Shaft(s) if on_second_axis[*s]);
            let internal = profile.gears.iter().any(|gear| gear.internal);
            let first_above = !internal && bodies.first().is_some_and(above);
            Figure::Pair {
                internal,
                first_above,
                share: share(&members, !internal && first_above),
            }
        };
        for (member, (fact, &body)) in members.iter().zip(bodies).enumerate() {
            if let Some(level) = level(fact, figure) {
                parts.push(Part {
                    coupling: index,
                    member,
                    body,
                    level,
                    side: match fact.role {
                        Role::SmallSun | Role::FirstSun => first_side,
                        Role::LargeSun | Role::SecondSun => first_side.other(),
                        _ => Side::Whole,
                    },
                });
            }
        }
        figures.push(figure);
    }
    (figures, parts)
}

/// Teeth of one of the two gears of a pair over those of both.
fn share(members: &[Member<'_>], of_second: bool) -> f64 {
    let teeth = |role| {
        let found = members.iter().find(|member| member.role == role);
        found
            .and_then(|member| member.teeth)
            .map_or(1.0, |teeth| f64::from(teeth.get()))
    };
    let (first, second) = (teeth(Role::First), teeth(Role::Second));
    let own = if of_second { second } else { first };
    own / (first + second)
}

/// How a set about one axis is drawn.
fn set_figure(facts: &dyn CouplingKind, profile: &Profile, first_side: Side) -> Figure {
    let gears = &profile.gears;
    let steps = gears.iter().find_map(|gear| match gear.partner {
        Some(Partner::Fixed(other)) => Some((gears.get(other)?, gear)),
        _ => None,
    });
    let suns = gears
        .iter()
        .filter(|gear| !gear.internal && matches!(gear.mount, Mount::Member(_)));
    match (steps, suns.count()) {
        (Some((first, second)), suns) => {
            let [teeth, others] = [first, second].map(|gear| f64::from(gear.teeth.get()));
            Figure::Stepped {
                sun: if suns == 2 {
                    first_side
                } else {
                    first.plane.into()
                },
                sun_larger: teeth >= others,
                smaller: (teeth / others).min(others / teeth),
                second_sun: suns == 2,
            }
        }
        (None, 2) => Figure::TwoSuns { small: first_side },
        (None, _) => Figure::Set {
            pinion_rows: facts.pinions().len(),
        },
    }
}

fn level(member: &Member<'_>, figure: Figure) -> Option<Level> {
    match (member.role, figure) {
        (Role::Sun | Role::SmallSun | Role::LargeSun | Role::FirstSun | Role::SecondSun, _) => {
            Some(Level::Sun)
        }
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
        (Role::First | Role::Second, _) => None,
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
