//! Name the element that failed, by what the ranges have become.
//!
//! The fault is drawn anew from the seed, so that it stands in no file. Every element that would give just the same is
//! right: no range tells them apart.

use super::answer::Marked;
use super::dice::Dice;
use super::hint::Hint;
use super::task::Task;
use crate::faults::{Fault, Faulty, Outcome, Trial};
use crate::train::Train;

/// Seeds of tasks are below this.
const SEEDS: usize = 1 << 30;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let seed = u32::try_from(dice.below(SEEDS)).ok()?;
    hidden(train, seed)?;
    Some(Task::Failed { seed })
}

/// What is tried, with what becomes of it; nothing where no single element that fails would show.
pub(super) fn shown(train: &Train, seed: u32) -> Option<Vec<(Trial, Outcome)>> {
    let trials = Trial::all(train);
    let found = outcomes(train, &trials, hidden(train, seed)?);
    Some(trials.into_iter().zip(found).collect())
}

pub(super) fn solve(train: &Train, seed: u32) -> Option<Vec<String>> {
    let element = hidden(train, seed)?.element()?;
    Some(vec![id(train, element)])
}

pub(super) fn mark(train: &Train, seed: u32, answer: &[String]) -> Marked {
    let Some(fault) = hidden(train, seed) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let [picked] = answer else {
        return Marked::wrong(Hint::NoChoice);
    };
    let Some(element) = train.element(picked) else {
        return Marked::wrong(Hint::NoChoice);
    };
    let trials = Trial::all(train);
    let wanted = outcomes(train, &trials, fault);
    let own = faults(train).filter(|fault| fault.element() == Some(element));
    // Of the faults that it could have, the one that comes nearest says most.
    let first_wrong = own.map(|fault| {
        let found = outcomes(train, &trials, fault);
        let mut pairs = found.iter().zip(&wanted);
        pairs.position(|(found, wanted)| found != wanted)
    });
    match first_wrong.max_by_key(|place| place.unwrap_or(usize::MAX)) {
        Some(None) => Marked::right(),
        Some(Some(place)) => Marked::wrong(Hint::Becomes {
            element,
            range: trials[place].range,
        }),
        None => Marked::wrong(Hint::NotThat),
    }
}

/// The faults that elements can have: splines are no elements, and what slips is told by feel rather than by ratios.
fn faults(train: &Train) -> impl Iterator<Item = Fault> {
    let all = Fault::all(train).into_iter();
    all.filter(|fault| fault.element().is_some() && !matches!(fault, Fault::Slips(_)))
}

fn hidden(train: &Train, seed: u32) -> Option<Fault> {
    let trials = Trial::all(train);
    let shows = |fault: &Fault| {
        let found = outcomes(train, &trials, *fault);
        found.iter().any(|outcome| *outcome != Outcome::Right)
            && !found.contains(&Outcome::Undecided)
    };
    let mut all: Vec<Fault> = faults(train).filter(shows).collect();
    Dice::new(seed.into()).take(&mut all)
}

fn outcomes(train: &Train, trials: &[Trial], fault: Fault) -> Vec<Outcome> {
    let faulty = Faulty::new(train, &[fault]);
    trials.iter().map(|trial| faulty.outcome(trial)).collect()
}

fn id(train: &Train, element: usize) -> String {
    train.scenario().elements[element].id().to_owned()
}
