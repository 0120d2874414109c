//! Say which combinations tie up.

use crate::base::dice::Dice;
use levertrain_exact::State;

use super::answer::Marked;

use super::hint::Hint;
use super::neutral::{MOST, mark_sets, state};
use super::task::{Task, choosable, name_of, sets_of};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// How many are offered, of those that tie up and of the others.
const OFFERED: usize = 3;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut all = Vec::new();
    for applied in 2..=choosable(train).len() {
        let sets = sets_of(train, applied, MOST).unwrap_or_default();
        let (tied, others): (Vec<_>, Vec<_>) = sets.into_iter().partition(|&set| ties(train, set));
        if !tied.is_empty() && !others.is_empty() {
            all.push((tied, others));
        }
    }
    let (tied, others) = dice.take(&mut all)?;
    let count = 1 + dice.below(OFFERED.min(tied.len()));
    let mut among = dice.some(tied, count);
    among.extend(dice.some(others, OFFERED));
    // In the order of the elements, so that the place says nothing.
    among.sort_unstable();
    Some(Task::TieUp { among })
}

pub(super) fn solve(train: &Train, among: &[ElementSet]) -> Option<Vec<String>> {
    let names = right(train, among)
        .into_iter()
        .map(|set| name_of(train, set));
    Some(names.collect()).filter(|names: &Vec<String>| !names.is_empty())
}

pub(super) fn mark(train: &Train, among: &[ElementSet], answer: &[String]) -> Marked {
    let right = right(train, among);
    if right.is_empty() {
        return Marked::wrong(Hint::NoAnswer);
    }
    mark_sets(train, among, &right, answer)
}

fn right(train: &Train, among: &[ElementSet]) -> Vec<ElementSet> {
    let sets = among.iter().copied();
    sets.filter(|&set| ties(train, set)).collect()
}

fn ties(train: &Train, set: ElementSet) -> bool {
    state(train, set) == State::TiedUp
}
