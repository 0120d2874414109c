//! Say how fast a shaft turns in a range.

use crate::base::dice::Dice;
use levertrain_exact::Fraction;

use super::answer::{Marked, share};
use super::decimal::number;

use super::hint::{Hint, look_at};
use super::task::{Task, in_range};
use crate::solve::Combination;
use crate::train::Train;

/// An answer is right within one part in so many.
const CLOSE: i64 = 100;
/// Within one in so many it has half of the credit.
const NEAR: i64 = 10;

pub(super) fn ask(train: &Train, dice: &mut Dice) -> Option<Task> {
    let mut all = Vec::new();
    for range in 0..train.scenario().ranges.len() {
        let combination = in_range(train, range);
        for shaft in 0..train.scenario().shafts.len() {
            // What stands still or turns with the input takes no reckoning.
            let speed = speed_in(&combination, shaft);
            if speed.is_some_and(|speed| !speed.is_zero() && speed != Fraction::ONE) {
                all.push(Task::Speed { range, shaft });
            }
        }
    }
    dice.take(&mut all)
}

pub(super) fn solve(train: &Train, range: usize, shaft: usize) -> Option<Vec<String>> {
    Some(vec![speed(train, range, shaft)?.to_string()])
}

pub(super) fn mark(train: &Train, range: usize, shaft: usize, answer: &[String]) -> Marked {
    let Some(right) = speed(train, range, shaft) else {
        return Marked::wrong(Hint::NoAnswer);
    };
    let [text] = answer else {
        return Marked::wrong(Hint::NoChoice);
    };
    let Some(said) = number(text) else {
        return Marked::wrong(Hint::NoNumber);
    };
    let within = |parts: i64| &(&said - &right).abs() * &Fraction::from(parts) <= right.abs();
    if within(CLOSE) {
        return Marked::right();
    }
    let hint = if said.signum() != right.signum() {
        match close(&-&said, &right) {
            true => Hint::OnlyTheWay,
            false if said.is_zero() || right.is_zero() => Hint::NotThat,
            false => Hint::OtherWay,
        }
    } else if said.recip().is_some_and(|other| close(&other, &right)) {
        Hint::Reciprocal
    } else if said.abs() > right.abs() {
        Hint::LessFast
    } else {
        Hint::MoreFast
    };
    let mut hints = vec![hint];
    if matches!(hints[0], Hint::NotThat | Hint::OtherWay) {
        hints.extend(look_at(train, range, shaft));
    }
    let credit = if within(NEAR) {
        share(1, 2)
    } else if said.signum() == right.signum() {
        share(1, 4)
    } else {
        Fraction::ZERO
    };
    Marked { credit, hints }
}

fn close(said: &Fraction, right: &Fraction) -> bool {
    &(said - right).abs() * &Fraction::from(CLOSE) <= right.abs()
}

fn speed(train: &Train, range: usize, shaft: usize) -> Option<Fraction> {
    speed_in(&in_range(train, range), shaft)
}

fn speed_in(combination: &Combination<'_>, shaft: usize) -> Option<Fraction> {
    combination.state().ratio()?;
    combination.shaft_speed(shaft)
}
