//! What every lever diagram must satisfy, checked on all that the scenarios can show.

use std::fmt::Write as _;

use levertrain_core::{Body, ElementSet};

use super::geometry::{Diagram, Node};
use super::marks::Look;
use super::{scene, shaft_at};
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Bounds, Ink, Label, Mark, Point, Scene, at};
use crate::draw::tests::scenarios;
use crate::motion::live::{Live, Motion};
use crate::units::speed_unit::SpeedUnit;

const WIDTHS: [f64; 4] = [320.0, 390.0, 1280.0, 1920.0];

/// Twelve sets in a row on twenty-four shafts with long names, the carrier of each on the sun
/// of the next.
fn largest() -> String {
    let mut shafts = String::new();
    for index in 0..24 {
        let comma = if index > 0 { "," } else { "" };
        let label = format!("Shaft {index} with a name as long as can be");
        _ = write!(shafts, r#"{comma}{{"id": "s{index}", "label": "{label}"}}"#);
    }
    let mut sets = String::new();
    for index in 0..12 {
        let comma = if index > 0 { "," } else { "" };
        let [sun, carrier] = [index, index + 1].map(|shaft| format!("s{shaft}"));
        let ring = match index {
            11 => "housing".to_owned(),
            _ => format!("s{}", index + 13),
        };
        _ = write!(
            sets,
            r#"{comma}{{"kind": "planetary", "id": "p{index}", "label": "Set {index}",
                "sun": {{"shaft": "{sun}", "teeth": 30}}, "carrier": "{carrier}",
                "ring": {{"shaft": "{ring}", "teeth": 70}},
                "pinion": {{"teeth": 20, "count": 4}}}}"#
        );
    }
    let mut brakes = String::new();
    for index in 0..3 {
        let comma = if index > 0 { "," } else { "" };
        let shaft = 13 + index;
        _ = write!(
            brakes,
            r#"{comma}{{"kind": "brake", "id": "b{index}", "label": "Brake {index}",
                "shaft": "s{shaft}"}}"#
        );
    }
    format!(
        r#"{{"format": 1, "name": "Largest", "about": "", "input": "s0", "output": "s12",
            "shafts": [{shafts}], "couplings": [{sets}], "elements": [{brakes}], "ranges": []}}"#
    )
}

pub(super) fn open(name: &str, text: &str) -> Session {
    Session::open(text).unwrap_or_else(|problems| panic!("{name}: {problems:?}"))
}

pub(super) fn arrive(session: &mut Session, applied: ElementSet) {
    session.apply(applied);
    session.settle();
}

/// Checks one diagram; `what` says which.
#[track_caller]
fn check(live: &Live<'_>, session: &Session, width: f64, merged: bool, what: &str) {
    let stage = session.layout().stage(width);
    let drawn = scene(live, &stage, merged);
    let diagram = Diagram::of(live, &stage, merged);
    let what = format!("{what}, {width} wide, merged: {merged}");
    check_labels(&drawn, &diagram, &what);
    check_inside(&drawn, &what);
    check_levers(&diagram, &what);
    assert_eq!(
        (drawn.width, drawn.height),
        (stage.size().width, stage.size().lever_height)
    );
}

#[track_caller]
fn check_labels(drawn: &Scene, diagram: &Diagram<'_>, what: &str) {
    let labels: Vec<&Label> = drawn.labels().collect();
    for (index, label) in labels.iter().enumerate() {
        for other in &labels[index + 1..] {
            assert!(
                !label.bounds().overlaps(&other.bounds()),
                "{what}: \"{}\" lies on \"{}\"",
                label.text,
                other.text
            );
        }
        for node in diagram.nodes() {
            let is_letter = label.at == node.at && node.roles_text.is_none();
            let reach = Look::of(node).reach(node.radius);
            assert!(
                is_letter || distance(label.bounds(), node.at) >= reach,
                "{what}: \"{}\" lies on a node",
                label.text
            );
        }
        assert!(label.size >= 12.0, "{what}: \"{}\" is tiny", label.text);
    }
}

fn distance(area: Bounds, point: Point) -> f64 {
    let x = point.x.clamp(area.left, area.left + area.width);
    let y = point.y.clamp(area.top, area.top + area.height);
    (point.x - x).hypot(point.y - y)
}

#[track_caller]
fn check_inside(drawn: &Scene, what: &str) {
    let inside = |point: Point, reach: f64| {
        let (x, y) = (point.x, point.y);
        x >= reach && y >= reach && x <= drawn.width - reach && y <= drawn.height - reach
    };
    for mark in &drawn.marks {
        let fits = match mark {
            Mark::Path { points, stroke } => points
                .iter()
                .all(|&point| inside(point, stroke.width / 2.0)),
            Mark::Fill { points, .. } => points.iter().all(|&point| inside(point, 0.0)),
            Mark::Disc { centre, radius, .. } => inside(*centre, *radius),
            Mark::Text(label) => {
                let area = label.bounds();
                inside(at(area.left, area.top), 0.0)
                    && inside(at(area.left + area.width, area.top + area.height), 0.0)
            }
        };
        assert!(fits, "{what}: outside: {mark:?}");
    }
}

/// Nodes on a straight line, those of one shaft level, held ones on the line of standstill.
#[track_caller]
fn check_levers(diagram: &Diagram<'_>, what: &str) {
    for lever in &diagram.levers {
        let (first, last) = (&lever.nodes[0], &lever.nodes[lever.nodes.len() - 1]);
        for node in &lever.nodes {
            let along = (node.at.x - first.at.x) / (last.at.x - first.at.x);
            let y = first.at.y + along * (last.at.y - first.at.y);
            assert!((node.at.y - y).abs() < 1e-6, "{what}: a bent lever");
        }
    }
    for link in &diagram.links {
        let level = link.ends.iter().all(|end| end.y == link.ends[0].y);
        assert!(level, "{what}: one shaft at two heights");
    }
}

#[track_caller]
fn check_combinations(name: &str, text: &str) {
    let mut session = open(name, text);
    let elements = session.train().scenario().elements.len();
    for bits in 0..1 << elements {
        arrive(&mut session, ElementSet::from_bits(bits));
        let live = session.live();
        for width in WIDTHS {
            for merged in [false, true] {
                check(&live, &session, width, merged, &format!("{name}, {bits:b}"));
            }
        }
    }
}

#[test]
fn every_combination_of_every_scenario_is_drawn_clear() {
    for (name, text) in scenarios() {
        check_combinations(&name, &text);
    }
}

#[test]
fn the_largest_train_is_drawn_clear() {
    check_combinations("the largest", &largest());
}

#[test]
fn previews_glides_and_odd_input_speeds_are_drawn_clear() {
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        let ranges = session.train().scenario().ranges.len();
        let elements = session.train().scenario().elements.len();
        for range in 0..ranges {
            session.apply(session.train().range(range));
            for (step, speed) in [(0.03, 1370.0), (0.05, -2500.0), (0.06, 0.0), (0.2, 1e7)] {
                session.advance(step);
                session.set(Settings {
                    speed,
                    ..Settings::default()
                });
                let what = format!("{name}, range {range}, {speed} rev/min");
                check(&session.live(), &session, 720.0, false, &what);
            }
            session.settle();
            for element in 0..elements {
                session.drag(element, 0.4);
                let what = format!("{name}, range {range}, trying {element}");
                for (width, merged) in [(360.0, false), (860.0, false), (860.0, true)] {
                    check(&session.live(), &session, width, merged, &what);
                }
                session.end_drag();
                session.settle();
            }
        }
    }
}

/// While a pack is on its way nothing it could change has changed yet.
#[test]
fn labels_stand_still_while_a_pack_is_dragged() {
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        for range in 0..session.train().scenario().ranges.len() {
            let applied = session.train().range(range);
            arrive(&mut session, applied);
            for element in 0..session.train().scenario().elements.len() {
                for width in [390.0, 720.0] {
                    let mut labels = |closure: f64| {
                        session.drag(element, closure);
                        let stage = session.layout().stage(width);
                        let drawn = scene(&session.live(), &stage, false);
                        drawn.labels().cloned().collect::<Vec<Label>>()
                    };
                    let first = labels(0.0);
                    for closure in [0.3, 0.51, 1.0] {
                        assert_eq!(
                            labels(closure),
                            first,
                            "{name}, range {range}, dragging {element} to {closure}"
                        );
                    }
                    session.end_drag();
                    session.settle();
                }
            }
        }
    }
}

#[test]
fn held_nodes_stand_on_the_line_of_standstill() {
    let mut held = 0;
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        for range in 0..session.train().scenario().ranges.len() {
            let applied = session.train().range(range);
            arrive(&mut session, applied);
            let live = session.live();
            let stage = session.layout().stage(860.0);
            let diagram = Diagram::of(&live, &stage, false);
            for node in diagram.nodes().filter(|node| node.motion == Motion::Held) {
                assert_eq!(node.at.y, diagram.axis.y(0.0), "{name}, range {range}");
                held += 1;
            }
        }
    }
    assert!(held > 0);
}

#[test]
fn levers_move_against_one_axis_through_all_ranges() {
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        let heights = |session: &Session| {
            let live = session.live();
            let stage = session.layout().stage(860.0);
            let axis = Diagram::of(&live, &stage, false).axis;
            (axis.y(0.0), axis.y(1.0))
        };
        let start = heights(&session);
        let check = |session: &Session| {
            let now = heights(session);
            // A glide rounds on its way.
            let moved = (now.0 - start.0).abs().max((now.1 - start.1).abs());
            assert!(moved < 1e-6, "{name}: {now:?} after {start:?}");
        };
        for range in 0..session.train().scenario().ranges.len() {
            session.apply(session.train().range(range));
            check(&session);
            session.advance(0.05);
            check(&session);
            session.settle();
            check(&session);
        }
    }
}

#[test]
fn nodes_and_ties_can_be_pointed_at() {
    for (name, text) in scenarios() {
        let session = open(&name, &text);
        let live = session.live();
        let stage = session.layout().stage(860.0);
        let diagram = Diagram::of(&live, &stage, false);
        for node in diagram.nodes() {
            let expected = match node.bodies[0] {
                Body::Housing => None,
                Body::Shaft(shaft) => Some(shaft),
            };
            let found = shaft_at(&live, &stage, false, at(node.at.x + 3.0, node.at.y));
            assert_eq!(found, expected, "{name}");
        }
        for link in &diagram.links {
            let middle = at(
                (link.ends[0].x + link.ends[1].x) / 2.0,
                link.ends[0].y + 2.0,
            );
            let lone = diagram.nodes().all(|node: &Node| {
                (node.at.x - middle.x).abs() > 20.0 || (node.at.y - middle.y).abs() > 20.0
            });
            let others = diagram
                .links
                .iter()
                .filter(|other| (other.ends[0].y - middle.y).abs() < 8.0);
            if lone && others.count() == 1 {
                let found = shaft_at(&live, &stage, false, middle);
                assert_eq!(found, Some(link.shaft), "{name}");
            }
        }
        assert_eq!(shaft_at(&live, &stage, false, at(1.0, 1.0)), None, "{name}");
    }
}

#[test]
fn states_are_said_in_words() {
    let text = r#"{"format": 1, "name": "One set", "input": "s", "output": "c",
        "shafts": [{"id": "s", "label": "Sun"}, {"id": "c", "label": "Carrier"},
                   {"id": "r", "label": "Ring"}],
        "couplings": [{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
            "sun": {"shaft": "s", "teeth": 30}, "ring": {"shaft": "r", "teeth": 70},
            "pinion": {"teeth": 20, "count": 4}}],
        "elements": [{"kind": "brake", "id": "B", "label": "Brake B", "shaft": "r"},
                     {"kind": "clutch", "id": "C", "label": "Clutch C", "between": ["s", "r"]}],
        "ranges": []}"#;
    let mut session = open("one set", text);
    let words = |session: &Session| -> Vec<String> {
        let stage = session.layout().stage(860.0);
        let drawn = scene(&session.live(), &stage, false);
        drawn.labels().map(|label| label.text.clone()).collect()
    };
    let says = |session: &Session, word: &str| words(session).iter().any(|text| text == word);
    let says_besides_key = |session: &Session, word: &str| {
        words(session).iter().filter(|text| *text == word).count() > 1
    };

    assert!(says_besides_key(&session, "free"));
    assert!(says(&session, "input 1000 rev/min"));
    session.drag(0, 0.3);
    assert!(says(&session, "preview"));
    arrive(&mut session, ElementSet::NONE.with(0));
    assert!(says(&session, "300"));
    assert!(says(&session, "Ring, Brake B"));
    // The key always explains what "free" looks like.
    assert!(!says(&session, "preview") && !says_besides_key(&session, "free"));
    arrive(&mut session, ElementSet::NONE.with(0).with(1));
    assert!(says_besides_key(&session, "fights"));
    assert!(says(&session, "input 1000 rev/min: blocked"));
    // 1000 · 2π / 60.
    session.set(Settings {
        speed_unit: SpeedUnit::RadPerSecond,
        ..Settings::default()
    });
    assert!(says(&session, "input 104.7 rad/s: blocked"));
}

/// The key says every word for a sign that some state of a train shows.
#[test]
fn the_key_explains_every_sign() {
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        session.set(Settings {
            power: true,
            ..Settings::default()
        });
        let shows_power = session.live().powers.is_some();
        let stage = session.layout().stage(860.0);
        let drawn = scene(&session.live(), &stage, false);
        let top = drawn.height - super::key::height(&stage, shows_power);
        let said: Vec<&str> = drawn
            .labels()
            .filter(|label| label.at.y > top)
            .map(|label| label.text.as_str())
            .collect();
        for word in [
            "forward", "backward", "held", "free", "fights", "open", "closed",
        ] {
            assert!(said.contains(&word), "{name}: no {word} in {said:?}");
        }
        // No sign reaches into another line.
        let mut rows = drawn.labels().filter(|label| label.at.y > top);
        let fights = rows.find(|label| label.text == "fights");
        let row = fights.map_or(top, |label| label.at.y);
        for mark in &drawn.marks {
            let Mark::Path { points, stroke } = mark else {
                continue;
            };
            let in_key = points.iter().all(|point| point.y > top);
            for point in points.iter().filter(|_| in_key && stroke.ink == Ink::Fight) {
                assert!((point.y - row).abs() <= 9.5, "{name}: {point:?} of {row}");
            }
        }
        let several = session.train().scenario().couplings.len() > 1;
        assert_eq!(said.contains(&"one shaft"), several, "{name}");
        assert_eq!(said.contains(&"no power"), shows_power, "{name}");
        let crosses = session.layout().crossings() > 0;
        assert_eq!(said.contains(&"passes behind"), crosses, "{name}");
    }
}

#[test]
fn all_is_drawn_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[
        every_combination_of_every_scenario_is_drawn_clear,
        previews_glides_and_odd_input_speeds_are_drawn_clear,
    ]);
}
