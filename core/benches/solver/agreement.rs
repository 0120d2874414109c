//! Before anything is timed: both solvers must give the same answers.

use levertrain_core::{Combination, Fraction, LossModel, Lossy, PowerFlow, State, Torques, Train};

use crate::dense::{Class, Dense, Effort, Outcome};

/// How far a floating-point speed, torque or power may be from the exact one, relative to the
/// larger of it and the input's.
const TOLERANCE: f64 = 1e-9;

/// Compares class, degrees of freedom, every shaft's speed, every torque and every power in
/// every combination; the number of combinations comes back.
///
/// # Errors
/// The first disagreement.
pub fn check(train: &Train) -> Result<usize, String> {
    let dense = Dense::new(train);
    let mut checked = Ok(0);
    train.for_each_combination(|exact| {
        if let Ok(count) = checked {
            let outcome = dense.solve(exact.applied());
            let effort = dense.effort(exact.applied(), &outcome);
            checked = check_one(exact, &outcome)
                .and_then(|()| check_effort(exact, effort.as_ref()))
                .map(|()| count + 1);
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
        if !agree(exact_speed, speed) {
            return differ(
                &format!("the speed of {}", shaft.id),
                format!("{exact_speed:?}"),
                format!("{speed:?}"),
            );
        }
    }
    Ok(())
}

fn agree(exact: Option<f64>, dense: Option<f64>) -> bool {
    match (exact, dense) {
        (None, None) => true,
        (Some(x), Some(y)) => (x - y).abs() <= TOLERANCE * x.abs().max(1.0),
        _ => false,
    }
}

fn check_effort(exact: &Combination<'_>, dense: Option<&Effort>) -> Result<(), String> {
    let train = exact.train();
    let name = || format!("{}, {:?}", train.scenario().name, exact.applied());
    let (torques, dense) = match (Torques::of(exact), dense) {
        (None, None) => return Ok(()),
        (Some(torques), Some(dense)) => (torques, dense),
        (torques, _) => return Err(format!("{}: exact efforts: {}", name(), torques.is_some())),
    };
    let powers = PowerFlow::of(exact, &torques);
    let mut wrong = Vec::new();
    let mut compare = |what: String, exact: Option<&Fraction>, dense: Option<f64>| {
        if !agree(exact.map(Fraction::to_f64), dense) {
            wrong.push(format!(
                "{what} is {exact:?} exactly, {dense:?} by the baseline"
            ));
        }
    };
    compare(
        "the output's torque".to_owned(),
        torques.output(),
        dense.output,
    );
    for (element, &(torque, power)) in dense.elements.iter().enumerate() {
        compare(
            format!("torque of {element}"),
            torques.element(element),
            torque,
        );
        compare(
            format!("power of {element}"),
            powers.element(element),
            power,
        );
    }
    for (coupling, members) in dense.members.iter().enumerate() {
        for (member, &(torque, power)) in members.iter().enumerate() {
            let of = format!("member {member} of {coupling}");
            compare(
                format!("torque of {of}"),
                torques.member(coupling, member),
                torque,
            );
            compare(
                format!("power of {of}"),
                powers.member(coupling, member),
                power,
            );
        }
    }
    match wrong.first() {
        None => Ok(()),
        Some(first) => Err(format!("{}: {first}", name())),
    }
}

/// Compares the efficiency of every named range, where every mesh belongs to one row.
///
/// # Errors
/// The first disagreement.
pub fn check_losses(train: &Train) -> Result<(), String> {
    let dense = Dense::new(train);
    let model = LossModel::default();
    if !dense.has_meshes_apart() {
        return Ok(());
    }
    for (index, range) in train.scenario().ranges.iter().enumerate() {
        let applied = train.range(index);
        let exact = match Lossy::of(&train.solve(applied), &model) {
            Some(Lossy::Drives(torques)) => Some(torques.efficiency),
            _ => None,
        };
        let found = dense.efficiency(applied, &dense.solve(applied), model.mesh_efficiency);
        if !agree(exact, found) {
            let name = &train.scenario().name;
            return Err(format!(
                "{name}, {}: {exact:?}, by the baseline {found:?}",
                range.id
            ));
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
