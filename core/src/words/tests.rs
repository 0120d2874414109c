//! Numbers, lists and sentences, on trains of ours.

use super::*;
use crate::solve::settle::Duty;

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
