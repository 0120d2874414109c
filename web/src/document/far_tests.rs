//! In class every text is large enough, whole, and clear of every other, in all ranges of all trains.

use levertrain_core::words::word;

use super::far::FarDrawings;
use super::session::Session;
use super::settings::Settings;
use crate::draw::lever;
use crate::draw::scene::{Bounds, Label, Scene};

use crate::draw::tests::{again_in_german, sessions};
use crate::motion::live::Motion;

/// Rooms for both drawings, with the size of their letters: a projector, a large one, and one of little height.
const ROOMS: [(f64, f64, f64); 4] = [
    (992.0, 550.0, 20.0),
    (1875.0, 780.0, 28.125),
    (1247.0, 575.0, 20.833),
    (1248.0, 510.0, 20.0),
];

/// The smallest letters of a drawing as on the page.
const SMALLEST: f64 = 12.0;

/// Both drawings of a session in a room as the page fits them, with how much larger each is shown.
fn drawn(session: &mut Session, room: (f64, f64, f64), asked: bool) -> [(Scene, f64); 2] {
    const SHARE: f64 = 0.48;
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

/// The box of a text; capitals and figures are lower than a line.
fn inked(label: &Label) -> Bounds {
    let line = label.bounds();
    let is_low = |c: char| c.is_uppercase() || c.is_ascii_digit() || c == ' ';
    if !label.text.chars().all(is_low) {
        return line;
    }
    let height = 0.8 * label.size;
    let top = label.at.y - height / 2.0;
    Bounds {
        top,
        height,
        ..line
    }
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
        let own = inked(label);
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
            let apart = !own.overlaps(&inked(other));
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
    again_in_german(&[
        every_text_is_large_whole_and_clear,
        every_label_of_the_levers_is_clear,
        every_gear_has_its_letter,
        the_speed_of_an_end_stands_by_its_word,
    ]);
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

/// A trainer reads at once which node a label is about: every shaft has its name, no label is nearer to another node
/// than to its own, and no line to a label runs through a node or a word.
#[test]
fn every_label_of_the_levers_is_clear() {
    let mut seen = 0;
    let mut unclear = Vec::new();
    for (name, mut session) in sessions() {
        for range in 0..session.train().scenario().ranges.len() {
            session.apply(session.train().range(range));
            session.settle();
            for room in &ROOMS[..3] {
                let [_, (drawn, _)] = drawn(&mut session, *room, false);
                let (mut live, stage) = (session.live(), session.stage());
                live.powers = None;
                let far = lever::Far::of(&stage, (drawn.width, drawn.height), false);
                let found = far.unclear(&live).into_iter();
                unclear.extend(found.map(|what| format!("{name}, {range} in {room:?}: {what}")));
                seen += 1;
            }
        }
    }
    assert!(seen > 200);
    assert!(unclear.is_empty(), "{}: {unclear:#?}", unclear.len());
}

/// Every gear of a member says which it is, however small it is.
#[test]
fn every_gear_has_its_letter() {
    for (name, mut session) in sessions() {
        for room in ROOMS {
            let [(section, _), _] = drawn(&mut session, room, false);
            let said: Vec<&str> = section.labels().map(|label| label.text.as_str()).collect();
            for coupling in &session.train().scenario().couplings {
                for member in coupling.facts().members() {
                    let Some(teeth) = member.teeth else { continue };
                    if !member.role.is_of_set() {
                        // Of a pair it is the number that matters, in a gear or under both.
                        let number = teeth.to_string();
                        let mut words = said.iter().flat_map(|text| text.split(' '));
                        let is_said = words.any(|word| word == number);
                        assert!(is_said, "{name} in {room:?}: {number} of {said:?}");
                        continue;
                    }
                    let letter = member.role.letter();
                    let full = format!("{letter} {teeth}");
                    let is_said = said.iter().any(|text| *text == letter || *text == full);
                    assert!(is_said, "{name} in {room:?}: {full} of {said:?}");
                }
            }
        }
    }
}

/// The speed of an end stands next to its word, so that nobody looks for it: within a letter of it, whatever the train.
#[test]
fn the_speed_of_an_end_stands_by_its_word() {
    let gap = |one: &Bounds, other: &Bounds| {
        let across = (one.left - other.left - other.width).max(other.left - one.left - one.width);
        let along = (one.top - other.top - other.height).max(other.top - one.top - one.height);
        across.max(0.0).hypot(along.max(0.0))
    };
    let mut seen = 0;
    for (name, mut session) in sessions() {
        for room in ROOMS {
            let [(section, zoom), _] = drawn(&mut session, room, false);
            let live = session.live();
            for (named, shaft) in [
                (word("end-input"), session.train().input()),
                (word("end-output"), session.train().output()),
            ] {
                let body = levertrain_core::Body::Shaft(shaft);
                let speed = levertrain_core::words::number(live.lettered_speed(body), 4);
                let mut words = section.labels().filter(|label| label.text == named);
                let (Some(beside), true) = (words.next(), live.motion(body) != Motion::Free) else {
                    continue;
                };
                let mut speeds = section.labels().filter(|label| label.text == speed);
                let near =
                    speeds.any(|label| gap(&label.bounds(), &beside.bounds()) * zoom <= room.2);
                assert!(near, "{name} in {room:?}: {speed} stands far from {named}");
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "{seen}");
}
