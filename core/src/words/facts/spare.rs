//! What an element beside others does: nothing, or what only shows when it is released.

use std::mem::discriminant;

use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::settle::{Duty, Settled, Verdict};

/// The applied elements that the motion of a combination does not need, by what their release
/// would change. One-way clutches, which nobody can release, are left out.
///
/// To release one may let a one-way clutch go that it kept locked, or lock one that takes its place,
/// so each release is settled anew, for drive and for coast.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spare {
    /// Whose release changes nothing.
    pub idle: ElementSet,
    /// Those that are needed only when the load drives.
    pub only_for: Vec<OnlyFor>,
    /// Whose release lets one-way clutches go even while the input drives, and which.
    pub keeps_locked: Vec<(usize, ElementSet)>,
    /// One-way clutches that lock side by side, any one of which would do; none or several.
    pub side_by_side: ElementSet,
}

/// An element whose release changes nothing while the input drives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnlyFor {
    /// Which.
    pub element: usize,
    /// Whether it is engine braking that would end; otherwise something else would change.
    pub braking: bool,
    /// The one-way clutches that would lock in its place.
    pub instead: ElementSet,
}

impl Spare {
    /// Sorts the elements of a combination that is settled for drive.
    pub fn of(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let one_ways = train.one_ways();
        let releasable = combination.releasable();
        let applied = combination.applied().minus(one_ways);
        let beside = releasable.minus(one_ways);
        let locked = releasable.minus(applied);
        let mut spare = Self::default();
        if one_ways.is_empty() {
            spare.idle = beside;
            return spare;
        }
        if locked.len() > 1 {
            spare.side_by_side = locked;
        }
        // To settle many one-way clutches takes long: not once more than it must be.
        if applied.is_empty() {
            return spare;
        }
        let driving = train.settle(applied, Duty::Drive);
        let coasting = train.settle(applied, Duty::Coast);
        for element in applied.iter() {
            let fewer = applied.without(element);
            let driving_fewer = train.settle(fewer, Duty::Drive);
            if !alike(&driving, &driving_fewer) {
                let locked = combination.applied().minus(applied);
                let lets_go = locked.minus(driving_fewer.combination.applied());
                let settled = driving_fewer.verdict == Verdict::Settled;
                if settled && beside.contains(element) && !lets_go.is_empty() {
                    spare.keeps_locked.push((element, lets_go));
                }
                continue;
            }
            let coasting_fewer = train.settle(fewer, Duty::Coast);
            if alike(&coasting, &coasting_fewer) {
                spare.idle = spare.idle.with(element);
            } else {
                let now = driving_fewer.combination.applied();
                spare.only_for.push(OnlyFor {
                    element,
                    braking: brakes_engine(&driving, &coasting)
                        && !brakes_engine(&driving_fewer, &coasting_fewer),
                    instead: now.minus(combination.applied()),
                });
            }
        }
        spare
    }
}

/// Whether the ratio driving, if there is one, is that of coasting too.
fn brakes_engine(driving: &Settled<'_>, coasting: &Settled<'_>) -> bool {
    let [driving, coasting] =
        [driving, coasting].map(|settled| settled.combination.state().ratio());
    driving.is_some() && driving == coasting
}

/// Whether all shafts turn alike, as surely.
fn alike(one: &Settled<'_>, other: &Settled<'_>) -> bool {
    let [first, second] = [&one.combination, &other.combination];
    discriminant(&one.verdict) == discriminant(&other.verdict)
        && first.degrees_of_freedom() == second.degrees_of_freedom()
        && (0..first.train().scenario().shafts.len())
            .all(|shaft| first.shaft_speed(shaft) == second.shaft_speed(shaft))
}
