//! Numbers, lists and sentences, on trains of ours.

use super::*;
use crate::{Duty, ElementSet, Train};

#[track_caller]
fn check(value: f64, digits: u32, text: &str) {
    assert_eq!(number(value, digits), text);
}

#[test]
fn numbers_keep_their_figures() {
    check(2.4795, 4, "2.479");
    check(9.9996, 4, "10.00");
    check(-0.25, 4, "\u{2212}0.250");
    check(-0.00001, 4, "0.000");
    check(1234.5, 4, "1234");
    check(-23456.7, 4, "\u{2212}23\u{2009}457");
    check(0.0, 4, "0");
    check(f64::NAN, 4, "–");
}

#[test]
fn lists_read_as_sentences() {
    assert_eq!(listed(&["A", "B", "C"]), "A, B and C");
    assert_eq!(listed::<&str>(&[]), "");
    // Names with a comma or an "and" of their own.
    assert_eq!(listed(&["1st, held", "2nd"]), "1st, held; and 2nd");
    assert_eq!(
        listed(&["Carrier 2", "Rings 1 and 3", "Sun 1"]),
        "Carrier 2; Rings 1 and 3; and Sun 1"
    );
}

#[test]
fn labels_take_an_article_where_they_name_a_kind_of_thing() {
    for (label, within) in [
        ("Carrier", "the carrier"),
        ("Common sun", "the common sun"),
        ("Carrier + first gear", "the carrier + first gear"),
        ("Input + sun 4", "the input + sun 4"),
        ("Carrier 1 + ring 2", "Carrier 1 + ring 2"),
        ("Brake V", "Brake V"),
        ("SUN", "the SUN"),
        ("Tr\u{e4}ger", "Tr\u{e4}ger"),
        ("", ""),
    ] {
        assert_eq!(noun(label), within);
    }
    check_said(
        "01",
        &["X", "H", "M"],
        "Brake X holds the carrier; Clutch H lets the input drive the sun; Clutch M joins the ring \
         to the output. ",
    );
    check_said("01", &["X", "H", "M"], "to the output. Brake X holds");
}

/// What `applied` makes of the scenario whose file begins with `file`, in one text.
fn said(file: &str, applied: &[&str]) -> Option<String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios");
    let mut paths = std::fs::read_dir(folder).ok()?.flatten();
    let entry = paths.find(|entry| entry.file_name().to_string_lossy().starts_with(file))?;
    let train = Train::parse(&std::fs::read_to_string(entry.path()).ok()?).ok()?;
    let set = train.element_set(applied.iter().copied()).ok()?;
    let settled = train.settle(set, Duty::Drive);
    Some(Words::of(&settled.combination).sentences.join(" "))
}

#[track_caller]
fn check_said(file: &str, applied: &[&str], part: &str) {
    let Some(text) = said(file, applied) else {
        panic!("{file} {applied:?} does not parse")
    };
    assert!(text.contains(part), "{file} {applied:?}: {text}");
}

#[test]
fn neutral_says_what_is_missing() {
    let open =
        "Neutral: the input is connected to nothing, because Clutch H and Clutch J are open. ";
    check_said("07", &["V"], open);
    check_said("07", &["W"], open);
    check_said(
        "03",
        &["V"],
        "Neutral: the input is connected to nothing, because Clutch H, Clutch J and Clutch K \
         are open. ",
    );
    check_said(
        "03",
        &[],
        "Clutch J and Clutch K are open; nothing takes the reaction, so the output is free. ",
    );
    check_said(
        "03",
        &["H"],
        "Neutral: nothing takes the reaction, so the output is free. ",
    );
    // Its own set turns with this input, whatever is applied.
    check_said(
        "09",
        &["W"],
        "Neutral: what the input turns is connected to nothing else, because Clutch H, Clutch J \
         and Clutch K are open. ",
    );
    check_said(
        "01",
        &[],
        "Clutch K are open; the output is connected to nothing, because Clutch L, Clutch M and \
         Clutch N are open. ",
    );
    check_said(
        "01",
        &["W", "H"],
        "Neutral: the output is connected to nothing, because Clutch L, Clutch M and Clutch N \
         are open. ",
    );
}

/// Clutches that join the input to a whole set leave only the output unconnected.
#[test]
fn an_input_that_turns_a_set_is_not_called_unconnected() {
    check_said(
        "01",
        &["H", "J"],
        "Neutral: the output is connected to nothing, because Clutch L, Clutch M and Clutch N are \
         open. Clutch L, Clutch M or Clutch N would make it drive.",
    );
}

#[test]
fn neutral_says_how_many_more_it_takes() {
    check_said(
        "02",
        &["H"],
        "Brake V, Brake W or Clutch J would make it drive.",
    );
    check_said("02", &[], "It takes 2 more clutches or brakes");
    let train = |elements: &str| {
        Train::parse(&format!(
            r#"{{"format": 1, "name": "T", "input": "s", "output": "c", "shafts":
            [{{"id": "s", "label": "Sun"}}, {{"id": "c", "label": "C1"}}, {{"id": "r", "label": "R"}},
             {{"id": "x", "label": "X"}}],
            "couplings": [{{"kind": "planetary", "id": "p", "label": "P", "carrier": "c",
              "sun": {{"shaft": "s", "teeth": 20}}, "ring": {{"shaft": "r", "teeth": 80}},
              "pinion": {{"teeth": 30, "count": 4}}}}], "elements": [{elements}]}}"#
        ))
    };
    for (elements, part) in [
        ("", "There is no clutch or brake to make it drive."),
        (
            r#"{"kind": "brake", "id": "B", "label": "B", "shaft": "x"}"#,
            "None of the other clutches and brakes can make it drive.",
        ),
        (
            r#"{"kind": "brake", "id": "B", "label": "Brake B", "shaft": "r"}"#,
            " Brake B would make it drive.",
        ),
    ] {
        let Ok(train) = train(elements) else {
            panic!("{elements} does not parse")
        };
        let said = Words::of(&train.solve(ElementSet::NONE))
            .sentences
            .join(" ");
        assert!(said.contains(part), "{elements}: {said}");
    }
}

#[test]
fn what_could_be_released_is_said_truthfully() {
    check_said(
        "07",
        &["V", "H"],
        "Brake V is needed only for engine braking: while the input drives, One-way Q would lock in \
         its place.",
    );
    check_said(
        "01",
        &["H", "J", "K", "N"],
        "any one of Clutch H, Clutch J and Clutch K could be released",
    );
}

#[test]
fn a_held_output_is_explained() {
    check_said(
        "04",
        &["J", "K"],
        "Clutch J and Clutch K with Set 3 hold the output still, however the input turns.",
    );
    for (file, applied) in [
        ("04", &["V", "W"][..]),
        ("05", &["W", "X", "J"]),
        ("09", &["V", "W"]),
        ("07", &["V", "W"]),
    ] {
        check_said(file, applied, "the output still, however the input turns.");
    }
}

#[test]
fn another_fight_is_told() {
    let one = "Releasing any one of them ends this fight.";
    check_said("04", &["W", "H", "K"], one);
    let many = "There is more than one fight:";
    check_said("09", &["H", "J", "K", "W"], many);
    check_said(
        "05",
        &["V", "W", "X", "H", "J", "K"],
        "release at least two.",
    );
}

#[test]
fn it_is_said_why_it_drives() {
    for (file, applied, part) in [
        (
            "01",
            &["W", "H", "N"][..],
            "Brake W holds the ring against the reaction, so the sun overruns the carrier, which turns slower the same way.",
        ),
        (
            "01",
            &["V", "K", "M"],
            "the ring overruns the carrier: it turns faster the same way.",
        ),
        (
            "01",
            &["X", "H", "M"],
            "so the direction turns round here: the sun turns the ring the other way, slower.",
        ),
        (
            "04",
            &["H", "J"],
            "Clutch H turns the sun of Set 1 and the sun of Set 2 alike, so Set 1 and Set 2 turn as one piece.",
        ),
        (
            "09",
            &["H", "J"],
            "the small sun and the large sun of Set 2 alike, so Set 2 turns as one piece.",
        ),
        (
            "11",
            &["H", "L"],
            "The fixed sun takes the reaction, so the ring overruns the carrier",
        ),
        (
            "11",
            &["H", "K"],
            "So the input is joined to the output directly.",
        ),
        (
            "06",
            &["V"],
            "Pair 1: the first gear turns the second gear the other way, slower.",
        ),
        (
            "05",
            &["W", "J", "K"],
            "which turns the way of the carrier, but faster.",
        ),
        (
            "03",
            &["W", "H"],
            "Set 2: the sun and the carrier together drive the ring, which turns at a speed between theirs.",
        ),
    ] {
        check_said(file, applied, part);
    }
}

#[test]
fn it_is_said_what_a_fight_forbids() {
    check_said(
        "04",
        &["W", "H", "K"],
        "Were Brake W released, Carrier 1 + ring 2 would turn forward at 1.78 times the input\u{2019}s speed. Releasing any one",
    );
    check_said(
        "01",
        &["V", "W", "H"],
        "the sun would turn forward as fast as the input.",
    );
}

/// A hub turns about an axle, which no housing holds.
#[test]
fn the_housing_goes_by_its_own_name() {
    let Some(text) = said("11", &["H", "L"]) else {
        panic!("it does not parse")
    };
    assert!(!text.contains("housing"), "{text}");
    let folder = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../scenarios/11-three-speed-hub.json"
    );
    let Ok(train) = Train::parse(&std::fs::read_to_string(folder).unwrap_or_default()) else {
        panic!("it does not parse")
    };
    assert_eq!(
        noun_as(train.body_label(crate::Body::Housing), Case::Object),
        "the axle"
    );
    check_said(
        "07",
        &["H"],
        "One-way Q locks Carrier 2 to the housing by itself.",
    );
}
