//! Find all neutral combinations with so many clutches and brakes applied.

use crate::base::dice::Dice;
use levertrain_exact::State;

use super::answer::{Marked, picked};

use super::hint::Hint;
use super::task::{Task, choosable, name_of, sets_of};
use crate::base::element_set::ElementSet;
use crate::solve::settle::Duty;
use crate::train::Train;

/// Most combinations to choose from: more are not a question but a chore.
pub(super) const MOST: usize = 15;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let counts = 1..=choosable(train).len();
    let mut all: Vec<Task> = counts
        .filter(|&applied| {
            let sets = sets_of(train, applied, MOST).unwrap_or_default();
            let neutral = right(train, &sets).len();
            neutral > 0 && neutral < sets.len()
        })
        .map(|applied| Task::Neutral { applied })
        .collect();
    dice.take(&mut all)
}

pub(super) fn solve(train: &Train, applied: usize) -> Option<Vec<String>> {
    let right = right(train, &sets_of(train, applied, MOST)?);
    let names = right.into_iter().map(|set| name_of(train, set));
    Some(names.collect()).filter(|names: &Vec<String>| !names.is_empty())
}

pub(super) fn mark(train: &Train, applied: usize, answer: &[String]) -> Marked {
    let Some(sets) = sets_of(train, applied, MOST) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let right = right(train, &sets);
    mark_sets(train, &sets, &right, answer)
}

/// Marks combinations that were picked.
pub(super) fn mark_sets(
    train: &Train,
    sets: &[ElementSet],
    right: &[ElementSet],
    answer: &[String],
) -> Marked {
    let named = |name: &String| sets.iter().find(|&&set| name_of(train, set) == *name);
    let chosen: Option<Vec<ElementSet>> = answer.iter().map(|name| named(name).copied()).collect();
    let Some(chosen) = chosen.filter(|chosen| !chosen.is_empty()) else {
        return Marked::wrong(Hint::NoChoice);
    };
    let wrong = chosen.iter().filter(|set| !right.contains(set));
    let does = |&set: &ElementSet| Hint::Does(set, state(train, set));
    // One at a time: what one does says something of the others.
    let mut hints: Vec<Hint> = wrong.take(1).map(does).collect();
    let missing = right.iter().filter(|set| !chosen.contains(set)).count();
    if missing > 0 {
        hints.push(Hint::Missing(missing));
    }
    Marked {
        credit: picked(&chosen, right),
        hints,
    }
}

pub(super) fn state(train: &Train, set: ElementSet) -> State {
    train.settle(set, Duty::Drive).combination.state().clone()
}

fn right(train: &Train, sets: &[ElementSet]) -> Vec<ElementSet> {
    let sets = sets.iter().copied();
    sets.filter(|&set| state(train, set) == State::Neutral)
        .collect()
}
