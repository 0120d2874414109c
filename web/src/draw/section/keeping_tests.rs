//! What a change leaves alone stays where it is, and what it adds is drawn as well as anything.

use std::collections::HashMap;
use std::task::Poll;

use levertrain_core::edit::{Edit, text as to_text};
use levertrain_core::scenario::{HOUSING, Scenario};
use levertrain_core::{Nesting, Train};

use super::keeping::was_turned;
use super::tests::{pieces, places, what_is_held};
use super::{Layout, Mending};
use crate::draw::tests::sessions;

fn edited(scenario: &Scenario, text: &str) -> Option<Train> {
    let after = Edit::parse(text).unwrap().of(scenario).ok()?;
    Train::new(after).ok()
}

/// Changes of every kind that change what there is, those that are possible.
fn changes(scenario: &Scenario) -> Vec<(String, Train)> {
    let mut texts = Vec::new();
    for at in [0, scenario.couplings.len() / 2, scenario.couplings.len()] {
        for kind in ["planetary", "ravigneaux", "gear-pair"] {
            texts.push(format!(
                r#"{{"edit": "add-set", "kind": "{kind}", "at": {at}}}"#
            ));
        }
    }
    for set in &scenario.couplings {
        let id = set.facts().id();
        texts.push(format!(r#"{{"edit": "remove-set", "set": "{id}"}}"#));
        texts.push(format!(r#"{{"edit": "repeat-set", "set": "{id}"}}"#));
        texts.push(format!(r#"{{"edit": "move-set", "set": "{id}", "at": 0}}"#));
        texts.push(format!(
            r#"{{"edit": "turn", "set": "{id}", "turned": true}}"#
        ));
        for member in 0..4 {
            texts.push(format!(
                r#"{{"edit": "place", "set": "{id}", "member": {member}, "shaft": ""}}"#
            ));
        }
    }
    for element in &scenario.elements {
        let id = element.id();
        texts.push(format!(
            r#"{{"edit": "remove-element", "element": "{id}"}}"#
        ));
        texts.push(format!(r#"{{"edit": "gap", "element": "{id}", "gap": 0}}"#));
    }
    let shafts = &scenario.shafts;
    for (at, shaft) in shafts.iter().enumerate() {
        let next = &shafts[(at + 1) % shafts.len()].id;
        let id = &shaft.id;
        for (kind, end) in [("brake", HOUSING), ("clutch", next), ("one-way", next)] {
            texts.push(format!(
                r#"{{"edit": "add-element", "kind": "{kind}", "ends": ["{id}", "{end}"]}}"#
            ));
        }
        texts.push(format!(
            r#"{{"edit": "connect", "first": "{id}", "second": "{next}"}}"#
        ));
        texts.push(format!(r#"{{"edit": "input", "shaft": "{id}"}}"#));
        texts.push(format!(r#"{{"edit": "output", "shaft": "{id}"}}"#));
    }
    let made = texts.into_iter();
    made.filter_map(|text| Some((text.clone(), edited(scenario, &text)?)))
        .collect()
}

/// The layout once it is bettered.
fn mended((mut layout, mending): (Layout, Option<Mending>)) -> Layout {
    let Some(mut mending) = mending else {
        return layout;
    };
    loop {
        if let Poll::Ready(better) = layout.mended(&mut mending) {
            if let Some(better) = better {
                layout = better;
            }
            return layout;
        }
    }
}

/// Catches leads that lead nowhere, shafts on top of one another, and what crosses though it need not.
#[test]
fn a_changed_train_is_drawn_whole() {
    for (name, session) in sessions() {
        changed_it_is_whole(&name, session.layout());
    }
}

/// Fails with a change of a train after which something is missing in its drawing, or on top of something else.
#[track_caller]
pub(super) fn changed_it_is_whole(name: &str, before: &Layout) {
    for (change, train) in changes(before.train.scenario()) {
        let layout = mended(before.after(&train));
        let plan = &layout.found;
        what_is_held(&format!("{name}, {change}"), plan, &train);
        let mut owner = HashMap::new();
        for (shaft, run) in plan.runs[..train.scenario().shafts.len()]
            .iter()
            .enumerate()
        {
            let count = pieces(&places(plan, &train, shaft), run);
            assert!(
                count <= 1,
                "{name}, {change}: shaft {shaft} in {count} pieces"
            );
            for &(a, b) in run {
                let other = *owner.entry((a.min(b), a.max(b))).or_insert(shaft);
                assert_eq!(other, shaft, "{name}, {change}: on one line");
            }
        }
        if train.nesting() == Nesting::Nests && !plan.crossings.is_empty() {
            // Laid out from nothing it is no better.
            let fresh = Layout::of(&train).crossings();
            assert!(plan.crossings.len() <= fresh, "{name}, {change}");
        }
        for (element, pack) in train.scenario().elements.iter().zip(&plan.packs) {
            if let Some(gap) = element.gap() {
                let column = pack.first_column();
                let at = (plan.grid.set_at(column), plan.grid.in_set(column));
                assert_eq!(at, (gap as usize, false), "{name}, {change}");
            }
        }
    }
}

/// Catches a brake that is added and has everything else find new places.
#[test]
fn what_was_not_touched_stays() {
    let (mut kept, mut all) = (0, 0);
    for (name, session) in sessions() {
        let before = &session.layout().found;
        let scenario = session.train().scenario();
        for (change, train) in changes(scenario) {
            let same = train.scenario().couplings.len() == scenario.couplings.len();
            if !same || change.contains("move-set") {
                continue;
            }
            let after = session.layout().after(&train).0.found;
            for (index, element) in scenario.elements.iter().enumerate() {
                let Some(now) = train.element(element.id()) else {
                    continue;
                };
                let stays = after.packs[now] == before.packs[index];
                // What is taken away is in nobody's way.
                assert!(stays || !change.contains("remove"), "{name}, {change}");
                all += 1;
                kept += usize::from(stays);
            }
        }
    }
    // Some rooms are full, and a choice of room is itself a move.
    assert!(kept * 100 > all * 95, "{kept} of {all} packs stay");
}

/// Catches steps that stay where they were when their set is turned round, in a drawing that is kept and in one laid out
/// anew, and a choice that a file loses.
#[test]
fn a_set_on_steps_is_turned_round() {
    let (_, session) = sessions().into_iter().next().unwrap();
    let add = r#"{"edit": "add-set", "kind": "stepped", "at": 0}"#;
    let with = edited(session.train().scenario(), add).unwrap();
    let id = with.scenario().couplings[0].facts().id().to_owned();
    let before = mended(session.layout().after(&with));
    assert_eq!(was_turned(&before.found, &with, 0), Some(false));
    for turned in [true, false] {
        let turn = format!(r#"{{"edit": "turn", "set": "{id}", "turned": {turned}}}"#);
        let train = edited(with.scenario(), &turn).unwrap();
        let kept = mended(before.after(&train));
        assert_eq!(was_turned(&kept.found, &train, 0), Some(turned));
        let stays = kept.found.figures[0] == before.found.figures[0];
        assert_eq!(stays, !turned);
        assert_eq!(Layout::of(&train).found.figures[0], kept.found.figures[0]);
        let text = to_text(train.scenario());
        assert_eq!(&Scenario::parse(&text).unwrap(), train.scenario());
    }
}
