//! What the labels of a lever diagram must satisfy, in every range of the scenarios.

use levertrain_core::ElementSet;

use super::clear_tests::unclear;
use super::geometry::Diagram;
use super::placing::length_inside;
use super::saying::VALUE_SIZE;
use super::scene;
use super::tests::{arrive, open};
use crate::draw::scene::{Label, Point, Scene};
use crate::draw::tests::{again_in_german, scenarios};

/// Shows every range of every scenario, and nothing applied, in all these widths; the text says which it is.
fn each_range(widths: &[f64], mut look: impl FnMut(&str, &Diagram<'_>, &Scene)) {
    for (name, text) in scenarios() {
        let mut session = open(&name, &text);
        let ranges = session.train().scenario().ranges.len();
        let ranges = (0..ranges).map(|range| session.train().range(range));
        let shown: Vec<ElementSet> = ranges.chain([ElementSet::from_bits(0)]).collect();
        for applied in shown {
            arrive(&mut session, applied);
            let live = session.live();
            for &width in widths {
                let stage = session.layout().stage(width);
                let what = format!("{name}, {applied:?}, {width} wide");
                let diagram = Diagram::of(&live, &stage, false);
                look(&what, &diagram, &scene(&live, &stage, false));
            }
        }
    }
}

/// Every node says at least its speed or state where there is room enough.
#[test]
fn no_value_is_dropped_on_a_wide_page() {
    each_range(&[1200.0], |what, diagram, drawn| {
        let gutter = diagram.sides().0;
        let said = drawn
            .labels()
            .filter(|label| label.size == VALUE_SIZE && label.at.x > gutter);
        assert_eq!(said.count(), diagram.nodes().count(), "{what}");
    });
}

/// A lever of its own says in each node which member it is, on any page but a phone's.
#[test]
fn nodes_keep_their_letters_where_there_is_room() {
    each_range(&[860.0, 1280.0, 1920.0], |what, diagram, _| {
        for node in diagram.nodes() {
            assert_eq!(node.roles_text, None, "{what}, {:?}", node.bodies);
        }
    });
}

/// Labels clear the ground behind them: none may take a piece out of a lever or a tie.
#[test]
fn no_label_erases_a_piece_of_a_lever_or_a_tie() {
    let mut erased = Vec::new();
    each_range(
        &[320.0, 390.0, 860.0, 1280.0, 1920.0],
        |what, diagram, drawn| {
            let bars = diagram
                .levers
                .iter()
                .map(|lever| (lever.nodes[0].at, lever.nodes[lever.nodes.len() - 1].at));
            let lines: Vec<(Point, Point)> = bars
                .chain(diagram.links.iter().map(|link| link.reach()))
                .collect();
            let over = |label: &Label| {
                let inside = |&(from, to): &(Point, Point)| length_inside(from, to, label.bounds());
                lines.iter().any(|line| inside(line) > 0.5)
            };
            let plates = drawn.labels().filter(|label| label.plate && over(label));
            erased.extend(plates.map(|label| format!("{what}: {}", label.text)));
        },
    );
    assert!(erased.is_empty(), "{}: {erased:#?}", erased.len());
}

/// Every shaft is named beside one of its nodes, in every range and while nothing is applied.
#[test]
fn every_shaft_has_its_name() {
    every_name_stands(&[390.0, 860.0, 1280.0, 1920.0]);
}

/// German names are longer: on a phone a few would stand only behind a line through another.
fn every_shaft_has_its_name_on_a_wide_page() {
    every_name_stands(&[860.0, 1280.0, 1920.0]);
}

#[track_caller]
fn every_name_stands(widths: &[f64]) {
    let mut nameless = Vec::new();
    each_range(widths, |what, diagram, _| {
        let unclear = unclear(diagram).into_iter();
        let no_names = unclear.filter(|said| said.ends_with("has no name"));
        nameless.extend(no_names.map(|said| format!("{what}: {said}")));
    });
    assert!(nameless.is_empty(), "{}: {nameless:#?}", nameless.len());
}

/// Names that are put together, and those that run the other way, stay whole.
#[test]
fn a_long_name_is_parted_between_its_words() {
    let parted = [
        ("Sonnenrad klein", Some(["Sonnenrad", "klein"])),
        ("Ring 1 + output shaft", Some(["Ring 1 +", "output shaft"])),
        (
            "Hohlrad 1 + 3 + Sonnenrad 2",
            Some(["Hohlrad 1 + 3 +", "Sonnenrad 2"]),
        ),
        ("Ring 1, ring 2", Some(["Ring 1,", "ring 2"])),
        ("Planetenträger", None),
        ("Ring of set", None),
        ("Ring 1, \u{2068}בלם 1 2\u{2069}", None),
    ];
    for (name, halves) in parted {
        assert_eq!(super::saying::halves(name), halves, "{name}");
    }
}

/// The speed of a node at rest does not stand on the line of standstill, which would look like a minus before it.
#[test]
fn no_nought_stands_on_the_line_of_standstill() {
    each_range(&[320.0, 390.0, 1280.0, 1920.0], |what, diagram, drawn| {
        let (line, gutter) = (diagram.axis.y(0.0), diagram.sides().0);
        let mut noughts = drawn
            .labels()
            .filter(|label| label.text == "0" && label.size == VALUE_SIZE && label.at.x > gutter);
        let on_line = noughts.find(|label| (label.at.y - line).abs() < label.size / 2.0);
        assert_eq!(on_line, None, "{what}");
    });
}

#[test]
fn labels_are_so_in_german_too() {
    again_in_german(&[
        no_label_erases_a_piece_of_a_lever_or_a_tie,
        no_nought_stands_on_the_line_of_standstill,
        every_shaft_has_its_name_on_a_wide_page,
    ]);
}
