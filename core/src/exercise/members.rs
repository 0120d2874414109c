//! Name the members of a set that are held, that drive or that deliver in a range.

use super::answer::{Marked, picked};
use crate::base::dice::Dice;

use super::hint::Hint;
use super::task::{Part, Task, in_range};
use crate::model::coupling::Role;
use crate::solve::Combination;
use crate::solve::torque::Torques;
use crate::train::Train;

/// Fewest members that there is a choice of.
const LEAST: usize = 3;

/// What a member does: the sign of its speed, and that of the power through it into the set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Does {
    pub(super) member: usize,
    /// Whether it stands still.
    pub(super) rests: bool,
    /// The sign of its torque.
    pub(super) torque: i32,
    /// The sign of the power into the set.
    pub(super) power: i32,
}

impl Does {
    fn plays(self, part: Part) -> bool {
        match part {
            Part::Held => self.rests && self.torque != 0,
            Part::Driving => self.power > 0,
            Part::Driven => self.power < 0,
        }
    }
}

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut all = Vec::new();
    for range in 0..train.scenario().ranges.len() {
        let combination = in_range(train, range);
        let Some(torques) = Torques::of(&combination) else {
            continue;
        };
        for set in 0..train.scenario().couplings.len() {
            let members = members_of(&combination, &torques, set).unwrap_or_default();
            if members.len() < LEAST {
                continue;
            }
            let parts = [Part::Held, Part::Driving, Part::Driven].into_iter();
            let some = parts.filter(|&part| members.iter().any(|does| does.plays(part)));
            all.extend(some.map(|part| Task::Members { range, set, part }));
        }
    }
    dice.take(&mut all)
}

pub(super) fn solve(train: &Train, range: usize, set: usize, part: Part) -> Option<Vec<String>> {
    let right = right(train, range, set, part).filter(|right| !right.is_empty())?;
    Some(right.iter().map(usize::to_string).collect())
}

pub(super) fn mark(
    train: &Train,
    range: usize,
    set: usize,
    part: Part,
    answer: &[String],
) -> Marked {
    let (Some(members), Some(right)) = (members(train, range, set), right(train, range, set, part))
    else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let chosen: Option<Vec<usize>> = answer
        .iter()
        .map(|id| {
            members
                .iter()
                .map(|does| does.member)
                .find(|at| at.to_string() == *id)
        })
        .collect();
    let Some(chosen) = chosen.filter(|chosen| !chosen.is_empty()) else {
        return Marked::wrong(Hint::NoChoice);
    };
    let wrong = members
        .iter()
        .filter(|does| chosen.contains(&does.member) && !right.contains(&does.member));
    let mut hints: Vec<Hint> = wrong.map(|&does| Hint::of_member(set, does)).collect();
    let missing = right
        .iter()
        .filter(|member| !chosen.contains(member))
        .count();
    if missing > 0 {
        hints.push(Hint::Missing(missing));
    }
    Marked {
        credit: picked(&chosen, &right),
        hints,
    }
}

/// The members to choose from; `None` where a speed or torque of one is not decided.
pub(super) fn members(train: &Train, range: usize, set: usize) -> Option<Vec<Does>> {
    let combination = in_range(train, range);
    let torques = Torques::of(&combination)?;
    members_of(&combination, &torques, set)
}

fn members_of(combination: &Combination<'_>, torques: &Torques, set: usize) -> Option<Vec<Does>> {
    let train = combination.train();
    let roles = train.scenario().couplings[set].facts().members();
    let bodies = train.members(set).iter().enumerate();
    bodies
        .filter(|&(member, _)| roles[member].role != Role::Frame)
        .map(|(member, &body)| {
            let speed = combination.body_speed(body)?.signum();
            let torque = torques.member(set, member)?.signum();
            Some(Does {
                member,
                rests: speed == 0,
                torque,
                power: torque * speed,
            })
        })
        .collect()
}

fn right(train: &Train, range: usize, set: usize, part: Part) -> Option<Vec<usize>> {
    let members = members(train, range, set)?.into_iter();
    let right = members.filter(|does| does.plays(part));
    Some(right.map(|does| does.member).collect())
}
