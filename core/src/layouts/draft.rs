//! A layout as a scenario.

use super::class::{Class, FURTHER, HOUSING, INPUT, OUTPUT};
use super::frame::{Pair, Pairs, each};
use crate::base::said::{said, word};
use crate::edit::{blank, fresh};
use crate::model::scenario::{self, Brake, Clutch, Element, Range, Scenario};

/// The scenario of sets joined like this, with elements between these pairs, and ranges with their names.
pub(super) fn scenario(
    class: &Class,
    bodies: &[u8],
    all: &[Pair],
    elements: Pairs,
    ranges: &[(String, Pairs)],
) -> Scenario {
    let mut scenario = blank();
    word("layout-name").clone_into(&mut scenario.name);
    let mut ids = vec![scenario::HOUSING.to_owned(); usize::from(class.shafts) + 1];
    ids[usize::from(INPUT)].clone_from(&scenario.input);
    ids[usize::from(OUTPUT)].clone_from(&scenario.output);
    for body in FURTHER..=class.shafts {
        if let Some(member) = bodies.iter().position(|&on| on == body) {
            let (role, set) = (class.roles[member], class.set_of(member));
            ids[usize::from(body)] = fresh::shaft(&mut scenario, role, set + 1);
        }
    }
    for (at, set) in class.sets.iter().enumerate() {
        let mut set = set.clone();
        let parts = set.parts();
        *parts.id = format!("p{}", at + 1);
        *parts.label = said("edit-set", &[("number", &(at + 1).to_string())]);
        for (shaft, member) in parts.shafts.into_iter().zip(class.members(at)) {
            if let Some(shaft) = shaft {
                shaft.clone_from(&ids[usize::from(bodies[member])]);
            }
        }
        scenario.couplings.push(set);
    }
    // Clutches first; of each kind in the order of the pairs.
    let mut names = vec![String::new(); all.len()];
    for braked in [false, true] {
        for at in each(elements).filter(|&at| (all[at][0] == HOUSING) == braked) {
            let kind = if braked { "brake" } else { "clutch" };
            let (id, label) = fresh::element(&scenario, kind);
            names[at].clone_from(&id);
            let [low, high] = all[at].map(|body| ids[usize::from(body)].clone());
            scenario.elements.push(if braked {
                Element::Brake(Brake {
                    id,
                    label,
                    shaft: high,
                    friction: None,
                    gap: None,
                })
            } else {
                Element::Clutch(Clutch {
                    id,
                    label,
                    between: [low, high],
                    friction: None,
                    gap: None,
                })
            });
        }
    }
    scenario.ranges = ranges
        .iter()
        .map(|(name, pairs)| Range {
            id: name.clone(),
            label: name.clone(),
            applied: each(*pairs).map(|at| names[at].clone()).collect(),
        })
        .collect();
    scenario
}
