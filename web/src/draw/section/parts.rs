//! What must be placed in a half-section: where each member of each coupling meets the grid.

use levertrain_core::coupling::{Member, Mount, Partner, Plane, Profile, Role};
use levertrain_core::{Body, Train};

use super::axes::Axes;
use super::grid::{Grid, Node, SET_COLUMNS};

/// How a coupling is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// Sun, pinions, ring about one axis.
    Set,
    /// A sun and a ring, or two suns, in two planes, each on its step of the pinions between.
    Stepped {
        /// Where the first sun and its step are; the others are on the other side.
        sun: Side,
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

/// The figures of all couplings, and their parts. A set with two suns or steps may be put in either way
/// round, which `turned` says of each coupling.
pub fn parts(train: &Train, turned: &[bool]) -> (Vec<Figure>, Vec<Part>) {
    let axes = Axes::of(train);
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
            set_figure(&profile, first_side)
        } else {
            let internal = profile.gears.iter().any(|gear| gear.internal);
            let above = bodies.first().is_some_and(|&body| axes.is_above(body));
            Figure::Pair {
                internal,
                first_above: !internal && above,
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

/// Whether a set with a sun and a ring on steps is drawn turned round.
pub fn steps_turned(profile: &Profile, figure: Figure) -> bool {
    figure != set_figure(profile, Side::Left)
}

/// How a set about one axis is drawn, the first of two suns on a side; with one sun it is turned round
/// where that is the right one.
fn set_figure(profile: &Profile, first_side: Side) -> Figure {
    let gears = &profile.gears;
    let first_step = gears.iter().find_map(|gear| match gear.partner {
        Some(Partner::Fixed(other)) => gears.get(other),
        _ => None,
    });
    let suns = gears
        .iter()
        .filter(|gear| !gear.internal && matches!(gear.mount, Mount::Member(_)));
    match (first_step, suns.count()) {
        (Some(_), 2) => Figure::Stepped { sun: first_side },
        (Some(first), _) => {
            let own = Side::from(first.plane);
            let sun = match first_side {
                Side::Right => own.other(),
                _ => own,
            };
            Figure::Stepped { sun }
        }
        (None, 2) => Figure::TwoSuns { small: first_side },
        (None, _) => Figure::Set,
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
