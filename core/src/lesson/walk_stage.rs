//! A stage of a walk: sets that are decided next, and what each does with the torque that goes through it.

use levertrain_exact::Fraction;

use super::walk_order::Group;
use crate::base::element_set::ElementSet;
use crate::load::power::PowerFlow;
use crate::solve::Combination;
use crate::solve::torque::Torques;
use crate::words::{AsOne, Hold, Joins, SetWork};

/// Sets that what is known before decides: one, or several that decide each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// The sets.
    pub sets: Vec<SetStage>,
    /// Where several turn as one piece, what makes them.
    pub as_one: Option<AsOne>,
}

/// One set of a stage.
#[derive(Debug, Clone, PartialEq)]
pub struct SetStage {
    /// Index of the coupling.
    pub coupling: usize,
    /// Whether the speed of each member was known before.
    pub known: Vec<bool>,
    /// What each member does.
    pub parts: Vec<Part>,
    /// What it does as a whole.
    pub what: What,
    /// A member that turns and through which the least power goes, of three or more that carry torque
    /// and none of which stands still: it stands in for a held one.
    pub reaction: Option<usize>,
    /// Where one member drives one other, what becomes of speed and torque.
    pub ratio: Option<StageRatio>,
    /// Where power goes in by several members, the share of each.
    pub shares_in: Vec<(usize, Fraction)>,
    /// The same of power that goes out.
    pub shares_out: Vec<(usize, Fraction)>,
}

/// What a member does in its set, by the sign of its power.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Power goes in through it.
    Drives,
    /// Power goes out through it.
    Delivers,
    /// It stands still and carries torque.
    Held,
    /// It carries no torque.
    Idle,
    /// Equilibrium does not say.
    Unknown,
}

/// What a set does.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// It turns as one piece.
    AsOne(AsOne),
    /// It passes power on.
    Works(SetWork),
    /// It carries torque and passes no power on.
    Strut,
    /// It carries no torque, and decides what others do not.
    Idle,
    /// More is applied than needed, so that its torques are not determined.
    Unknown,
}

/// From one member to another.
#[derive(Debug, Clone, PartialEq)]
pub struct StageRatio {
    /// The member that drives.
    pub from: usize,
    /// The member that is driven.
    pub to: usize,
    /// Speed of the one over that of the other, which is how many times the torque grows too.
    pub ratio: Fraction,
    /// Whether the power that goes through is all of the input's.
    pub carries_all: bool,
}

type Told<'a> = (Option<&'a Torques>, Option<&'a PowerFlow>, &'a Joins<'a>);

impl Stage {
    pub(super) fn of(combination: &Combination<'_>, told: Told<'_>, group: &Group) -> Self {
        let couplings = group.couplings.iter();
        let sets: Vec<SetStage> = couplings
            .map(|&coupling| SetStage::of(combination, told, group, coupling))
            .collect();
        let as_one = |set: &SetStage| matches!(set.what, What::AsOne(_));
        let speed = |&at: &usize| combination.body_speed(combination.train().members(at)[0]);
        let mut speeds = group.couplings.iter().map(speed);
        let first = speeds.next();
        let alike =
            sets.len() > 1 && sets.iter().all(as_one) && speeds.all(|speed| Some(speed) == first);
        Self {
            as_one: alike.then(|| AsOne::of(combination, told.2, group.couplings.clone())),
            sets,
        }
    }
}

impl SetStage {
    fn of(
        combination: &Combination<'_>,
        (torques, flow, joins): Told<'_>,
        group: &Group,
        coupling: usize,
    ) -> Self {
        let bodies = combination.train().members(coupling);
        let power = |member: usize| flow?.member(coupling, member);
        let parts: Vec<Part> = (0..bodies.len())
            .map(|member| {
                let torque = torques.and_then(|torques| torques.member(coupling, member));
                match (torque, power(member)) {
                    (Some(torque), _) if torque.is_zero() => Part::Idle,
                    (Some(_), Some(power)) => match power.signum() {
                        1.. => Part::Drives,
                        0 => Part::Held,
                        _ => Part::Delivers,
                    },
                    _ => Part::Unknown,
                }
            })
            .collect();
        let all = |part: Part| {
            let members = 0..parts.len();
            members
                .filter(|&member| parts[member] == part)
                .collect::<Vec<usize>>()
        };
        let (driving, driven) = (all(Part::Drives), all(Part::Delivers));
        let what = what(combination, (torques, joins), coupling, &parts);
        let ratio = match (&driving[..], &driven[..]) {
            (&[from], &[to]) => {
                let [one, other] = [from, to].map(|at| combination.body_speed(bodies[at]));
                let carries_all = power(from).is_some_and(|power| *power == Fraction::ONE);
                let ratio = one.zip(other).and_then(|(one, other)| one.over(&other));
                ratio.map(|ratio| StageRatio {
                    from,
                    to,
                    ratio,
                    carries_all,
                })
            }
            _ => None,
        };
        let loaded = driving.len() + driven.len();
        let may_react = matches!(what, What::Works(_)) && loaded > 2 && all(Part::Held).is_empty();
        let carry = driving.iter().chain(&driven).copied();
        let reaction = carry.filter_map(|at| Some((power(at)?.abs(), at))).min();
        Self {
            coupling,
            known: bodies
                .iter()
                .map(|body| group.known.contains(body))
                .collect(),
            reaction: reaction.filter(|_| may_react).map(|(_, member)| member),
            ratio: ratio.filter(|_| matches!(what, What::Works(_))),
            shares_in: shares(&driving, power),
            shares_out: shares(&driven, power),
            parts,
            what,
        }
    }

    /// The members through which power goes out.
    pub(super) fn driven(&self) -> impl Iterator<Item = usize> {
        let parts = self.parts.iter().enumerate();
        parts
            .filter(|(_, part)| **part == Part::Delivers)
            .map(|(member, _)| member)
    }

    /// Whether a member through which power goes out turns the other way than one that drives.
    pub(super) fn turns_round(&self, combination: &Combination<'_>) -> bool {
        let bodies = combination.train().members(self.coupling);
        let way = |member: usize| {
            let speed = combination.body_speed(bodies[member]);
            speed.map_or(0, |speed| speed.signum())
        };
        let mut driving = (0..self.parts.len()).filter(|&at| self.parts[at] == Part::Drives);
        driving.any(|from| self.driven().any(|to| way(from) * way(to) < 0))
    }

    /// The elements that hold its reaction, or make it turn as one piece.
    pub(super) fn elements(&self) -> ElementSet {
        match &self.what {
            What::AsOne(as_one) => as_one
                .alike
                .map_or(ElementSet::NONE, |alike| alike.elements),
            What::Works(work) => match work.reaction.map(|reaction| reaction.hold) {
                Some(Hold::Elements(elements)) => elements,
                _ => ElementSet::NONE,
            },
            What::Strut | What::Idle | What::Unknown => ElementSet::NONE,
        }
    }
}

fn what(
    combination: &Combination<'_>,
    (torques, joins): (Option<&Torques>, &Joins<'_>),
    coupling: usize,
    parts: &[Part],
) -> What {
    let bodies = combination.train().members(coupling);
    let mut speeds = bodies.iter().map(|&body| combination.body_speed(body));
    let first = speeds.next().flatten();
    let turns = first.as_ref().is_some_and(|speed| !speed.is_zero());
    if parts.iter().all(|part| *part == Part::Idle) {
        What::Idle
    } else if turns && speeds.all(|speed| speed == first) {
        What::AsOne(AsOne::of(combination, joins, vec![coupling]))
    } else if parts.contains(&Part::Unknown) {
        What::Unknown
    } else {
        let work = torques.and_then(|torques| SetWork::of(combination, torques, joins, coupling));
        work.map_or(What::Strut, What::Works)
    }
}

/// The part that each of several members has of the power that goes through them.
fn shares<'a>(
    members: &[usize],
    power: impl Fn(usize) -> Option<&'a Fraction>,
) -> Vec<(usize, Fraction)> {
    if members.len() < 2 {
        return Vec::new();
    }
    let powers = members
        .iter()
        .filter_map(|&at| Some((at, power(at)?.abs())));
    let powers: Vec<(usize, Fraction)> = powers.collect();
    let total = powers
        .iter()
        .fold(Fraction::ZERO, |sum, (_, power)| &sum + power);
    let share = |(at, power): (usize, Fraction)| Some((at, power.over(&total)?));
    powers.into_iter().filter_map(share).collect()
}
