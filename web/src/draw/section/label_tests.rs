//! No text of a half-section touches a line, gear, pack or word that is not its own.

use levertrain_core::ElementSet;

use super::*;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Bounds, Label, Mark, Point};
use crate::draw::tests::{scenarios, sessions};

const WIDTHS: [f64; 6] = [320.0, 390.0, 640.0, 860.0, 1280.0, 1920.0];

/// The same train with the longest labels that the format allows.
fn with_long_labels(text: &str) -> String {
    let mut count = 0;
    let lines = text.split_inclusive("\"label\":").map(|piece| {
        // Every piece but the first begins with the label.
        let Some(start) = piece.find('"').filter(|_| count > 0) else {
            count += 1;
            return piece.to_owned();
        };
        let end = start + 1 + piece[start + 1..].find('"').unwrap();
        count += 1;
        let label = format!("Number {count} with a name as long as it may be");
        let label: String = label.chars().take(40).collect();
        format!("{}{label}{}", &piece[..=start], &piece[end..])
    });
    lines.collect()
}

/// Whether a line of some width, cut straight at its ends, meets a box.
fn meets(from: Point, to: Point, half: f64, area: &Bounds) -> bool {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let across = if dx == 0.0 && dy != 0.0 { half } else { 0.0 };
    let upright = if dy == 0.0 && dx != 0.0 { half } else { 0.0 };
    let (across, upright) = match (across, upright) {
        (0.0, 0.0) => (half, half),
        sides => sides,
    };
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (step, start, low, high) in [
        (
            dx,
            from.x,
            area.left - across,
            area.left + area.width + across,
        ),
        (
            dy,
            from.y,
            area.top - upright,
            area.top + area.height + upright,
        ),
    ] {
        if step == 0.0 {
            if start <= low || start >= high {
                return false;
            }
            continue;
        }
        let (first, second) = ((low - start) / step, (high - start) / step);
        enters = enters.max(first.min(second));
        leaves = leaves.min(first.max(second));
    }
    leaves > enters
}

fn hull(points: &[Point]) -> Bounds {
    let side = |of: fn(&Point) -> f64| {
        let low = points.iter().map(of).fold(f64::INFINITY, f64::min);
        let high = points.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        (low, high - low)
    };
    let ((left, width), (top, height)) = (side(|p| p.x), side(|p| p.y));
    Bounds {
        left,
        top,
        width,
        height,
    }
}

fn within(inner: &Bounds, outer: &Bounds) -> bool {
    let corner = at(inner.left + inner.width, inner.top + inner.height);
    outer.contains(at(inner.left, inner.top)) && outer.contains(corner)
}

/// Fails with a text that touches what is not its own.
#[track_caller]
pub(super) fn check(scene: &Scene, what: &str) {
    for (index, mark) in scene.marks.iter().enumerate() {
        let Mark::Text(label) = mark else { continue };
        assert!(
            !label.plate,
            "{what}: \"{}\" may erase what is under it",
            label.text
        );
        let area = label.bounds();
        // The name of a gear stands on its gear, on ground of its own.
        let grounds = scene.marks[..index]
            .iter()
            .enumerate()
            .filter_map(|(at, mark)| match mark {
                Mark::Fill {
                    points,
                    ink: Ink::Metal,
                } => Some((at, hull(points))),
                _ => None,
            });
        let grounds: Vec<(usize, Bounds)> = grounds
            .filter(|(_, ground)| within(&area, ground))
            .collect();
        let painted_over = match grounds.as_slice() {
            [] => 0,
            [.., (_, gear), (ground, own)] => {
                assert!(
                    within(own, gear),
                    "{what}: \"{}\" leaves its gear",
                    label.text
                );
                *ground + 1
            }
            [_] => panic!("{what}: \"{}\" lies on a gear or pack", label.text),
        };
        for (other, mark) in scene.marks.iter().enumerate().skip(painted_over) {
            let is_leader = other + 1 == index
                && matches!(mark, Mark::Path { stroke, .. } if stroke.width == 1.0);
            let touches = match mark {
                _ if other == index || is_leader => false,
                Mark::Path { points, stroke } => points
                    .windows(2)
                    .any(|pair| meets(pair[0], pair[1], stroke.width / 2.0, &area)),
                Mark::Fill { points, .. } => hull(points).overlaps(&area),
                Mark::Disc { centre, radius, .. } => meets(*centre, *centre, *radius, &area),
                Mark::Text(label) => label.bounds().overlaps(&area),
            };
            assert!(
                !touches,
                "{what}: \"{}\" at {area:?} touches {mark:?}",
                label.text
            );
        }
    }
}

/// Ways to show a train: power or not, all gears to one scale or not.
const LOOKS: [(bool, bool); 4] = [(false, false), (true, false), (false, true), (true, true)];

fn look_so(session: &mut Session, (power, one_module): (bool, bool)) {
    session.set(Settings {
        power,
        one_module,
        ..Settings::default()
    });
}

/// Checks every range of a train at every width, in every look; what is said each time.
#[track_caller]
fn check_all(name: &str, text: &str) -> Vec<Vec<String>> {
    let mut session = Session::open(text).unwrap();
    let mut said = Vec::new();
    for look in LOOKS {
        look_so(&mut session, look);
        for width in WIDTHS {
            for range in 0..session.train().scenario().ranges.len() {
                session.apply(session.train().range(range));
                session.settle();
                let scene = session.layout().stage(width).scene(&session.live());
                check(
                    &scene,
                    &format!("{name}, range {range}, {width} wide, power and scale: {look:?}"),
                );
                said.push(scene.labels().map(|label| label.text.clone()).collect());
            }
        }
    }
    said
}

#[test]
fn names_are_clear_in_every_combination() {
    for (name, text) in scenarios() {
        let mut session = Session::open(&text).unwrap();
        let elements = session.train().scenario().elements.len();
        // An odd step meets every element open and closed.
        for bits in (0..1 << elements).step_by(1 + (1 << elements) / 64 / 2 * 2) {
            session.apply(ElementSet::from_bits(bits));
            session.settle();
            for look in LOOKS {
                look_so(&mut session, look);
                for width in [320.0, 1280.0] {
                    let scene = session.layout().stage(width).scene(&session.live());
                    check(&scene, &format!("{name}, {bits:b}, {width} wide, {look:?}"));
                }
            }
        }
    }
}

#[test]
fn no_label_moves_while_a_pack_is_dragged() {
    for (name, text) in scenarios() {
        let mut session = Session::open(&text).unwrap();
        let train = session.train().clone();
        for look in LOOKS {
            look_so(&mut session, look);
            for range in 0..train.scenario().ranges.len() {
                session.apply(train.range(range));
                session.settle();
                for (element, kind) in train.scenario().elements.iter().enumerate() {
                    if kind.is_one_way() {
                        continue;
                    }
                    let mut labels = |closure: f64| -> Vec<Label> {
                        session.drag(element, closure);
                        let scene = session.layout().stage(390.0).scene(&session.live());
                        check(
                            &scene,
                            &format!("{name}, range {range}, {element} at {closure}"),
                        );
                        scene.labels().cloned().collect()
                    };
                    let first = labels(0.0);
                    for closure in [0.3, 0.5, 0.7, 1.0] {
                        assert_eq!(labels(closure), first, "{name}, range {range}, {element}");
                    }
                    session.end_drag();
                    session.settle();
                }
            }
        }
    }
}

#[test]
fn every_name_of_our_scenarios_is_there_whole_and_clear() {
    for (name, text) in scenarios() {
        let session = Session::open(&text).unwrap();
        for said in check_all(&name, &text) {
            for element in &session.train().scenario().elements {
                assert!(
                    said.iter().any(|text| text.starts_with(element.label())),
                    "{name}: {} is not named in {said:?}",
                    element.label()
                );
            }
        }
    }
}

#[test]
fn long_names_are_cut_before_they_touch_anything() {
    for (name, text) in scenarios() {
        let text = with_long_labels(&text);
        let session = Session::open(&text).unwrap();
        assert!(
            session
                .train()
                .scenario()
                .elements
                .iter()
                .all(|x| x.label().chars().count() == 40)
        );
        for said in check_all(&format!("{name} with long labels"), &text) {
            let names = said.iter().filter(|text| text.starts_with("Nu"));
            let scenario = session.train().scenario();
            assert_eq!(
                names.count(),
                scenario.elements.len() + scenario.couplings.len(),
                "{name}: {said:?}"
            );
        }
    }
}

/// Catches a name whose neighbour took the room beside its pack, so that a long line leads to it.
#[test]
fn names_stand_near_their_packs() {
    const FAR: f64 = 70.0;
    let mut named = 0;
    for (name, session) in sessions() {
        for power in [false, true] {
            let stage = session.layout().stage(0.0);
            for (element, away) in stage.places(power).away().into_iter().enumerate() {
                assert!(away < FAR, "{name}, power {power}: {element} is {away}");
                named += 1;
            }
        }
    }
    assert!(named > 80, "{named}");
}

#[test]
fn labels_are_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[
        names_are_clear_in_every_combination,
        every_name_of_our_scenarios_is_there_whole_and_clear,
    ]);
}

/// A small train whose clutch has its name beyond the last part.
const SMALL: &str = r#"{"format": 2, "name": "x", "input": "in", "output": "out",
    "shafts": [{"id": "in", "label": "Input"}, {"id": "s", "label": "Sun"}, {"id": "out", "label": "Output"}],
    "couplings": [{"kind": "planetary", "id": "p1", "label": "Set", "sun": {"shaft": "s", "teeth": 30},
        "ring": {"shaft": "in", "teeth": 90}, "carrier": "out", "pinion": {"teeth": 30, "count": 4}}],
    "elements": [{"kind": "brake", "id": "V", "label": "Brake V", "shaft": "s"},
        {"kind": "clutch", "id": "H", "label": "Clutch H", "between": ["s", "out"]}],
    "ranges": [{"id": "low", "label": "Low", "applied": ["V"]}]}"#;

/// Catches the name of a clutch that a wide page carries off to the end of the drawing.
#[test]
fn names_stay_beside_their_packs_on_a_wide_page() {
    let session = Session::open(SMALL).unwrap();
    let layout = session.layout();
    let away = |width: f64| {
        let stage = layout.stage(width);
        let scene = stage.scene(&session.live());
        let name = scene.labels().find(|label| label.text == "Clutch H");
        (name.unwrap().at.x - stage.pack_centre(1).x).abs()
    };
    let narrow = away(0.0);
    for width in [860.0, 1600.0, 2400.0] {
        assert!(
            away(width) < 2.0 * narrow + 30.0,
            "{} at {width}, {narrow} at the least",
            away(width)
        );
    }
    check_all("a small train", SMALL);
}
