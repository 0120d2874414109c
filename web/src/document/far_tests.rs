//! In class every text is large enough, whole, and clear of every other, in all ranges of all trains.

use super::far::FarDrawings;
use super::session::Session;
use super::settings::Settings;
use crate::draw::scene::{Bounds, Label, Scene};
use crate::draw::tests::{again_in_german, sessions};

/// Rooms for both drawings, with the size of their letters: a projector, a large one, and one of little height.
const ROOMS: [(f64, f64, f64); 3] = [
    (992.0, 540.0, 20.0),
    (1860.0, 770.0, 28.0),
    (1248.0, 490.0, 20.0),
];

/// The smallest letters of a drawing as on the page.
const SMALLEST: f64 = 12.0;

/// Both drawings of a session in a room as the page fits them, with how much larger each is shown.
fn drawn(session: &mut Session, room: (f64, f64, f64), asked: bool) -> [(Scene, f64); 2] {
    const SHARE: f64 = 0.58;
    const BEYOND: f64 = 34.0;
    let (width, height, letter) = room;
    let settings = |width| Settings {
        width,
        ..Settings::default()
    };
    session.set(settings(1.0));
    let least = session.stage().size();
    let high = (SHARE * height - BEYOND * letter / SMALLEST) / (least.section_height - BEYOND);
    let zoom = high.min(width / least.width);
    session.set(settings(width / zoom));
    let far = FarDrawings::of(session, letter / SMALLEST / zoom);
    let tall = far.size(session).height * zoom;
    let times = letter / SMALLEST;
    let size = (width / times, (height - tall) / times);
    let scene = |drawing, size| far.scene(session, drawing, size, asked).unwrap();
    [
        (scene("section", (0.0, 0.0)), zoom),
        (scene("lever", size), times),
    ]
}

fn check(title: &str, (scene, zoom): &(Scene, f64), letter: f64) {
    let labels: Vec<&Label> = scene.labels().collect();
    assert!(labels.len() > 3, "{title}: {labels:?}");
    let area = Bounds {
        left: -0.5,
        top: -0.5,
        width: scene.width + 1.0,
        height: scene.height + 1.0,
    };
    for (index, label) in labels.iter().enumerate() {
        let own = label.bounds();
        assert!(label.size * zoom > letter - 0.01, "{title}: {label:?}");
        assert!(!label.text.contains('…'), "{title}: {} is cut", label.text);
        let corners = [
            (own.left, own.top),
            (own.left + own.width, own.top + own.height),
        ];
        for (x, y) in corners {
            let inside = area.left <= x && x <= area.left + area.width;
            let within = inside && area.top <= y && y <= area.top + area.height;
            assert!(within, "{title}: {} is outside", label.text);
        }
        for other in &labels[..index] {
            let apart = !own.overlaps(&other.bounds());
            assert!(apart, "{title}: {} on {}", label.text, other.text);
        }
    }
}

#[test]
fn every_text_is_large_whole_and_clear() {
    for (name, mut session) in sessions() {
        for range in 0..session.train().scenario().ranges.len() {
            session.apply(session.train().range(range));
            session.settle();
            for room in ROOMS {
                for drawing in &drawn(&mut session, room, false) {
                    check(
                        &format!("{name}, range {range} in {room:?}"),
                        drawing,
                        room.2,
                    );
                }
            }
        }
    }
}

#[test]
fn the_same_in_german() {
    again_in_german(&[every_text_is_large_whole_and_clear]);
}

/// A speed that is asked for stands nowhere, and something stands in its place.
#[test]
fn speeds_that_are_asked_for_are_not_drawn() {
    let number = |text: &str| {
        text.chars()
            .all(|c| c.is_ascii_digit() || "\u{2212}.,".contains(c))
    };
    for (name, mut session) in sessions() {
        let [(section, _), (lever, _)] = drawn(&mut session, ROOMS[0], true);
        let told: Vec<&Label> = lever.labels().filter(|label| label.plate).collect();
        assert!(told.iter().all(|label| !number(&label.text)), "{name}");
        assert!(told.iter().any(|label| label.text == "?"), "{name}");
        let ends = section.labels().filter(|label| label.text == "?").count();
        assert!((1..=2).contains(&ends), "{name}: {ends} marks at the ends");
        // Asked for or not, all else stands where it stood.
        let [(plain, _), _] = drawn(&mut session, ROOMS[0], false);
        assert_eq!(plain.marks.len(), section.marks.len(), "{name}");
    }
}

/// In a room the shafts that no text of the levers names, though they are on them.
fn unnamed(session: &mut Session, room: (f64, f64, f64)) -> Vec<String> {
    let [_, (lever, _)] = drawn(session, room, false);
    let said: Vec<String> = lever.labels().map(|label| label.text.clone()).collect();
    let shafts = session.train().scenario().shafts.iter();
    let on_levers = shafts.filter(|shaft| {
        let couplings = &session.train().scenario().couplings;
        couplings.iter().any(|coupling| {
            let members = coupling.facts().members();
            members.iter().any(|member| member.shaft == shaft.id)
        })
    });
    let says = |words: &str| said.iter().any(|text| text.contains(words));
    // A long one is in two lines.
    let named = |label: &str| {
        says(label)
            || label.match_indices(' ').any(|(at, _)| {
                let (first, last) = (&label[..at], &label[at + 1..]);
                said.windows(2)
                    .any(|pair| pair[0].ends_with(first) && pair[1].starts_with(last))
            })
    };
    on_levers
        .map(|shaft| shaft.label.clone())
        .filter(|label| !named(label))
        .collect()
}

/// Under a large half-section every shaft has its name; on a small projector there may be no room for one in a range.
#[test]
fn levers_name_their_shafts() {
    const SMALL: (f64, f64, f64) = (1250.0, 592.0, 22.0);
    for (room, most) in [(ROOMS[1], 0), (SMALL, 1)] {
        for (name, mut session) in sessions() {
            for range in 0..session.train().scenario().ranges.len() {
                session.apply(session.train().range(range));
                session.settle();
                let unnamed = unnamed(&mut session, room);
                assert!(
                    unnamed.len() <= most,
                    "{name}, range {range} in {room:?}: {unnamed:?}"
                );
            }
        }
    }
}
