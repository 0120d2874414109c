//! Names that run from right to left, in every drawing.

use std::collections::BTreeSet;

use super::names::{CLOSES, OPENS, cut, isolated, runs_leftward};
use crate::document::pictures;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::palette::Palette;
use crate::draw::tests::scenarios;
use crate::draw::{svg, text};

#[test]
fn only_names_that_run_leftward_are_isolated_and_take_no_more_room() {
    assert_eq!(isolated("Ring 2"), "Ring 2");
    assert_eq!(isolated("טבעת 2"), "\u{2068}טבעת 2\u{2069}");
    assert_eq!(isolated("تاج 2"), "\u{2068}تاج 2\u{2069}");
    let width = |name: &str| text::width(name, 13.0, true);
    assert_eq!(width(&isolated("טבעת 2")), width("טבעת 2"));
    assert_eq!(cut("\u{2068}טבעת "), "\u{2068}טבעת…\u{2069}");
    assert_eq!(
        cut("\u{2068}טבעת 2\u{2069}, he"),
        "\u{2068}טבעת 2\u{2069}, he…"
    );
}

/// What is left of a text without what is isolated in it; none where something is not closed.
fn around(text: &str) -> Option<String> {
    let mut left = String::new();
    let mut rest = text;
    while let Some((before, isolate)) = rest.split_once(OPENS) {
        left.push_str(before);
        let (name, behind) = isolate.split_once(CLOSES)?;
        assert!(!name.contains(OPENS), "{text:?}");
        rest = behind;
    }
    left.push_str(rest);
    Some(left)
}

/// Catches a name in a drawing that turns the words and numbers beside it round.
#[test]
fn names_that_run_leftward_are_isolated_wherever_they_are_drawn() {
    let mut seen = BTreeSet::new();
    for (scenario, file) in scenarios() {
        // A short word, so that names are shown, and one so long that they are cut.
        for word in ["בלם", "מצמדהידראוליארוךמאודמאודמאוד"] {
            // Names end in their numbers: to be told from others, which they need be.
            let mut count = 0;
            let mut named = String::new();
            for (at, piece) in file.split("\"label\": \"").enumerate() {
                if at == 0 {
                    named.push_str(piece);
                    continue;
                }
                let (_, rest) = piece.split_once('"').unwrap();
                count += 1;
                named.push_str(&format!("\"label\": \"{word} {count}\"{rest}"));
            }
            let mut session = Session::open(&named).unwrap();
            for text in drawn(&mut session) {
                let Some(left) = around(&text) else {
                    panic!("{scenario}: {text:?} is not closed")
                };
                assert!(!left.chars().any(runs_leftward), "{scenario}: {text:?}");
                if text.contains(OPENS) {
                    seen.insert(text);
                }
            }
            let scene = pictures::scene(&session, "section", (860.0, 400.0)).unwrap();
            let file = svg(&scene, Palette::Light).unwrap();
            assert_eq!(file.matches(OPENS).count(), file.matches(CLOSES).count());
        }
    }
    let mixed = seen
        .iter()
        .filter(|text| !text.starts_with(OPENS) || !text.ends_with(CLOSES));
    let counts = (seen.len(), mixed.count());
    assert!(counts.0 > 100 && counts.1 > 10, "{counts:?}");
    assert!(
        seen.iter().any(|text| text.ends_with("…\u{2069}")),
        "none is cut"
    );
}

/// All texts of all drawings, with some of the ranges applied.
fn drawn(session: &mut Session) -> BTreeSet<String> {
    let couplings = session.train().scenario().couplings.iter();
    let ends: Vec<String> = couplings
        .map(|coupling| format!("end:{}", coupling.facts().id()))
        .collect();
    let named = ["section", "lever", "flow"].map(str::to_owned);
    let mut texts = BTreeSet::new();
    for range in 0..session.train().scenario().ranges.len().min(3) {
        let applied = session.train().range(range);
        session.apply(applied);
        session.settle();
        for merged in [false, true] {
            session.set(Settings {
                merged,
                power: merged,
                width: 860.0,
                ..Settings::default()
            });
            for drawing in named.iter().chain(&ends) {
                let scene = pictures::scene(session, drawing, (860.0, 400.0)).unwrap();
                texts.extend(scene.labels().map(|label| label.text.clone()));
            }
        }
    }
    texts
}
