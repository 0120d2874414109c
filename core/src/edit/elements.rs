//! Edits of brakes, clutches and one-way clutches.

use super::fresh::{self, tidy};
use super::sets::unlike;
use super::{element_at, shaft_at};
use crate::base::problem::Problem;
use crate::model::scenario::{Brake, Clutch, Element, Friction, HOUSING, OneWay, Scenario, Way};

/// The kinds, as the file names them.
const KINDS: [&str; 3] = ["brake", "clutch", "one-way"];

/// Adds an element of a kind, as the file names it, between two bodies.
pub(super) fn add(scenario: &mut Scenario, kind: &str, ends: &[String; 2]) -> Result<(), Problem> {
    let (id, label) = fresh::element(scenario, kind);
    let [shaft, other] = ends.clone();
    let element = match kind {
        "brake" => Element::Brake(Brake {
            id,
            label,
            shaft,
            friction: None,
            gap: None,
        }),
        "clutch" => Element::Clutch(Clutch {
            id,
            label,
            between: [shaft, other],
            friction: None,
            gap: None,
        }),
        "one-way" => Element::OneWay(OneWay {
            id,
            label,
            shaft,
            against: other,
            locks: Way::Backward,
            gap: None,
        }),
        _ => {
            let names = KINDS.join(", ");
            let found = format!("\"{kind}\"");
            let values = [("found", &*found), ("what", "element")];
            return Err(Problem::of(
                "elements",
                ("problem-unknown-kind", &values),
                ("fix-use-one-of", &[("names", &names)]),
            ));
        }
    };
    check(scenario, &element)?;
    scenario.elements.push(element);
    Ok(())
}

/// Whether an element's ends are there and apart.
fn check(scenario: &Scenario, element: &Element) -> Result<(), Problem> {
    let ends = element.ends();
    let may_be_housing = [false, !matches!(element, Element::Clutch(_))];
    for (end, may_be_housing) in ends.into_iter().zip(may_be_housing) {
        if end != HOUSING || !may_be_housing {
            shaft_at(scenario, end)?;
        }
    }
    if ends[0] == ends[1] {
        let values = [("id", ends[0])];
        let problem = ("problem-same-ends", &values[..]);
        return Err(Problem::of(
            element.label(),
            problem,
            ("fix-two-shafts", &[]),
        ));
    }
    Ok(())
}

pub(super) fn remove(scenario: &mut Scenario, element: &str) -> Result<(), Problem> {
    let at = element_at(scenario, element)?;
    let removed = scenario.elements.remove(at);
    for range in &mut scenario.ranges {
        range.applied.retain(|id| id != element);
    }
    tidy(scenario, &removed.ends().map(str::to_owned));
    Ok(())
}

pub(super) fn label(scenario: &mut Scenario, element: &str, label: &str) -> Result<(), Problem> {
    let at = element_at(scenario, element)?;
    let known = match &mut scenario.elements[at] {
        Element::Brake(brake) => &mut brake.label,
        Element::Clutch(clutch) => &mut clutch.label,
        Element::OneWay(one_way) => &mut one_way.label,
    };
    label.clone_into(known);
    Ok(())
}

/// Has an element join other shafts; of a brake only the first end can be chosen.
pub(super) fn ends(
    scenario: &mut Scenario,
    element: &str,
    [shaft, other]: &[String; 2],
) -> Result<(), Problem> {
    let at = element_at(scenario, element)?;
    let before = scenario.elements[at].ends().map(str::to_owned);
    match &mut scenario.elements[at] {
        Element::Brake(brake) => brake.shaft.clone_from(shaft),
        Element::Clutch(clutch) => clutch.between = [shaft.clone(), other.clone()],
        Element::OneWay(one_way) => {
            one_way.shaft.clone_from(shaft);
            one_way.against.clone_from(other);
        }
    }
    check(scenario, &scenario.elements[at])?;
    tidy(scenario, &before);
    Ok(())
}

pub(super) fn locks(scenario: &mut Scenario, element: &str, way: Way) -> Result<(), Problem> {
    let at = element_at(scenario, element)?;
    match &mut scenario.elements[at] {
        Element::OneWay(one_way) => one_way.locks = way,
        other => {
            return Err(unlike(
                other.label(),
                "problem-no-one-way",
                "fix-one-way-only",
            ));
        }
    }
    Ok(())
}

pub(super) fn friction(
    scenario: &mut Scenario,
    element: &str,
    friction: Option<Friction>,
) -> Result<(), Problem> {
    let at = element_at(scenario, element)?;
    match &mut scenario.elements[at] {
        Element::Brake(Brake {
            friction: known, ..
        })
        | Element::Clutch(Clutch {
            friction: known, ..
        }) => *known = friction,
        Element::OneWay(one_way) => {
            return Err(unlike(
                &one_way.label,
                "problem-no-friction",
                "fix-no-friction",
            ));
        }
    }
    Ok(())
}
