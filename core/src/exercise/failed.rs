//! Name the element that failed, by what the ranges have become.
//!
//! The fault is drawn anew from the seed, so that it stands in no file. Every element that would give just the same is
//! right: no range tells them apart.

use super::answer::Marked;
use crate::base::dice::Dice;

use super::hint::Hint;
use super::task::Task;
use crate::faults::{Fault, Faulty, Outcome, Trial};
use crate::train::Train;

/// Seeds of tasks are below this.
const SEEDS: usize = 1 << 30;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let seed = u32::try_from(dice.below(SEEDS)).ok()?;
    Hidden::of(train, seed)?;
    Some(Task::Failed { seed })
}

/// What is tried, with what becomes of it; nothing where no single element that fails would show.
pub(super) fn shown(train: &Train, seed: u32) -> Option<Vec<(Trial, Outcome)>> {
    let Hidden { trials, found, .. } = Hidden::of(train, seed)?;
    Some(trials.into_iter().zip(found).collect())
}

pub(super) fn solve(train: &Train, seed: u32) -> Option<Vec<String>> {
    let element = Hidden::of(train, seed)?.fault.element()?;
    Some(vec![id(train, element)])
}

pub(super) fn mark(train: &Train, seed: u32, answer: &[String]) -> Marked {
    let Some(hidden) = Hidden::of(train, seed) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let [picked] = answer else {
        return Marked::wrong(Hint::NoChoice);
    };
    let Some(element) = train.element(picked) else {
        return Marked::wrong(Hint::NoChoice);
    };
    let own = faults(train).filter(|fault| fault.element() == Some(element));
    let own: Vec<Vec<Outcome>> = own
        .map(|fault| outcomes(train, &hidden.trials, fault).collect())
        .collect();
    if own.contains(&hidden.found) {
        return Marked::right();
    }
    // What no fault of it would give says most: else the hint would be wrong of one of them.
    let trials = 0..hidden.trials.len();
    let telling = |trial: &usize| {
        own.iter()
            .all(|found| found[*trial] != hidden.found[*trial])
    };
    let place = trials.filter(|_| !own.is_empty()).find(telling);
    Marked::wrong(place.map_or(Hint::NotThat, |place| Hint::Becomes {
        element,
        range: hidden.trials[place].range,
    }))
}

/// The faults that elements can have: splines are no elements, and what slips is told by feel rather than by ratios.
fn faults(train: &Train) -> impl Iterator<Item = Fault> {
    let all = Fault::all(train).into_iter();
    all.filter(|fault| fault.element().is_some() && !matches!(fault, Fault::Slips(_)))
}

/// The fault of a seed.
struct Hidden {
    fault: Fault,
    trials: Vec<Trial>,
    /// What becomes of each.
    found: Vec<Outcome>,
}

impl Hidden {
    /// Draws faults until one shows.
    fn of(train: &Train, seed: u32) -> Option<Self> {
        let trials = Trial::all(train);
        let mut dice = Dice::new(seed.into());
        let mut all: Vec<Fault> = faults(train).collect();
        while let Some(fault) = dice.take(&mut all) {
            let decided = outcomes(train, &trials, fault)
                .take_while(|outcome| *outcome != Outcome::Undecided);
            let found: Vec<Outcome> = decided.collect();
            let shows = found.iter().any(|outcome| *outcome != Outcome::Right);
            if shows && found.len() == trials.len() {
                return Some(Self {
                    fault,
                    trials,
                    found,
                });
            }
        }
        None
    }
}

fn outcomes(train: &Train, trials: &[Trial], fault: Fault) -> impl Iterator<Item = Outcome> {
    let faulty = Faulty::new(train, &[fault]);
    trials.iter().map(move |trial| faulty.outcome(trial))
}

fn id(train: &Train, element: usize) -> String {
    train.scenario().elements[element].id().to_owned()
}
