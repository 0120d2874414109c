//! Say which way a shaft turns in a range.

use super::answer::Marked;
use crate::base::dice::Dice;

use super::hint::{Hint, look_at};
use super::read::Way;
use super::task::{Task, in_range};
use crate::train::Train;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut all = Vec::new();
    for range in 0..train.scenario().ranges.len() {
        // Where the range drives, every shaft turns in some way, or stands, or is free.
        if in_range(train, range).state().ratio().is_some() {
            let shafts = (0..train.scenario().shafts.len()).filter(|&shaft| shaft != train.input());
            all.extend(shafts.map(|shaft| Task::Direction { range, shaft }));
        }
    }
    dice.take(&mut all)
}

pub(super) fn solve(train: &Train, range: usize, shaft: usize) -> Option<Vec<String>> {
    Some(vec![way(train, range, shaft)?.id().to_owned()])
}

pub(super) fn mark(train: &Train, range: usize, shaft: usize, answer: &[String]) -> Marked {
    let Some(right) = way(train, range, shaft) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    match answer {
        [said] if said == right.id() => Marked::right(),
        [said] if Way::ALL.iter().any(|way| way.id() == said) => {
            Marked::wrong(look_at(train, range, shaft).unwrap_or(Hint::NotThat))
        }
        _ => Marked::wrong(Hint::NoChoice),
    }
}

/// Which way it turns; `None` in a range that does not drive.
fn way(train: &Train, range: usize, shaft: usize) -> Option<Way> {
    let combination = in_range(train, range);
    combination.state().ratio()?;
    Some(Way::of(combination.shaft_speed(shaft).as_ref()))
}
