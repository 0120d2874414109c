//! Sets that turn as one piece, and which two of their members are made to turn alike.

use super::joins::Joins;
use crate::base::element_set::ElementSet;
use crate::solve::{Combination, narrowed};
use crate::train::{Body, speed_terms};

/// A member: index of its coupling, and its own among that one's members.
pub type MemberAt = (usize, usize);

/// Couplings all of whose members turn at one speed, which is not zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AsOne {
    /// Indices of the couplings.
    pub couplings: Vec<usize>,
    /// Why, where applied elements join two of the members: with these two alike, the couplings
    /// have no other motion left.
    pub alike: Option<Alike>,
    /// Whether all shafts of the train turn at that speed.
    pub whole: bool,
}

/// Two members that applied elements join.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Alike {
    /// The members, on different shafts.
    pub members: [MemberAt; 2],
    /// The elements without any one of which they would not be joined.
    pub elements: ElementSet,
}

impl AsOne {
    pub(crate) fn of(
        combination: &Combination<'_>,
        joins: &Joins<'_>,
        couplings: Vec<usize>,
    ) -> Self {
        let train = combination.train();
        let speed = |&at: &usize| combination.body_speed(train.members(at)[0]);
        let speed = couplings.first().and_then(speed);
        let mut shafts = 0..train.scenario().shafts.len();
        Self {
            alike: alike(combination, joins, &couplings),
            whole: shafts.all(|shaft| combination.shaft_speed(shaft) == speed),
            couplings,
        }
    }
}

/// The first two members that do, of one coupling if possible.
fn alike(combination: &Combination<'_>, joins: &Joins<'_>, couplings: &[usize]) -> Option<Alike> {
    let train = combination.train();
    let members: Vec<(MemberAt, Body)> = couplings
        .iter()
        .flat_map(|&at| {
            let bodies = train.members(at).iter().enumerate();
            bodies.map(move |(member, &body)| ((at, member), body))
        })
        .collect();
    let coupled = train.coupled_by(|at| couplings.contains(&at));
    // Whether all members turn alike whatever else the couplings and these elements allow.
    let decide = |applied: ElementSet| {
        let (motions, _) = narrowed(&coupled, train, applied);
        members.windows(2).all(|pair| {
            let terms = speed_terms([(pair[0].1, 1), (pair[1].1, -1)]);
            motions.constrained(&terms).is_none()
        })
    };
    let applied = combination.applied();
    if !decide(applied) {
        return None;
    }
    for one_coupling in [true, false] {
        for (place, &(first, one)) in members.iter().enumerate() {
            for &(second, other) in &members[place + 1..] {
                if one == other || (first.0 == second.0) != one_coupling || !joins.join(one, other)
                {
                    continue;
                }
                let elements = joins.needed(one, other);
                if !elements.is_empty() && !decide(applied.minus(elements)) {
                    return Some(Alike {
                        members: [first, second],
                        elements,
                    });
                }
            }
        }
    }
    None
}
