//! Edits of sets and pairs.

use super::fresh::{self, tidy};
use super::{moved, samples, set_at};
use crate::base::problem::Problem;
use crate::model::coupling::{Coupling, Mesh, Parts, PinionCount, Role, Teeth};
use crate::model::scenario::Scenario;

/// Puts a new set of a kind at a place along the axis, each member on a shaft of its own.
pub(super) fn add(scenario: &mut Scenario, kind: &str, at: usize) -> Result<(), Problem> {
    insert(scenario, samples::set(kind)?, at);
    Ok(())
}

/// Puts a copy of a set beside it.
pub(super) fn repeat(scenario: &mut Scenario, set: &str) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    insert(scenario, scenario.couplings[at].clone(), at + 1);
    Ok(())
}

/// Inserts a set under a name of its own, on shafts of its own.
fn insert(scenario: &mut Scenario, mut set: Coupling, at: usize) {
    let (number, id, label) = fresh::set(scenario);
    let roles: Vec<Role> = set
        .facts()
        .members()
        .iter()
        .map(|member| member.role)
        .collect();
    let parts = set.parts();
    *parts.id = id;
    *parts.label = label;
    for (shaft, role) in parts.shafts.into_iter().zip(roles) {
        if let Some(shaft) = shaft {
            *shaft = fresh::shaft(scenario, role, number);
        }
    }
    let at = at.min(scenario.couplings.len());
    scenario.couplings.insert(at, set);
    // What is drawn further along goes with what it stands beside.
    regap(scenario, |gap| if gap > at { gap + 1 } else { gap });
}

/// Has the rooms that elements are drawn in follow the sets.
fn regap(scenario: &mut Scenario, to: impl Fn(usize) -> usize) {
    for element in &mut scenario.elements {
        let gap = element.gap().map(|gap| to(gap as usize) as u32);
        element.set_gap(gap);
    }
}

pub(super) fn remove(scenario: &mut Scenario, set: &str) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    let removed = scenario.couplings.remove(at);
    regap(scenario, |gap| if gap > at { gap - 1 } else { gap });
    let members = removed.facts().members();
    let shafts: Vec<String> = members.iter().map(|x| x.shaft.to_owned()).collect();
    tidy(scenario, &shafts);
    Ok(())
}

pub(super) fn shift(scenario: &mut Scenario, set: &str, to: usize) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    moved(&mut scenario.couplings, at, to);
    Ok(())
}

/// Changes the tooth count of a gear.
pub(super) fn cut(
    scenario: &mut Scenario,
    set: &str,
    gear: usize,
    teeth: Teeth,
) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    let Parts {
        label,
        teeth: mut gears,
        ..
    } = scenario.couplings[at].parts();
    let count = gears.len();
    match gears.get_mut(gear) {
        Some((_, known)) => **known = teeth,
        None => return Err(no_such("problem-no-gear", label, gear, count)),
    }
    Ok(())
}

/// Changes the tooth counts of all gears.
pub(super) fn cut_all(scenario: &mut Scenario, set: &str, counts: &[Teeth]) -> Result<(), Problem> {
    for (gear, teeth) in counts.iter().enumerate() {
        cut(scenario, set, gear, *teeth)?;
    }
    Ok(())
}

/// Says that a set has no gear, or no member, of that number.
pub(super) fn no_such(message: &str, label: &str, at: usize, count: usize) -> Problem {
    let most = count.saturating_sub(1).to_string();
    Problem::of(
        label,
        (message, &[("found", &at.to_string())]),
        ("fix-number", &[("most", &most)]),
    )
}

pub(super) fn count(scenario: &mut Scenario, set: &str, count: PinionCount) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    let Parts {
        label,
        count: known,
        ..
    } = scenario.couplings[at].parts();
    let Some(known) = known else {
        return Err(unlike(label, "problem-no-pinions", "fix-set-with-pinions"));
    };
    *known = count;
    Ok(())
}

pub(super) fn mesh(scenario: &mut Scenario, set: &str, mesh: Mesh) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    match &mut scenario.couplings[at] {
        Coupling::GearPair(pair) => pair.mesh = mesh,
        other => return Err(unlike(other.facts().label(), "problem-no-pair", "fix-pair")),
    }
    Ok(())
}

pub(super) fn turn(
    scenario: &mut Scenario,
    set: &str,
    turned: Option<bool>,
) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    let Parts {
        label,
        turned: known,
        ..
    } = scenario.couplings[at].parts();
    let Some(known) = known else {
        return Err(unlike(label, "problem-no-two-suns", "fix-two-suns"));
    };
    *known = turned;
    Ok(())
}

/// Says that something is not of the kind that has what is changed.
pub(super) fn unlike(label: &str, problem: &str, fix: &str) -> Problem {
    Problem::of(label, (problem, &[]), (fix, &[]))
}
