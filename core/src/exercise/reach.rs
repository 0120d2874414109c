//! Apply clutches and brakes so that the ratio is the one asked for.

use crate::base::dice::Dice;
use levertrain_exact::{Fraction, State};

use super::answer::{Marked, share};

use super::hint::Hint;
use super::task::{Task, choosable};
use crate::base::element_set::ElementSet;
use crate::solve::settle::Duty;
use crate::train::Train;

/// Elements up to which all combinations may be asked for; of more, the ratios of the ranges.
const MOST_ELEMENTS: usize = 10;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut ratios = Vec::new();
    let mut note = |state: &State| {
        if let State::Driving(ratio) = state
            && !ratios.contains(ratio)
        {
            ratios.push(ratio.clone());
        }
    };
    if choosable(train).len() <= MOST_ELEMENTS {
        for_each(train, |_, state| note(state));
    } else {
        for range in 0..train.scenario().ranges.len() {
            note(
                train
                    .settle(train.range(range), Duty::Drive)
                    .combination
                    .state(),
            );
        }
    }
    let ratio = dice.take(&mut ratios)?;
    Some(Task::Reach { ratio })
}

pub(super) fn solve(train: &Train, wanted: &Fraction) -> Option<Vec<String>> {
    let best = solutions(train, wanted)
        .into_iter()
        .min_by_key(|set| set.len())?;
    Some(ids(train, best))
}

pub(super) fn mark(train: &Train, wanted: &Fraction, answer: &[String]) -> Marked {
    let Ok(applied) = train.element_set(answer.iter().map(String::as_str)) else {
        return Marked::wrong(Hint::NoChoice);
    };
    let settled = train.settle(applied, Duty::Drive);
    let state = settled.combination.state();
    if state.ratio() == Some(wanted) {
        let mut marked = Marked::right();
        if let State::OverApplied(_) = state {
            marked.hints.push(Hint::Spare);
        }
        return marked;
    }
    let mut hints = Vec::new();
    match state.ratio() {
        Some(ratio) if ratio.signum() != wanted.signum() => hints.push(Hint::OtherWay),
        Some(ratio) if ratio.abs() > wanted.abs() => hints.push(Hint::TooSlow),
        Some(_) => hints.push(Hint::TooFast),
        None => hints.push(Hint::Does(applied, state.clone())),
    }
    let all = solutions(train, wanted);
    // Half of the credit, for what is applied as it should be.
    let likeness = |set: &ElementSet| {
        let both = applied.minus(applied.minus(*set)).len();
        share(both, applied.union(*set).len() * 2)
    };
    let credit = all.iter().map(likeness).max();
    let changes = all
        .iter()
        .map(|set| set.minus(applied).len() + applied.minus(*set).len());
    if let Some(least) = changes.min() {
        hints.push(Hint::Changes(least));
    }
    Marked {
        credit: credit.unwrap_or(Fraction::ZERO),
        hints,
    }
}

/// Leaves of these ratios those that cannot be had.
pub(super) fn strike_out(train: &Train, wanted: &mut Vec<&Fraction>) {
    if wanted.is_empty() {
        return;
    }
    for_each(train, |_, state| {
        if let Some(ratio) = state.ratio() {
            wanted.retain(|other| *other != ratio);
        }
    });
}

fn solutions(train: &Train, wanted: &Fraction) -> Vec<ElementSet> {
    let mut sets = Vec::new();
    for_each(train, |applied, state| {
        if state.ratio() == Some(wanted) {
            sets.push(applied);
        }
    });
    sets
}

/// Calls back with what every combination does that anybody can apply.
fn for_each(train: &Train, mut visit: impl FnMut(ElementSet, &State)) {
    let all = choosable(train);
    let mut sets = (0..1_u32 << train.scenario().elements.len())
        .map(ElementSet::from_bits)
        .filter(|set| set.minus(all).is_empty());
    let mut names = sets.clone();
    train.for_each_of(&mut sets, Duty::Drive, |combination| {
        if let Some(applied) = names.next() {
            visit(applied, combination.state());
        }
    });
}

fn ids(train: &Train, set: ElementSet) -> Vec<String> {
    let elements = set
        .iter()
        .map(|element| &train.scenario().elements[element]);
    elements.map(|element| element.id().to_owned()).collect()
}
