//! A brake that must hang within a carrier which is part of the housing.

use levertrain_core::{Body, ElementSet, Train};

use super::tests::nested;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Ink, Mark, Scene};
use crate::draw::section::dice::Dice;
use crate::draw::section::keeping_tests::changed_it_is_whole;
use crate::draw::section::planning::{Bettering, Times};
use crate::draw::section::tests::{packs_are_clear, pieces, places, what_is_held};
use crate::draw::section::{Layout, label_tests, packs};

/// Two sets with a common sun, whose rings a clutch joins: between them and the first carrier, which is part of the
/// housing, lies the second carrier, so that its brake can hang nowhere else.
const BRAKE_WITHIN: &str = include_str!("brake_within.json");

const BRAKE: usize = 0;
const CLUTCH: usize = 1;

/// The train with a one-way clutch in place of the brake.
fn with_one_way() -> String {
    let one_way = r#"{"kind": "one-way", "id": "V", "label": "One-way V", "shaft": "c2", "against": "housing", "locks": "backward"}"#;
    let brake = r#"{"kind": "brake", "id": "V", "label": "Brake V", "shaft": "c2"}"#;
    let text = BRAKE_WITHIN.replace(brake, one_way);
    text.replace(r#""applied": ["V"]"#, r#""applied": []"#)
}

/// Its layout after an embedding, as it is found and bettered.
fn layouts(text: &str) -> (Session, [Layout; 2]) {
    const TIMES: usize = 4;
    let session = Session::open(text).unwrap_or_else(|problems| panic!("{problems:?}"));
    let train = session.train().clone();
    let found = nested(&train).unwrap_or_else(|| panic!("it finds no room"));
    let mut bettered = found.clone();
    let mut dice = Dice::new();
    let mut bettering = Bettering::of(0, &found, Times::Exactly(TIMES));
    while bettering.try_one(&mut bettered, 0, &train, &mut dice) {}
    let layouts = [found, bettered].map(|sketch| {
        let plan = sketch
            .whole()
            .unwrap_or_else(|| panic!("something is missing"));
        Layout::by(plan, &train)
    });
    (session, layouts)
}

#[test]
fn it_lies_beside_a_lead_of_the_carrier_and_nothing_crosses() {
    for text in [BRAKE_WITHIN.to_owned(), with_one_way()] {
        let (session, layouts) = layouts(&text);
        let train = session.train();
        // Hung from the housing outside it would be in the way.
        assert!(session.layout().crosses_needlessly());
        for layout in layouts {
            let plan = &layout.found;
            assert!(plan.crossings.is_empty());
            assert!(plan.packs[BRAKE].is_flat());
            // The carrier and the brake.
            assert_eq!(what_is_held("within", plan, train), 2);
            for shaft in 0..train.scenario().shafts.len() {
                let count = pieces(&places(plan, train, shaft), &plan.runs[shaft]);
                assert_eq!(count, 1, "shaft {shaft}");
            }
            packs_are_clear("within", &layout);
        }
    }
}

const WIDE: f64 = 860.0;

/// Where upright lines of some ink stand within the packs of an element, from their middle.
fn uprights(scene: &Scene, layout: &Layout, element: usize, ink: Ink) -> Vec<f64> {
    let centre = layout.stage(WIDE).pack_centre(element);
    let area = packs::area(centre, false);
    let lines = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Path { points, stroke } if stroke.ink == ink => Some(points),
        _ => None,
    });
    let own = lines.filter(|points| {
        let inside = points.iter().all(|&point| area.contains(point));
        inside && points.windows(2).all(|pair| pair[0].x == pair[1].x)
    });
    own.map(|points| points[0].x - centre.x).collect()
}

/// Catches a fixed pack that comes to meet the other, and one that looks like that of a clutch.
#[test]
fn closing_moves_the_pack_of_the_shaft_and_not_that_on_the_ground() {
    let (mut session, [_, layout]) = layouts(BRAKE_WITHIN);
    let mut at = |bits: u32, ink: Ink| {
        session.apply(ElementSet::from_bits(bits));
        session.settle();
        let scene = layout.stage(WIDE).scene(&session.live());
        [BRAKE, CLUTCH].map(|element| uprights(&scene, &layout, element, ink))
    };
    let [ground, none] = at(0, Ink::Housing);
    assert_eq!((ground.len(), none.len()), (1, 0));
    assert_eq!(at(1, Ink::Housing)[BRAKE], ground);
    let [open, _] = at(0, Ink::Quiet);
    let [closed, _] = at(1, Ink::Text);
    assert_eq!(open.len(), 6, "{open:?}");
    for plate in &open {
        let is_fixed = plate * ground[0] > 0.0;
        assert_eq!(
            closed.contains(plate),
            is_fixed,
            "{open:?}, then {closed:?}"
        );
    }
}

#[test]
fn it_can_be_taken_hold_of_where_it_lies() {
    let (session, layouts) = layouts(BRAKE_WITHIN);
    for layout in layouts {
        let stage = layout.stage(WIDE);
        let centre = stage.pack_centre(BRAKE);
        let handles = stage.handles(session.train());
        let [own, other] = &handles[..] else {
            panic!("{handles:?}")
        };
        assert_eq!(own.id, "V");
        assert_eq!(
            (own.left + own.width / 2.0, own.top + own.height / 2.0),
            (centre.x, centre.y)
        );
        assert_eq!(own.closes, (1.0, 0.0));
        assert!(own.both_ways);
        let apart = (own.left - other.left)
            .abs()
            .max((own.top - other.top).abs());
        assert!(apart >= own.width, "{handles:?}");
        let grips = stage.grips();
        let grip = &grips.elements[BRAKE].area;
        assert!(grip.left < centre.x && centre.x < grip.left + grip.width);
    }
}

#[test]
fn words_are_clear_of_it() {
    for text in [BRAKE_WITHIN.to_owned(), with_one_way()] {
        let (mut session, layouts) = layouts(&text);
        for (power, one_module) in [(false, false), (true, false), (false, true)] {
            session.set(Settings {
                power,
                one_module,
                ..Settings::default()
            });
            for mut layout in layouts.clone() {
                layout.scale(one_module);
                for bits in 0..4 {
                    session.apply(ElementSet::from_bits(bits));
                    session.settle();
                    for width in [320.0, 390.0, 860.0, 1920.0] {
                        let scene = layout.stage(width).scene(&session.live());
                        label_tests::check(
                            &scene,
                            &format!("{bits:b}, {width} wide, power {power}"),
                        );
                    }
                }
            }
        }
    }
}

/// Catches a brake that keeps its place though the carrier beside it is gone.
#[test]
fn a_train_with_it_is_whole_after_any_change() {
    let (_, layouts) = layouts(BRAKE_WITHIN);
    for layout in layouts {
        changed_it_is_whole("within", &layout);
    }
}

/// Catches a brake that goes outside, where it crosses, as something else is changed.
#[test]
fn it_stays_where_another_part_is_changed() {
    let (session, [_, layout]) = layouts(BRAKE_WITHIN);
    let text = BRAKE_WITHIN.replace(r#""Brake V""#, r#""Brake of carrier 2""#);
    let text = text.replace(r#""teeth": 78"#, r#""teeth": 79"#);
    let train = Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:?}"));
    assert_ne!(train.scenario(), session.train().scenario());
    let (after, mending) = layout.after(&train);
    assert!(mending.is_none());
    assert_eq!(after.found.packs, layout.found.packs);
    assert_eq!(after.found.runs, layout.found.runs);
    assert!(train.ends(BRAKE).contains(&Body::Housing));
}
