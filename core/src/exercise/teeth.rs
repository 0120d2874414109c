//! Choose teeth for the gears of a set so that a range has the ratio asked for.

use crate::base::dice::Dice;
use levertrain_exact::Fraction;

use super::answer::{Marked, share};

use super::hint::Hint;
use super::task::{Task, in_range};
use crate::edit::near_ratios;
use crate::model::coupling::Teeth;
use crate::train::Train;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let ranges = 0..train.scenario().ranges.len();
    let own: Vec<_> = ranges.map(|range| ratio(train, range)).collect();
    let near: Vec<_> = train.scenario().couplings.iter().map(near_ratios).collect();
    let mut places = Vec::new();
    for (range, own) in own.iter().enumerate() {
        let sets = 0..train.scenario().couplings.len();
        places.extend(sets.filter(|_| own.is_some()).map(|set| (range, set)));
    }
    // A set that has nothing to do with a range gives it no other ratio.
    while let Some((range, set)) = dice.take(&mut places) {
        let own = &own[range];
        let mut near: Vec<_> = near[set].iter().collect();
        while let Some(near) = dice.take(&mut near) {
            let ratio = cut(train, set, &near.teeth).and_then(|changed| ratio(&changed, range));
            match ratio.filter(|ratio| own.as_ref() != Some(ratio)) {
                Some(ratio) => return Some(Task::Teeth { range, set, ratio }),
                // Its own is among them.
                None if near.ratio == own_ratio(train, set) => {}
                None => break,
            }
        }
    }
    None
}

pub(super) fn solve(
    train: &Train,
    range: usize,
    set: usize,
    wanted: &Fraction,
) -> Option<Vec<String>> {
    let near = near_ratios(&train.scenario().couplings[set]);
    let fits = |teeth: &Vec<Teeth>| {
        cut(train, set, teeth)
            .is_some_and(|changed| ratio(&changed, range).as_ref() == Some(wanted))
    };
    let teeth = near.into_iter().map(|near| near.teeth).find(fits)?;
    Some(teeth.iter().map(|teeth| teeth.get().to_string()).collect())
}

pub(super) fn mark(
    train: &Train,
    range: usize,
    set: usize,
    wanted: &Fraction,
    answer: &[String],
) -> Marked {
    let counts: Option<Vec<Teeth>> = answer
        .iter()
        .map(|text| Teeth::new(text.trim().parse().ok()?))
        .collect();
    let changed = counts.and_then(|counts| cut(train, set, &counts));
    let Some(changed) = changed else {
        return Marked::wrong(Hint::NoTeeth);
    };
    let warnings = changed.scenario().couplings[set].facts().tooth_warnings();
    let mut hints: Vec<Hint> = warnings
        .iter()
        .map(|warning| Hint::Rule(warning.sentence()))
        .collect();
    let kept = hints.is_empty();
    let found = ratio(&changed, range);
    let reached = found.as_ref() == Some(wanted);
    if !reached {
        let ratio = match &found {
            Some(found) if found.signum() != wanted.signum() => Hint::OtherWay,
            Some(found) if found.abs() > wanted.abs() => Hint::TooSlow,
            Some(_) => Hint::TooFast,
            None => Hint::NotThat,
        };
        hints.insert(0, ratio);
    }
    let credit = match (reached, kept) {
        (true, true) => Fraction::ONE,
        (true, false) => share(1, 2),
        _ => Fraction::ZERO,
    };
    Marked { credit, hints }
}

/// The train with other teeth in a set.
fn cut(train: &Train, set: usize, counts: &[Teeth]) -> Option<Train> {
    let mut scenario = train.scenario().clone();
    let gears = scenario.couplings[set].parts().teeth;
    if gears.len() != counts.len() {
        return None;
    }
    for ((_, teeth), &count) in gears.into_iter().zip(counts) {
        *teeth = count;
    }
    Train::new(scenario).ok()
}

fn ratio(train: &Train, range: usize) -> Option<Fraction> {
    in_range(train, range).state().ratio().cloned()
}

fn own_ratio(train: &Train, set: usize) -> Fraction {
    let own = crate::edit::ratio_of(&train.scenario().couplings[set]);
    own.map_or(Fraction::ZERO, |(_, ratio)| ratio)
}
