//! The half-section of every scenario: all there, all joined, nothing on top of anything.

use std::collections::{BTreeSet, HashMap};

use levertrain_core::{Body, ElementSet, Nesting};

use super::*;
use crate::draw::scene::{Bounds, Mark};
use crate::draw::tests::{session, sessions};

/// Everything of a shaft that must be in one piece: gears, leads, input or output end.
pub(super) fn places(plan: &Plan, train: &Train, shaft: usize) -> Vec<Vec<usize>> {
    let grid = plan.grid;
    let mut places = Vec::new();
    for part in &plan.parts {
        if part.body == Body::Shaft(shaft) {
            let row = match part.level {
                parts::Level::Sun => grid.sun_row(),
                parts::Level::Pin => grid.pin_row(),
                parts::Level::Ring => grid.ring_row(),
            };
            let start = grid.set_start(part.coupling);
            places.push(
                (start..start + 3)
                    .map(|column| grid.node(column, row))
                    .collect(),
            );
        }
    }
    for (element, pack) in plan.packs.iter().enumerate() {
        let [first, second] = train.ends(element);
        let leads = match *pack {
            plan::PackPlace::Brake { column } => vec![(first, grid.node(column, grid.brake_row()))],
            plan::PackPlace::Clutch {
                column,
                row,
                flipped,
            } => {
                let (left, right) = if flipped {
                    (second, first)
                } else {
                    (first, second)
                };
                vec![
                    (left, grid.node(column, row)),
                    (right, grid.node(column + 2, row)),
                ]
            }
        };
        let own = leads
            .into_iter()
            .filter(|(body, _)| *body == Body::Shaft(shaft));
        places.extend(own.map(|(_, node)| vec![node]));
    }
    for (end, owner) in plan.ends.iter().zip([train.input(), train.output()]) {
        if owner == shaft {
            places.push(vec![*end]);
        }
    }
    places
}

/// How many separate pieces the places of a shaft and its runs make.
pub(super) fn pieces(places: &[Vec<usize>], run: &[(usize, usize)]) -> usize {
    let mut leader: HashMap<usize, usize> = HashMap::new();
    fn find(leader: &mut HashMap<usize, usize>, node: usize) -> usize {
        let above = *leader.entry(node).or_insert(node);
        if above == node {
            node
        } else {
            find(leader, above)
        }
    }
    let within = places
        .iter()
        .flat_map(|place| place.windows(2).map(|pair| (pair[0], pair[1])));
    for (a, b) in within.chain(run.iter().copied()) {
        let (a, b) = (find(&mut leader, a), find(&mut leader, b));
        leader.insert(a, b);
    }
    let roots: BTreeSet<usize> = places
        .iter()
        .map(|place| find(&mut leader, place[0]))
        .collect();
    roots.len()
}

#[test]
fn every_shaft_is_in_one_piece() {
    for (name, session) in sessions() {
        let plan = &session.layout().plan;
        for (shaft, run) in plan.runs.iter().enumerate() {
            let count = pieces(&places(plan, session.train(), shaft), run);
            assert!(
                count <= 1,
                "{name}: shaft {shaft} is drawn in {count} pieces"
            );
        }
    }
}

#[test]
fn no_two_shafts_run_along_the_same_step() {
    for (name, session) in sessions() {
        let mut owner = HashMap::new();
        for (shaft, run) in session.layout().plan.runs.iter().enumerate() {
            for &(a, b) in run {
                let other = *owner.entry((a.min(b), a.max(b))).or_insert(shaft);
                assert_eq!(
                    other, shaft,
                    "{name}: shafts {other} and {shaft} share a line"
                );
            }
        }
    }
}

#[test]
fn nothing_crosses_where_nothing_must() {
    for (name, session) in sessions() {
        let crossings = session.layout().crossings();
        match session.train().nesting() {
            Nesting::Nests => assert_eq!(crossings, 0, "{name} can be built"),
            // The fewest that were found; none would be a fault of one or the other.
            Nesting::Crosses => assert!((1..=2).contains(&crossings), "{name}: {crossings}"),
            Nesting::Undecided => panic!("{name} is undecided"),
        }
    }
}

#[test]
fn members_on_the_housing_are_led_up_to_it() {
    let held = sessions()
        .into_iter()
        .map(|(name, session)| what_is_held(&name, &session.layout().plan, session.train()));
    assert!(
        held.sum::<usize>() >= 3,
        "too few members on the housing to tell"
    );
}

/// Fails with a member on the housing that is not led up to it, or a brake within one that is not joined to any; how many
/// of both there are.
#[track_caller]
pub(super) fn what_is_held(name: &str, plan: &Plan, train: &Train) -> usize {
    let housing = plan.runs.last().unwrap();
    let tops = plan.supports.iter();
    let tops: Vec<usize> = tops
        .map(|&column| plan.grid.node(column, plan.grid.brake_row()))
        .collect();
    let still = plan.parts.iter().filter(|part| part.body == Body::Housing);
    let parts: Vec<Vec<usize>> = still.map(|part| part.nodes(&plan.grid)).collect();
    for part in &parts {
        let comes_up = |&top: &usize| pieces(&[part.clone(), vec![top]], housing) == 1;
        assert!(
            tops.iter().any(comes_up),
            "{name}: a member hangs in the air"
        );
    }
    let mut held = parts.len();
    for (element, pack) in plan.packs.iter().enumerate() {
        let mut ends = train.ends(element).into_iter();
        let end = ends.position(|end| end == Body::Housing);
        if let plan::PackPlace::Clutch {
            column,
            row,
            flipped,
        } = *pack
            && let Some(end) = end
        {
            let right = (end == 1) != flipped;
            let lead = plan.grid.node(column + 2 * usize::from(right), row);
            let joined = |part: &Vec<usize>| pieces(&[part.clone(), vec![lead]], housing) == 1;
            assert!(
                parts.iter().any(joined),
                "{name}: brake {element} hangs in the air"
            );
            held += 1;
        }
    }
    held
}

#[test]
fn what_crosses_is_named() {
    let said = |start: &str| session(start).layout().caution();
    assert_eq!(said("02"), None);
    let said_of_one = said("01").unwrap();
    assert!(
        said_of_one.starts_with("Cannot be built as drawn: "),
        "{said_of_one}"
    );
    let said_of_held = said("04").unwrap();
    assert!(
        said_of_held.contains("would pass through"),
        "{said_of_held}"
    );
}

#[test]
fn handles_are_large_apart_and_inside() {
    for (name, session) in sessions() {
        for width in [360.0, 860.0, 1200.0] {
            let stage = session.layout().stage(width);
            let size = stage.size();
            let boxes: Vec<Bounds> = stage
                .handles(session.train())
                .iter()
                .map(|h| Bounds {
                    left: h.left,
                    top: h.top,
                    width: h.width,
                    height: h.height,
                })
                .collect();
            for (index, area) in boxes.iter().enumerate() {
                assert!(area.width >= 44.0 && area.height >= 44.0);
                let inside = area.left >= 0.0
                    && area.left + area.width <= size.width
                    && area.top >= 0.0
                    && area.top + area.height <= size.section_height;
                assert!(inside, "{name} at {width}: {area:?} leaves {size:?}");
                for other in &boxes[index + 1..] {
                    assert!(
                        !area.overlaps(other),
                        "{name} at {width}: {area:?} on {other:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn labels_do_not_overlap_and_everything_is_inside() {
    for (name, mut session) in sessions() {
        let elements = session.train().scenario().elements.len();
        let sets = (0..1_u32 << elements).map(ElementSet::from_bits);
        for applied in sets.step_by(1 + (1 << elements) / 64) {
            session.apply(applied);
            session.settle();
            let live = session.live();
            for width in [360.0, 860.0] {
                let scene = session.layout().stage(width).scene(&live);
                let labels: Vec<_> = scene.labels().collect();
                for (index, label) in labels.iter().enumerate() {
                    for other in &labels[index + 1..] {
                        assert!(
                            !label.bounds().overlaps(&other.bounds()),
                            "{name} at {width}: \"{}\" on \"{}\"",
                            label.text,
                            other.text
                        );
                    }
                }
                for mark in &scene.marks {
                    let points = match mark {
                        Mark::Path { points, .. } | Mark::Fill { points, .. } => points.clone(),
                        Mark::Disc { centre, .. } => vec![*centre],
                        Mark::Text(label) => {
                            let area = label.bounds();
                            vec![
                                at(area.left, area.top),
                                at(area.left + area.width, area.top + area.height),
                            ]
                        }
                    };
                    let inside = points.iter().all(|p| {
                        p.x >= -12.0
                            && p.x <= scene.width + 12.0
                            && p.y >= 0.0
                            && p.y <= scene.height
                    });
                    assert!(inside, "{name} at {width}: {mark:?} leaves the drawing");
                }
            }
        }
    }
}

#[test]
fn a_point_on_a_gear_finds_its_shaft() {
    for (name, session) in sessions() {
        let stage = session.layout().stage(860.0);
        for face in figures::faces(&stage) {
            let Body::Shaft(shaft) = face.body else {
                continue;
            };
            let area = face.area;
            let middle = at(area.left + area.width / 2.0, area.top + area.height / 2.0);
            assert_eq!(stage.shaft_at(middle), Some(shaft), "{name}");
        }
        assert_eq!(stage.shaft_at(at(1.0, 1.0)), None, "{name}");
    }
}

#[test]
fn a_one_way_clutch_that_stands_still_beside_a_brake_does_not_overrun() {
    let mut session = session("07");
    let mut said = |applied: &[&str]| {
        let applied = session
            .train()
            .element_set(applied.iter().copied())
            .unwrap();
        session.apply(applied);
        session.settle();
        let scene = session.layout().stage(860.0).scene(&session.live());
        let mut labels = scene.labels().map(|label| label.text.clone());
        labels.find(|text| text.starts_with("One-way Q"))
    };
    assert_eq!(said(&["H"]).as_deref(), Some("One-way Q locks"));
    assert_eq!(said(&["W", "H"]).as_deref(), Some("One-way Q overruns"));
    assert_eq!(said(&["V", "H"]).as_deref(), Some("One-way Q idle"));
    assert_eq!(said(&["V"]).as_deref(), Some("One-way Q idle"));
}

#[test]
fn packs_touch_no_line_but_their_own() {
    for (name, session) in sessions() {
        packs_are_clear(&name, session.layout());
    }
}

/// Fails with a pack that lies on a line of something else.
#[track_caller]
pub(super) fn packs_are_clear(name: &str, layout: &Layout) {
    for width in [320.0, 390.0, 860.0, 1920.0] {
        let stage = layout.stage(width);
        for (element, pack) in stage.plan().packs.iter().enumerate() {
            let upright = !pack.is_flat();
            let area = packs::area(stage.pack_centre(element), upright);
            let ends = stage.train().ends(element);
            for segment in wires::segments(&stage) {
                let line = Bounds {
                    left: segment.from.x.min(segment.to.x) - wires::SHAFT / 2.0,
                    top: segment.from.y.min(segment.to.y) - wires::SHAFT / 2.0,
                    width: (segment.from.x - segment.to.x).abs() + wires::SHAFT,
                    height: (segment.from.y - segment.to.y).abs() + wires::SHAFT,
                };
                assert!(
                    !line.overlaps(&area) || (ends.contains(&segment.body) && !upright),
                    "{name} at {width}: pack {element} at {area:?} on {segment:?}"
                );
            }
        }
    }
}

#[test]
fn labels_are_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[labels_do_not_overlap_and_everything_is_inside]);
}
