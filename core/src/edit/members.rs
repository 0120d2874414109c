//! Edits of what turns as one piece.

use super::fresh::{self, tidy};
use super::sets::{no_such, unlike};
use super::{set_at, shaft_at};
use crate::base::problem::Problem;
use crate::base::said::said;
use crate::model::coupling::Parts;
use crate::model::scenario::{Brake, Element, HOUSING, Scenario, Way, limits};
use crate::words::word;

/// Has the train driven through this shaft.
pub(super) fn drive(scenario: &mut Scenario, shaft: &str) -> Result<(), Problem> {
    shaft_at(scenario, shaft)?;
    let before = std::mem::replace(&mut scenario.input, shaft.to_owned());
    if scenario.output == shaft {
        scenario.output.clone_from(&before);
    }
    tidy(scenario, &[before]);
    Ok(())
}

/// Has the train deliver through this shaft.
pub(super) fn deliver(scenario: &mut Scenario, shaft: &str) -> Result<(), Problem> {
    shaft_at(scenario, shaft)?;
    let before = std::mem::replace(&mut scenario.output, shaft.to_owned());
    if scenario.input == shaft {
        scenario.input.clone_from(&before);
    }
    tidy(scenario, &[before]);
    Ok(())
}

/// Puts a member on another shaft, on the housing, or where `shaft` is empty on one of its own.
pub(super) fn place(
    scenario: &mut Scenario,
    set: &str,
    member: usize,
    shaft: &str,
) -> Result<(), Problem> {
    let at = set_at(scenario, set)?;
    let facts = scenario.couplings[at].facts();
    let members = facts.members();
    let Some(role) = members.get(member).map(|member| member.role) else {
        let count = members.len();
        return Err(no_such("problem-no-member", facts.label(), member, count));
    };
    let shaft = match shaft {
        "" => fresh::shaft(scenario, role, at + 1),
        HOUSING => HOUSING.to_owned(),
        known => scenario.shafts[shaft_at(scenario, known)?].id.clone(),
    };
    let Parts { label, shafts, .. } = scenario.couplings[at].parts();
    match shafts.into_iter().nth(member).flatten() {
        Some(known) => {
            let before = std::mem::replace(known, shaft);
            tidy(scenario, &[before]);
            Ok(())
        }
        None => Err(unlike(label, "problem-frame", "fix-frame")),
    }
}

/// Makes one body of two: all that is on `second` is on `first` then. One of them may be the housing,
/// which then holds all that was on the other.
pub(super) fn connect(scenario: &mut Scenario, first: &str, second: &str) -> Result<(), Problem> {
    let (first, second) = match second {
        HOUSING => (second, first),
        _ => (first, second),
    };
    if first != HOUSING {
        shaft_at(scenario, first)?;
    }
    if first == second {
        return Err(already_one(scenario, first));
    }
    let gone = shaft_at(scenario, second)?;
    apart(scenario, first, second)?;
    for set in &mut scenario.couplings {
        for shaft in set.parts().shafts.into_iter().flatten() {
            rename(shaft, first, second);
        }
    }
    for element in &mut scenario.elements {
        match element {
            Element::Brake(brake) => rename(&mut brake.shaft, first, second),
            Element::Clutch(clutch) => {
                for end in &mut clutch.between {
                    rename(end, first, second);
                }
            }
            Element::OneWay(one_way) => {
                rename(&mut one_way.shaft, first, second);
                rename(&mut one_way.against, first, second);
            }
        }
        if first == HOUSING {
            against_housing(element);
        }
    }
    rename(&mut scenario.input, first, second);
    rename(&mut scenario.output, first, second);
    let removed = scenario.shafts.remove(gone);
    let mut shafts = scenario.shafts.iter_mut().enumerate();
    if let Some((at, kept)) = shafts.find(|(_, shaft)| shaft.id == first) {
        // In the order of the file, which is that of the axis.
        kept.label = match at < gone {
            true => joined(&kept.label, &removed.label),
            false => joined(&removed.label, &kept.label),
        };
    }
    Ok(())
}

/// The label of two shafts that have become one; the first's alone where both are too long.
fn joined(first: &str, second: &str) -> String {
    let mut second = second.to_owned();
    // A name of capitals keeps them.
    let begins_word = second.as_bytes().get(1).is_some_and(u8::is_ascii_lowercase);
    if let Some(letter) = second.get_mut(..1).filter(|_| begins_word) {
        letter.make_ascii_lowercase();
    }
    let both = said("edit-joined", &[("first", first), ("second", &second)]);
    match both.chars().count() > limits::LABEL_CHARS {
        true => first.to_owned(),
        false => both,
    }
}

/// Makes of an element with the housing at an end that may not be it the one that does the same: of a
/// clutch a brake on the other shaft, of a one-way clutch one that keeps that shaft from turning the
/// other way.
fn against_housing(element: &mut Element) {
    match element {
        Element::Clutch(clutch) => {
            let [one, other] = &clutch.between;
            let shaft = match (one.as_str(), other.as_str()) {
                (HOUSING, _) => other,
                (_, HOUSING) => one,
                _ => return,
            };
            *element = Element::Brake(Brake {
                id: clutch.id.clone(),
                label: clutch.label.clone(),
                shaft: shaft.clone(),
                friction: clutch.friction,
                gap: clutch.gap,
            });
        }
        Element::OneWay(one_way) if one_way.shaft == HOUSING => {
            std::mem::swap(&mut one_way.shaft, &mut one_way.against);
            one_way.locks = match one_way.locks {
                Way::Forward => Way::Backward,
                Way::Backward => Way::Forward,
            };
        }
        _ => {}
    }
}

fn rename(shaft: &mut String, to: &str, from: &str) {
    if shaft == from {
        to.clone_into(shaft);
    }
}

fn label<'a>(scenario: &'a Scenario, id: &'a str) -> &'a str {
    if id == HOUSING {
        let own = scenario.housing_label.as_deref();
        return own.unwrap_or_else(|| word("housing"));
    }
    let shaft = scenario.shafts.iter().find(|shaft| shaft.id == id);
    shaft.map_or(id, |shaft| &shaft.label)
}

fn already_one(scenario: &Scenario, shaft: &str) -> Problem {
    let values = [("shaft", label(scenario, shaft))];
    Problem::of(
        "shafts",
        ("problem-connect-itself", &values),
        ("fix-two-shafts", &[]),
    )
}

/// Whether two shafts may become one: nothing may be between them.
fn apart(scenario: &Scenario, first: &str, second: &str) -> Result<(), Problem> {
    let shafts = [label(scenario, first), label(scenario, second)];
    let between = |message: &str, what: &str, fix: &str| {
        let values = [("first", shafts[0]), ("second", shafts[1]), ("what", what)];
        Problem::of("shafts", (message, &values), (fix, &values))
    };
    let is_one = |id: &str| id == first || id == second;
    let ends = [&scenario.input, &scenario.output].map(|end| is_one(end));
    if ends == [true; 2] {
        return Err(between("problem-connect-ends", "", "fix-connect-ends"));
    }
    if first == HOUSING && ends.contains(&true) {
        return Err(between("problem-hold-end", "", "fix-hold-end"));
    }
    for set in &scenario.couplings {
        let facts = set.facts();
        let members = facts.members();
        if members.iter().filter(|member| is_one(member.shaft)).count() > 1 {
            return Err(between(
                "problem-connect-set",
                facts.label(),
                "fix-connect-set",
            ));
        }
    }
    for element in &scenario.elements {
        if element.ends().into_iter().all(is_one) {
            return Err(between(
                "problem-connect-element",
                element.label(),
                "fix-connect-element",
            ));
        }
    }
    Ok(())
}
