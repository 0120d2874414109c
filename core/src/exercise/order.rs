//! Put ranges in order, the largest ratio first.

use crate::base::dice::Dice;
use levertrain_exact::Fraction;

use super::answer::{Marked, share};

use super::hint::Hint;
use super::task::{Task, in_range};
use crate::base::short_sort::sort_short_by;
use crate::train::Train;

/// Fewest and most ranges to put in order.
const LEAST: usize = 3;
const MOST: usize = 6;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut known: Vec<Fraction> = Vec::new();
    let mut ranges = Vec::new();
    for range in 0..train.scenario().ranges.len() {
        let ratio = ratio(train, range).filter(|ratio| ratio.signum() > 0);
        if let Some(ratio) = ratio.filter(|ratio| !known.contains(ratio)) {
            known.push(ratio);
            ranges.push(range);
        }
    }
    (ranges.len() >= LEAST).then(|| Task::Order {
        ranges: dice.some(ranges, MOST),
    })
}

pub(super) fn solve(train: &Train, ranges: &[usize]) -> Option<Vec<String>> {
    let ids = in_order(train, ranges)?.into_iter();
    Some(
        ids.map(|range| train.scenario().ranges[range].id.clone())
            .collect(),
    )
}

pub(super) fn mark(train: &Train, ranges: &[usize], answer: &[String]) -> Marked {
    let Some(right) = in_order(train, ranges) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let at = |id: &String| {
        right
            .iter()
            .position(|&range| train.scenario().ranges[range].id == *id)
    };
    let places: Option<Vec<usize>> = answer.iter().map(at).collect();
    let whole = |places: &Vec<usize>| (0..right.len()).all(|place| places.contains(&place));
    let Some(places) = places.filter(|places| places.len() == right.len() && whole(places)) else {
        return Marked::wrong(Hint::NoChoice);
    };
    // As where things are picked: each two that stand the wrong way round take back what two in order give.
    let (mut rightly, mut all) = (0, 0);
    for (at, place) in places.iter().enumerate() {
        rightly += places[..at].iter().filter(|before| *before < place).count();
        all += at;
    }
    let wrong = places.windows(2).find(|pair| pair[0] > pair[1]);
    let hint = wrong.map(|pair| {
        // Who takes a large ratio for a fast output has all of them so.
        let least = right.last().and_then(|&range| ratio(train, range));
        match least.is_some_and(|ratio| ratio.signum() > 0) && rightly == 0 && all > 1 {
            true => Hint::Reversed,
            false => Hint::Compare(right[pair[0]], right[pair[1]]),
        }
    });
    Marked {
        credit: share((2 * rightly).saturating_sub(all), all),
        hints: hint.into_iter().collect(),
    }
}

/// The ranges with falling ratios; `None` where one has no ratio, two have the same, or it is one alone.
fn in_order(train: &Train, ranges: &[usize]) -> Option<Vec<usize>> {
    let ratios = ranges
        .iter()
        .map(|&range| Some((ratio(train, range)?, range)));
    let mut ratios: Vec<(Fraction, usize)> = ratios.collect::<Option<_>>()?;
    sort_short_by(&mut ratios, |(one, _), (other, _)| other.cmp(one));
    let falls = ratios.windows(2).all(|pair| pair[0].0 > pair[1].0);
    (falls && ratios.len() > 1).then(|| ratios.into_iter().map(|(_, range)| range).collect())
}

fn ratio(train: &Train, range: usize) -> Option<Fraction> {
    in_range(train, range).state().ratio().cloned()
}
