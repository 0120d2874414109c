//! What a set does with the torque that goes through it: who drives, who is driven, who takes the
//! reaction, and how they turn beside each other.

use levertrain_exact::Fraction;

use super::Pace;
use super::joins::Joins;
use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::torque::Torques;
use crate::train::Body;

/// One set, or pair. Members are told by their index among its members.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetWork {
    /// Index of the coupling.
    pub coupling: usize,
    /// The member at rest that carries torque.
    pub reaction: Option<Reaction>,
    /// The members that put power into the set.
    pub driving: Vec<usize>,
    /// Those that take it out.
    pub driven: Vec<usize>,
    /// How they turn.
    pub motion: Motion,
}

/// A member that takes the reaction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reaction {
    /// Which.
    pub member: usize,
    /// What keeps it at rest.
    pub hold: Hold,
}

/// What keeps a member at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// It is part of the housing.
    Fixed,
    /// These elements; without any one of them it would not be joined to the housing.
    Elements(ElementSet),
    /// The other sets.
    Sets,
}

/// How driving and driven members turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// One drives one: how fast that one turns beside it, and whether the same way.
    Turns(Pace, bool),
    /// Several drive one.
    Adds(Place),
    /// One or several drive several.
    Divides,
}

/// How a member turns beside several others that drive it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Faster than one of them and slower than another, counting backward as less than forward.
    Between,
    /// Faster than each, the way they all turn.
    Overruns,
    /// Slower than each, the way they all turn.
    Slower,
    /// The other way than all of them.
    Against,
    /// They turn either way, and it turns the way of this one, but faster.
    Beyond(usize),
}

impl Place {
    /// The place of `speed` among those of other members.
    fn of(speed: &Fraction, others: &[(usize, Fraction)]) -> Self {
        let same_way = |other: &Fraction| other.signum() == speed.signum();
        let all = |pace| {
            others
                .iter()
                .all(|(_, other)| Pace::of(speed, other) == pace)
        };
        let along = others.iter().filter(|(_, other)| same_way(other));
        if others.iter().any(|(_, other)| other < speed)
            && others.iter().any(|(_, other)| other > speed)
        {
            return Self::Between;
        }
        match along.clone().count() {
            0 => Self::Against,
            // One that turns as fast is neither.
            count if count == others.len() && all(Pace::Faster) => Self::Overruns,
            count if count == others.len() && all(Pace::Slower) => Self::Slower,
            _ => {
                let fastest = along.max_by(|(_, one), (_, other)| one.abs().cmp(&other.abs()));
                Self::Beyond(fastest.map_or(0, |&(member, _)| member))
            }
        }
    }
}

impl SetWork {
    /// Tells the work of a coupling; `None` where a torque or a speed is not determined, or where
    /// no power goes through.
    pub(crate) fn of(
        combination: &Combination<'_>,
        torques: &Torques,
        joins: &Joins<'_>,
        coupling: usize,
    ) -> Option<Self> {
        let [mut driving, mut driven] = [Vec::new(), Vec::new()];
        let mut reaction = None;
        let bodies = combination.train().members(coupling);
        for (member, &body) in bodies.iter().enumerate() {
            let torque = torques.member(coupling, member)?;
            if torque.is_zero() {
                continue;
            }
            let speed = combination.body_speed(body)?;
            match torque.signum() * speed.signum() {
                1.. => driving.push((member, speed)),
                0 => reaction = Some((member, body)),
                _ => driven.push((member, speed)),
            }
        }
        let motion = match (&driving[..], &driven[..]) {
            ([], _) | (_, []) => return None,
            ([(_, first)], [(_, second)]) => {
                let same_way = first.signum() == second.signum();
                Motion::Turns(Pace::of(second, first), same_way)
            }
            (several, [(_, one)]) => Motion::Adds(Place::of(one, several)),
            _ => Motion::Divides,
        };
        let members = |of: Vec<(usize, Fraction)>| of.into_iter().map(|(at, _)| at).collect();
        Some(Self {
            coupling,
            reaction: reaction.map(|(member, body)| Reaction {
                member,
                hold: hold(joins, body),
            }),
            driving: members(driving),
            driven: members(driven),
            motion,
        })
    }
}

fn hold(joins: &Joins<'_>, body: Body) -> Hold {
    if body == Body::Housing {
        return Hold::Fixed;
    }
    let elements = joins.needed(body, Body::Housing);
    if elements.is_empty() {
        Hold::Sets
    } else {
        Hold::Elements(elements)
    }
}
