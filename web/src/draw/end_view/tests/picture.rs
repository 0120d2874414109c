//! The drawing as a whole: complete, inside its bounds, readable.

use levertrain_core::ElementSet;

use super::super::scene;
use super::{COUPLINGS, session};
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Bounds, Ink, Label, Mark, Point, Scene};
use crate::draw::tests::sessions;
use crate::motion::live::{Live, Motion};

/// From a phone's corner of the page to a projector.
const SIZES: [(f64, f64); 5] = [
    (280.0, 280.0),
    (340.0, 300.0),
    (420.0, 420.0),
    (600.0, 600.0),
    (500.0, 320.0),
];

/// The couplings of the module above with nothing, one, and both brakes applied, and every
/// scenario file there is in each of its ranges.
fn for_each_live(mut visit: impl FnMut(&Live<'_>)) {
    let mut show = |mut session: Session, sets: &[ElementSet]| {
        session.set(turning());
        for &set in sets {
            session.apply(set);
            session.settle();
            session.advance(0.1);
            visit(&session.live());
        }
    };
    let brakes = |bits: [bool; 2]| (0..2).filter(|&brake| bits[brake]).collect();
    for coupling in COUPLINGS {
        let sets = [[false, false], [true, false], [false, true], [true, true]];
        show(session(coupling), &sets.map(brakes));
    }
    for (_, session) in sessions() {
        let ranges = session.train().scenario().ranges.len();
        let sets: Vec<ElementSet> = (0..ranges)
            .map(|range| session.train().range(range))
            .collect();
        show(session, &sets);
    }
}

/// Every coupling of every live train, the sizes in turn.
fn for_each_scene(mut visit: impl FnMut(&Live<'_>, usize, &Scene)) {
    let mut sizes = SIZES.into_iter().cycle();
    for_each_live(|live| {
        for coupling in 0..live.train.scenario().couplings.len() {
            for size in sizes.by_ref().take(2) {
                visit(live, coupling, &scene(live, coupling, size));
            }
        }
    });
}

/// The box that a mark fills.
fn reach(mark: &Mark) -> Bounds {
    let round = |points: &[Point], by: f64| {
        let ends = |value: fn(&Point) -> f64| {
            let values = points.iter().map(value);
            values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let ((left, right), (top, bottom)) = (ends(|point| point.x), ends(|point| point.y));
        Bounds {
            left: left - by,
            top: top - by,
            width: right - left + 2.0 * by,
            height: bottom - top + 2.0 * by,
        }
    };
    match mark {
        Mark::Path { points, stroke } => round(points, stroke.width / 2.0),
        Mark::Fill { points, .. } => round(points, 0.0),
        Mark::Disc { centre, radius, .. } => round(&[*centre], *radius),
        Mark::Text(label) => label.bounds(),
    }
}

#[test]
fn everything_is_drawn_inside_the_bounds() {
    for_each_scene(|_, _, scene| {
        assert!(scene.marks.len() > 10);
        for mark in &scene.marks {
            let area = reach(mark);
            let inside = area.left >= 0.0
                && area.top >= 0.0
                && area.left + area.width <= scene.width
                && area.top + area.height <= scene.height;
            assert!(inside, "{mark:?} in {} × {}", scene.width, scene.height);
        }
    });
}

#[test]
fn texts_are_large_enough_and_clear_of_each_other_and_of_the_gears() {
    for_each_scene(|_, _, scene| {
        let labels: Vec<&Label> = scene.labels().collect();
        let areas: Vec<Bounds> = labels.iter().map(|label| label.bounds()).collect();
        for (index, label) in labels.iter().enumerate() {
            assert!(label.size >= 12.0);
            let mut others = areas[index + 1..].iter();
            assert!(
                !others.any(|other| areas[index].overlaps(other)),
                "{labels:?}"
            );
        }
        // Gears, plates and rims are the filled shapes of more than an arrow's corners.
        let bodies = scene.marks.iter().filter_map(|mark| match mark {
            Mark::Fill { points, .. } if points.len() > 60 => Some(points.clone()),
            Mark::Disc {
                centre,
                radius,
                ink: Ink::Metal,
            } => Some(round(*centre, *radius)),
            _ => None,
        });
        for point in bodies.flatten() {
            let hit = areas.iter().position(|area| area.contains(point));
            assert_eq!(hit, None, "{labels:?} of which one lies on a gear");
        }
    });
}

/// Points around a circle.
fn round(centre: Point, radius: f64) -> Vec<Point> {
    (0..360)
        .map(|degree| f64::from(degree).to_radians())
        .map(|angle| Point {
            x: centre.x + radius * angle.cos(),
            y: centre.y + radius * angle.sin(),
        })
        .collect()
}

#[test]
fn every_part_is_named_with_its_teeth_and_its_motion() {
    for_each_scene(|live, coupling, scene| {
        let facts = live.train.scenario().couplings[coupling].facts();
        let texts: Vec<&str> = scene.labels().map(|label| label.text.as_str()).collect();
        let all = texts.join(" ").to_lowercase();
        for member in facts.members() {
            if let Some(teeth) = member.teeth {
                assert!(all.contains(member.role.word()), "{texts:?}");
                assert!(all.contains(&format!("{teeth} teeth")), "{texts:?}");
            }
        }
        for pinion in facts.pinions() {
            assert!(all.contains(pinion.name.word()), "{texts:?}");
            let teeth = match pinion.second_step {
                Some(second) => format!("{} and {second} teeth", pinion.teeth),
                None => format!("{} teeth", pinion.teeth),
            };
            assert!(all.contains(&teeth), "{texts:?}");
        }
        for (member, &body) in facts.members().iter().zip(live.train.members(coupling)) {
            if member.role.word() == "housing" {
                continue;
            }
            let word = live.motion(body).word();
            assert!(all.contains(word), "{word} in {texts:?}");
        }
    });
}

#[test]
fn there_are_as_many_pinions_as_the_set_has() {
    // Suns and pinions are the shapes of metal; the ring is a disc with a hole, or where gears
    // show behind it a band.
    let counts = [
        1 + 4,
        1 + 3,
        1 + 5,
        1 + 2 * 3,
        2,
        1,
        1,
        1 + 2 * 4 + 1,
        1 + 2 * 3,
        2 + 2 * 3,
        2 + 2 * 3,
        2 + 2 * 3,
    ];
    for (coupling, gears) in COUPLINGS.into_iter().zip(counts) {
        let scene = scene(&session(coupling).live(), 0, (400.0, 400.0));
        let metal = |mark: &&Mark| {
            matches!(
                mark,
                Mark::Fill {
                    ink: Ink::Metal,
                    ..
                }
            )
        };
        assert_eq!(
            scene.marks.iter().filter(metal).count(),
            gears,
            "{coupling}"
        );
    }
}

#[test]
fn captions_and_scale_keep_still_while_gears_turn_and_states_change() {
    let mut session = session(COUPLINGS[0]);
    session.set(turning());
    let ring = |session: &Session| {
        let scene = scene(&session.live(), 0, (400.0, 400.0));
        let rim = scene
            .marks
            .iter()
            .find(|mark| matches!(mark, Mark::Disc { .. }))
            .cloned();
        (rim, scene)
    };
    let (before, first) = ring(&session);
    for set in [
        ElementSet::NONE.with(1),
        ElementSet::NONE.with(0),
        ElementSet::NONE,
    ] {
        session.apply(set);
        session.advance(0.1);
        let (after, later) = ring(&session);
        assert_eq!(before, after);
        assert_ne!(first, later, "nothing turned");
    }
}

#[test]
fn teeth_too_fine_to_see_give_way_to_circles() {
    let fine = r#"{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
        "sun": {"shaft": "s", "teeth": 200}, "ring": {"shaft": "r", "teeth": 800},
        "pinion": {"teeth": 300, "count": 4}}"#;
    let drawn = scene(&session(fine).live(), 0, (400.0, 400.0));
    let longest = |scene: &Scene| {
        let lengths = scene.marks.iter().map(|mark| match mark {
            Mark::Path { points, .. } | Mark::Fill { points, .. } => points.len(),
            Mark::Disc { .. } | Mark::Text(_) => 0,
        });
        lengths.max()
    };
    assert!(longest(&drawn) < Some(300));
    let coarse = scene(&session(COUPLINGS[0]).live(), 0, (400.0, 400.0));
    assert!(longest(&coarse) > Some(80 * 6));
}

#[test]
fn held_ring_is_hatched_all_around_and_a_turning_one_is_not() {
    let mut session = session(COUPLINGS[0]);
    let ticks = |session: &Session| {
        let scene = scene(&session.live(), 0, (400.0, 400.0));
        let tick = |mark: &&Mark| {
            matches!(mark, Mark::Path { points, stroke }
                if points.len() == 2 && stroke.ink == Motion::Held.ink() && stroke.width == 1.0)
        };
        scene.marks.iter().filter(tick).count()
    };
    session.apply(ElementSet::NONE.with(0));
    let turning = ticks(&session);
    session.apply(ElementSet::NONE.with(1));
    assert!(ticks(&session) > turning + 60);
}

#[test]
fn odd_sizes_and_gears_that_do_not_fit_draw_something_or_nothing_but_never_panic() {
    let odd = [
        r#"{"kind": "planetary", "id": "p", "label": "Set", "carrier": "c",
            "sun": {"shaft": "s", "teeth": 6}, "ring": {"shaft": "r", "teeth": 999},
            "pinion": {"teeth": 6, "count": 12}}"#,
        r#"{"kind": "double-pinion", "id": "p", "label": "Set", "carrier": "c",
            "sun": {"shaft": "s", "teeth": 999}, "ring": {"shaft": "r", "teeth": 6},
            "inner": {"teeth": 999}, "outer": {"teeth": 6}, "count": 1}"#,
        r#"{"kind": "gear-pair", "id": "p", "label": "Pair", "mesh": "internal",
            "first": {"shaft": "s", "teeth": 40}, "second": {"shaft": "r", "teeth": 40}}"#,
    ];
    for coupling in odd {
        let session = session(coupling);
        for size in [0.0, 1.0, 30.0, 120.0, 400.0] {
            for size in [(size, size), (size, 400.0), (400.0, size)] {
                let scene = scene(&session.live(), 0, size);
                let finite = |mark: &Mark| reach(mark).width.is_finite();
                assert!(scene.marks.iter().all(finite));
            }
        }
        assert!(scene(&session.live(), 1, (400.0, 400.0)).marks.is_empty());
    }
}

/// The usual settings, with the sets turning.
fn turning() -> Settings {
    Settings {
        rate: 1.0,
        ..Settings::default()
    }
}

#[test]
fn labels_are_clear_in_german_too() {
    crate::draw::tests::again_in_german(&[
        texts_are_large_enough_and_clear_of_each_other_and_of_the_gears,
    ]);
}
