//! Power on the half-section of every driving range: nothing is lost at a junction, and all of
//! it comes in at the input.

use std::collections::BTreeMap;

use super::power::{sources, steps};
use super::*;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::Mark;
use crate::draw::tests::sessions;
use crate::motion::powers::Powers;

/// Calls `check` with every range of every scenario whose powers are known.
fn each_range(mut check: impl FnMut(&str, &Session, &Powers)) {
    let mut checked = 0;
    for (name, mut session) in sessions() {
        session.set(Settings {
            power: true,
            ..Settings::default()
        });
        for range in 0..session.train().scenario().ranges.len() {
            session.apply(session.train().range(range));
            session.settle();
            if let Some(powers) = session.live().powers {
                let label = session.train().scenario().ranges[range].label.clone();
                check(&format!("{name}, {label}"), &session, &powers);
                checked += 1;
            }
        }
    }
    assert!(checked > 20, "only {checked} ranges drive");
}

#[test]
fn what_flows_into_a_junction_flows_out_of_it() {
    let mut nodes = 0;
    each_range(|name, session, powers| {
        let (plan, train) = (&session.layout().plan, session.train());
        for shaft in 0..train.scenario().shafts.len() {
            let gears: Vec<_> = plan
                .parts
                .iter()
                .filter(|part| part.body == Body::Shaft(shaft))
                .map(|part| part.nodes(&plan.grid))
                .collect();
            // All that is on a gear counts at its first node.
            let place = |node| {
                let gear = gears.iter().find(|gear| gear.contains(&node));
                gear.map_or(node, |gear| gear[0])
            };
            let mut net: BTreeMap<_, f64> = BTreeMap::new();
            for (node, power) in sources(plan, train, powers, shaft) {
                *net.entry(place(node)).or_default() += power;
            }
            for step in steps(plan, train, powers, shaft) {
                *net.entry(place(step.from)).or_default() -= step.flow;
                *net.entry(place(step.to)).or_default() += step.flow;
            }
            for (node, rest) in net {
                assert!(
                    rest.abs() < 1e-9,
                    "{name}: {rest} stays at node {node} of shaft {shaft}"
                );
                nodes += 1;
            }
        }
    });
    assert!(nodes > 1000, "only {nodes} nodes");
}

#[test]
fn all_power_comes_in_at_the_input_and_goes_out_at_the_output() {
    each_range(|name, session, powers| {
        let (plan, train) = (&session.layout().plan, session.train());
        for (end, shaft) in [train.input(), train.output()].into_iter().enumerate() {
            let steps = steps(plan, train, powers, shaft);
            let node = plan.ends[end];
            let away: Vec<f64> = steps
                .iter()
                .filter(|step| step.from == node || step.to == node)
                .map(|step| {
                    if step.from == node {
                        step.flow
                    } else {
                        -step.flow
                    }
                })
                .collect();
            let expected = if end == 0 { 1.0 } else { -1.0 };
            let [flow] = away.as_slice() else {
                panic!("{name}: {} steps at end {end}", away.len());
            };
            assert!(
                (flow - expected).abs() < 1e-9,
                "{name}: {flow} at end {end}"
            );
        }
    });
}

#[test]
fn power_above_twice_the_input_is_noted() {
    let mut noted = 0;
    each_range(|name, session, powers| {
        let (plan, train) = (&session.layout().plan, session.train());
        let shafts = 0..train.scenario().shafts.len();
        let all = shafts.flat_map(|shaft| steps(plan, train, powers, shaft));
        let largest = all.fold(0.0_f64, |most, step| most.max(step.flow.abs()));
        let live = session.live();
        for width in [360.0, 860.0] {
            let scene = session.layout().stage(width).scene(&live);
            let note = scene.labels().find(|label| label.text.contains("up to"));
            assert_eq!(note.is_some(), largest > 2.0, "{name} at {width}");
            let labels: Vec<_> = scene.labels().collect();
            for (index, label) in labels.iter().enumerate() {
                for other in &labels[index + 1..] {
                    let apart = !other.bounds().overlaps(&label.bounds());
                    assert!(
                        apart,
                        "{name} at {width}: \"{}\" on \"{}\"",
                        label.text, other.text
                    );
                }
            }
            noted += usize::from(note.is_some());
        }
    });
    assert!(noted > 0, "no range carries that much");
}

#[test]
fn power_is_shown_by_arrow_heads() {
    each_range(|name, session, _| {
        let live = session.live();
        let mut plain = live.clone();
        plain.powers = None;
        let stage = session.layout().stage(860.0);
        let fills = |live: &Live<'_>| {
            let scene = stage.scene(live);
            let fills = scene
                .marks
                .iter()
                .filter(|m| matches!(m, Mark::Fill { .. }));
            fills.count()
        };
        assert!(fills(&live) > fills(&plain), "{name}: no arrow heads");
    });
}
