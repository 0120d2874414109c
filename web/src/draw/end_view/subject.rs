//! One coupling at one instant, as the end view sees it: who turns how.

use levertrain_core::Body;
use levertrain_core::coupling::{CouplingKind, Member, Mount, PinionSpin, Profile};

use super::gears::Turns;
use crate::draw::scene::{Dash, Stroke};
use crate::motion::live::{Live, Motion};

/// What moves in a coupling and can be named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The member with this index.
    Member(usize),
    /// The pinions with this index.
    Pinion(usize),
}

impl From<Mount> for Part {
    fn from(mount: Mount) -> Self {
        match mount {
            Mount::Member(member) => Self::Member(member),
            Mount::Pinion { pinion, .. } => Self::Pinion(pinion),
        }
    }
}

/// A coupling of a live train.
pub struct Subject<'a> {
    /// The instant.
    pub live: &'a Live<'a>,
    /// Its gears.
    pub profile: Profile,
    /// Its members.
    pub members: Vec<Member<'a>>,
    /// What each member is part of.
    pub bodies: &'a [Body],
    /// Its pinions.
    pub pinions: Vec<PinionSpin>,
    /// How each pinion moves about its own pin; `None` where it does not.
    spinning: Vec<Option<Motion>>,
}

impl<'a> Subject<'a> {
    /// The coupling with this index; `None` when there is none.
    pub fn of(live: &'a Live<'a>, coupling: usize) -> Option<Self> {
        let facts: &dyn CouplingKind = live.train.scenario().couplings.get(coupling)?.facts();
        let pinions = facts.pinions();
        let combination = live.train.solve(live.applied);
        let spinning = pinions
            .iter()
            .map(|pinion| match combination.pinion_spin(coupling, pinion) {
                None => Some(Motion::Free),
                Some(spin) => match spin.signum() {
                    0 => None,
                    1 => Some(Motion::Forward),
                    _ => Some(Motion::Backward),
                },
            })
            .collect();
        Some(Self {
            live,
            profile: facts.profile(),
            members: facts.members(),
            bodies: live.train.members(coupling),
            pinions,
            spinning,
        })
    }

    /// How a part moves: a pinion, about its own pin, or like its carrier if it does not.
    pub fn motion(&self, part: Part) -> Motion {
        match part {
            Part::Member(member) => self.live.motion(self.bodies[member]),
            Part::Pinion(pinion) => self.spinning[pinion].unwrap_or_else(|| {
                let carriers = self
                    .profile
                    .gears
                    .iter()
                    .filter_map(|gear| match gear.mount {
                        Mount::Pinion {
                            pinion: own,
                            carrier,
                        } if own == pinion => Some(carrier),
                        Mount::Pinion { .. } | Mount::Member(_) => None,
                    });
                let carrier = carriers.map(Part::Member).next();
                carrier.map_or(Motion::Held, |carrier| self.motion(carrier))
            }),
        }
    }

    /// Whether a part is a pinion that does not turn on its pin.
    pub fn is_locked(&self, part: Part) -> bool {
        matches!(part, Part::Pinion(pinion) if self.spinning[pinion].is_none())
    }

    /// Speed of a part as shown, per input turn; of a pinion, about its own pin.
    pub fn speed(&self, part: Part) -> f64 {
        match part {
            Part::Member(member) => self.live.speed(self.bodies[member]),
            Part::Pinion(pinion) => spin(&self.pinions[pinion], |member| {
                self.live.speed(self.bodies[member])
            }),
        }
    }

    /// How far everything has turned.
    pub fn turns(&self) -> Turns {
        let angle = |member: usize| self.live.angle(self.bodies[member]);
        let members = (0..self.bodies.len()).map(angle).collect();
        // Spin is linear in the members' speeds with constant coefficients, so the same
        // relation holds between the angles, without error however long it turns.
        let pinions = self
            .pinions
            .iter()
            .map(|pinion| spin(pinion, angle))
            .collect();
        Turns { members, pinions }
    }

    /// The line a part is drawn with.
    pub fn stroke(&self, part: Part, width: f64) -> Stroke {
        let motion = self.motion(part);
        let dash = match motion {
            Motion::Free => Dash::Dashed,
            _ => Dash::Solid,
        };
        Stroke {
            ink: motion.ink(),
            width,
            dash,
        }
    }

    /// Whether a part is pointed at.
    pub fn is_lit(&self, part: Part) -> bool {
        matches!(part, Part::Member(member) if self.live.is_lit(self.bodies[member]))
    }
}

/// A pinion's spin from a quantity of each member: speeds give a speed, angles an angle.
fn spin(pinion: &PinionSpin, member: impl Fn(usize) -> f64) -> f64 {
    let terms = pinion.coefficients.iter().enumerate();
    let sum: f64 = terms.map(|(index, &k)| k as f64 * member(index)).sum();
    sum / pinion.divisor as f64
}
