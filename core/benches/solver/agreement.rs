//! Before anything is timed: both solvers must give the same answers.

use levertrain_core::{Combination, State, Train};

use crate::dense::{Class, Dense, Outcome};

/// How far a floating-point speed may be from the exact one, relative to the larger of it and
/// one input turn.
const SPEED_TOLERANCE: f64 = 1e-9;

/// Compares class, degrees of freedom and every shaft's speed in every combination; the
/// number of combinations comes back.
///
/// # Errors
/// The first disagreement.
pub fn check(train: &Train) -> Result<usize, String> {
    let dense = Dense::new(train);
    let mut checked = Ok(0);
    train.for_each_combination(|exact| {
        if let Ok(count) = checked {
            let outcome = dense.solve(exact.applied());
            checked = check_one(exact, &outcome).map(|()| count + 1);
        }
    });
    checked
}

fn check_one(exact: &Combination<'_>, dense: &Outcome) -> Result<(), String> {
    let scenario = exact.train().scenario();
    let applied: Vec<&str> = exact
        .applied()
        .iter()
        .map(|element| scenario.elements[element].id())
        .collect();
    let differ = |what: &str, exact: String, dense: String| {
        Err(format!(
            "{} with {applied:?} applied: {what} is {exact} exactly, {dense} by the baseline",
            scenario.name
        ))
    };

    let class = class_of(exact.state());
    if class != dense.class {
        return differ(
            "the class",
            format!("{class:?}"),
            format!("{:?}", dense.class),
        );
    }
    let freedoms = exact.degrees_of_freedom();
    if freedoms != dense.degrees_of_freedom {
        return differ(
            "the number of freedoms",
            freedoms.to_string(),
            dense.degrees_of_freedom.to_string(),
        );
    }
    for (index, (shaft, &speed)) in scenario.shafts.iter().zip(&dense.speeds).enumerate() {
        let exact_speed = exact.shaft_speed(index).map(|speed| speed.to_f64());
        let agree = match (exact_speed, speed) {
            (None, None) => true,
            (Some(x), Some(y)) => (x - y).abs() <= SPEED_TOLERANCE * x.abs().max(1.0),
            _ => false,
        };
        if !agree {
            return differ(
                &format!("the speed of {}", shaft.id),
                format!("{exact_speed:?}"),
                format!("{speed:?}"),
            );
        }
    }
    Ok(())
}

fn class_of(state: &State) -> Class {
    match state {
        State::Driving(_) => Class::Driving,
        State::OverApplied(_) => Class::OverApplied,
        State::Neutral => Class::Neutral,
        State::OutputHeld => Class::OutputHeld,
        State::TiedUp => Class::TiedUp,
    }
}
